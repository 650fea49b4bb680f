#include "app/desk/shell/window.h"

#include "app/desk/shell/drops.h"

#include <GLFW/glfw3.h>
#include <backends/imgui_impl_glfw.h>
#include <backends/imgui_impl_opengl3.h>
#include <glad/gl.h>
#include <imgui.h>
#include <stb_image_write.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <cmath>
#include <cstdint>
#include <utility>

#include "app/desk/shell/window_icon.h"

namespace stirbench::desk::shell {

namespace {

using Clock = std::chrono::steady_clock;

// Set while the program is loaded, before main(): the time of the first picture counts from here.
const Clock::time_point process_start = Clock::now();
double process_s() { return std::chrono::duration<double>(Clock::now() - process_start).count(); }

std::string& last_glfw_error() {
  static std::string value;
  return value;
}

void remember_error(int code, const char* words) {
  last_glfw_error() = std::string(words == nullptr ? "" : words) + " (code " + std::to_string(code) + ")";
}

std::atomic<bool>& woken_from_outside() {
  static std::atomic<bool> value{false};
  return value;
}

constexpr int settle_frames = 3;  // after input: hover, focus and layout settle within three frames
constexpr std::size_t kept_times = 4096;
constexpr double longest_wait_s = 30.0;
constexpr double shortest_frame_s = 0.012;  // bound of motion when the display does not pace us
constexpr const char* way_out =
    " The desk needs a display with OpenGL 3.3. Without one, run lessons headless: stirbench lesson run ID "
    "--actions FILE.";

}  // namespace

struct Window::Impl {
  GLFWwindow* window = nullptr;
  std::string error;
  bool vsync = true;
  bool glfw_started = false;
  bool imgui_started = false;
  int pending_frames = settle_frames;
  double wake_s = -1.0;
  double first_picture_s = -1.0;
  double last_start_s = -1.0;  // by the process's clock, as the limit on frames a second is
  std::function<double()> clock = process_s;
  long long frames = 0;
  std::vector<FrameTimes> times;
  std::array<float, 3> ground{0.0F, 0.0F, 0.0F};

  void open(const WindowOptions& options);
  void install_callbacks();
  void start_imgui();
  void draw(const std::function<void()>& before, const std::function<void()>& build);
  static Impl* of(GLFWwindow* w) { return static_cast<Impl*>(glfwGetWindowUserPointer(w)); }
  void touched() { pending_frames = settle_frames; }
};

void Window::Impl::open(const WindowOptions& options) {
  vsync = options.vsync;
  glfwSetErrorCallback(remember_error);
  if (glfwInit() == GLFW_FALSE) {
    error = "Cannot open a window: " + last_glfw_error() + "." + way_out;
    return;
  }
  glfw_started = true;
  glfwWindowHint(GLFW_CONTEXT_VERSION_MAJOR, 3);
  glfwWindowHint(GLFW_CONTEXT_VERSION_MINOR, 3);
  glfwWindowHint(GLFW_OPENGL_PROFILE, GLFW_OPENGL_CORE_PROFILE);
  glfwWindowHint(GLFW_OPENGL_FORWARD_COMPAT, GLFW_TRUE);
  glfwWindowHint(GLFW_SCALE_TO_MONITOR, GLFW_TRUE);
  glfwWindowHint(GLFW_VISIBLE, options.visible ? GLFW_TRUE : GLFW_FALSE);
  // Edges are smoothed by ImGui's own geometry; multisampling would cost the software renderer a multiple.
  glfwWindowHint(GLFW_SAMPLES, 0);
  glfwWindowHint(GLFW_DEPTH_BITS, 0);
  glfwWindowHint(GLFW_STENCIL_BITS, 0);
  window = glfwCreateWindow(options.width, options.height, options.title.c_str(), nullptr, nullptr);
  if (window == nullptr) {
    error = "Cannot open a window: " + last_glfw_error() + "." + way_out;
    return;
  }
  float scale_x = 1.0F;
  float scale_y = 1.0F;
  glfwGetWindowContentScale(window, &scale_x, &scale_y);
  glfwSetWindowSizeLimits(window, static_cast<int>(960.0F * scale_x), static_cast<int>(640.0F * scale_y),
                          GLFW_DONT_CARE, GLFW_DONT_CARE);
  glfwMakeContextCurrent(window);
  if (gladLoadGL(reinterpret_cast<GLADloadfunc>(glfwGetProcAddress)) == 0) {
    error = std::string("Cannot open a window: OpenGL functions could not be loaded.") + way_out;
    return;
  }
  glfwSwapInterval(vsync ? 1 : 0);
  const IconPicture picture = draw_window_icon(64);
  std::vector<unsigned char> pixels = picture.rgba;
  const GLFWimage image{picture.side, picture.side, pixels.data()};
  glfwSetWindowIcon(window, 1, &image);
  glfwSetWindowUserPointer(window, this);
}

namespace {
std::vector<std::string> dropped;
}  // namespace

std::vector<std::string> take_dropped_files() { return std::exchange(dropped, {}); }

// Before ImGui's own, which then call these too.
void Window::Impl::install_callbacks() {
  glfwSetCursorPosCallback(window, [](GLFWwindow* w, double, double) { of(w)->touched(); });
  glfwSetCursorEnterCallback(window, [](GLFWwindow* w, int) { of(w)->touched(); });
  glfwSetMouseButtonCallback(window, [](GLFWwindow* w, int, int, int) { of(w)->touched(); });
  glfwSetScrollCallback(window, [](GLFWwindow* w, double, double) { of(w)->touched(); });
  glfwSetKeyCallback(window, [](GLFWwindow* w, int, int, int, int) { of(w)->touched(); });
  glfwSetCharCallback(window, [](GLFWwindow* w, unsigned int) { of(w)->touched(); });
  glfwSetFramebufferSizeCallback(window, [](GLFWwindow* w, int, int) { of(w)->touched(); });
  glfwSetWindowRefreshCallback(window, [](GLFWwindow* w) { of(w)->touched(); });
  glfwSetWindowFocusCallback(window, [](GLFWwindow* w, int) { of(w)->touched(); });
  glfwSetWindowCloseCallback(window, [](GLFWwindow* w) { of(w)->touched(); });
  glfwSetDropCallback(window, [](GLFWwindow* w, int count, const char** paths) {
    dropped.insert(dropped.end(), paths, paths + count);
    of(w)->touched();
  });
  glfwSetWindowContentScaleCallback(window, [](GLFWwindow* w, float, float) { of(w)->touched(); });
}

void Window::Impl::start_imgui() {
  IMGUI_CHECKVERSION();
  ImGui::CreateContext();
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.LogFilename = nullptr;
  io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
  // A blinking caret would redraw for ever.
  io.ConfigInputTextCursorBlink = false;
  io.ConfigWindowsMoveFromTitleBarOnly = true;
  ImGui_ImplGlfw_InitForOpenGL(window, true);
  ImGui_ImplOpenGL3_Init("#version 330 core");
  // Tab walks through all named controls (registry), not only through ImGui's text inputs.
  io.KeyMap[ImGuiKey_Tab] = -1;
  imgui_started = true;
}

void Window::Impl::draw(const std::function<void()>& before, const std::function<void()>& build) {
  const Clock::time_point start = Clock::now();
  last_start_s = process_s();
  pending_frames = std::max(pending_frames - 1, 0);
  if (before) before();
  ImGui_ImplOpenGL3_NewFrame();
  ImGui_ImplGlfw_NewFrame();
  ImGui::NewFrame();
  if (build) build();
  ImGui::Render();
  const Clock::time_point built = Clock::now();
  int width = 0;
  int height = 0;
  glfwGetFramebufferSize(window, &width, &height);
  glViewport(0, 0, width, height);
  glClearColor(ground[0], ground[1], ground[2], 1.0F);
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  // Without vsync the frame counts until the picture is finished and handed over; with it the swap only
  // waits.
  if (!vsync) glFinish();
  Clock::time_point rendered = Clock::now();
  glfwSwapBuffers(window);
  if (!vsync) rendered = Clock::now();
  ++frames;
  if (first_picture_s < 0.0) {
    glFinish();
    first_picture_s = process_s();
  }
  if (times.size() >= kept_times) times.erase(times.begin(), times.begin() + kept_times / 2);
  times.push_back({std::chrono::duration<double>(built - start).count(),
                   std::chrono::duration<double>(rendered - built).count(),
                   std::chrono::duration<double>(rendered - start).count()});
}

Window::Window(const WindowOptions& options) : impl_(std::make_unique<Impl>()) {
  if (options.clock) impl_->clock = options.clock;
  impl_->open(options);
  if (!impl_->error.empty()) return;
  impl_->install_callbacks();
  impl_->start_imgui();
}

Window::~Window() {
  if (impl_->imgui_started) {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplGlfw_Shutdown();
    ImGui::DestroyContext();
  }
  if (impl_->window != nullptr) glfwDestroyWindow(impl_->window);
  if (impl_->glfw_started) glfwTerminate();
}

bool Window::ok() const { return impl_->error.empty(); }
const std::string& Window::error() const { return impl_->error; }

bool Window::run_frame(const std::function<void()>& before, const std::function<void()>& build) {
  double wait = longest_wait_s;
  if (impl_->wake_s >= 0.0) wait = std::min(wait, impl_->wake_s - now_s());
  if (impl_->pending_frames > 0) wait = impl_->last_start_s + shortest_frame_s - process_s();
  // A hidden window draws nothing, whatever moves in it.
  const bool hidden = glfwGetWindowAttrib(impl_->window, GLFW_ICONIFIED) != 0;
  if (hidden) wait = std::max(wait, 0.2);
  if (wait > 0.0) {
    glfwWaitEventsTimeout(wait);
  } else {
    glfwPollEvents();
  }
  if (woken_from_outside().exchange(false)) impl_->touched();
  if (impl_->wake_s >= 0.0 && now_s() >= impl_->wake_s) {
    impl_->wake_s = -1.0;
    impl_->pending_frames = std::max(impl_->pending_frames, 1);
  }
  if (impl_->pending_frames == 0 || (hidden && impl_->frames > 0)) return false;
  if (process_s() < impl_->last_start_s + shortest_frame_s * 0.9) return false;
  impl_->draw(before, build);
  return true;
}

void Window::draw_frame(const std::function<void()>& before, const std::function<void()>& build) {
  glfwPollEvents();
  impl_->draw(before, build);
}

bool Window::should_close() const { return glfwWindowShouldClose(impl_->window) != 0; }
void Window::request_close() { glfwSetWindowShouldClose(impl_->window, GLFW_TRUE); }
void Window::keep_open() { glfwSetWindowShouldClose(impl_->window, GLFW_FALSE); }

void Window::request_frame() { impl_->pending_frames = std::max(impl_->pending_frames, 1); }

void Window::wake_at(double time_s) {
  if (impl_->wake_s < 0.0 || time_s < impl_->wake_s) impl_->wake_s = std::max(time_s, 0.0);
}

void Window::wake_from_any_thread() {
  woken_from_outside() = true;
  glfwPostEmptyEvent();
}

double Window::now_s() const { return impl_->clock(); }
double Window::first_picture_s() const { return impl_->first_picture_s; }
long long Window::frames() const { return impl_->frames; }
const std::vector<FrameTimes>& Window::frame_times() const { return impl_->times; }
void Window::clear_frame_times() { impl_->times.clear(); }
bool Window::active() const { return glfwGetWindowAttrib(impl_->window, GLFW_FOCUSED) != 0; }
void* Window::native() const { return impl_->window; }

float Window::dpi_scale() const {
  float scale_x = 1.0F;
  float scale_y = 1.0F;
  glfwGetWindowContentScale(impl_->window, &scale_x, &scale_y);
  // Where the system scales the framebuffer itself, lengths are already in scaled pixels.
  int width = 0;
  int height = 0;
  int pixel_width = 0;
  int pixel_height = 0;
  glfwGetWindowSize(impl_->window, &width, &height);
  glfwGetFramebufferSize(impl_->window, &pixel_width, &pixel_height);
  const float ratio =
      width > 0 && pixel_width > 0 ? static_cast<float>(pixel_width) / static_cast<float>(width) : 1.0F;
  return std::clamp(scale_x / ratio, 0.5F, 4.0F);
}

void Window::set_ground(float red, float green, float blue) { impl_->ground = {red, green, blue}; }

void Window::refresh_fonts() {
  ImGui_ImplOpenGL3_DestroyFontsTexture();
  ImGui_ImplOpenGL3_CreateFontsTexture();
}

Window::Picture Window::picture() {
  Picture out;
  glfwGetFramebufferSize(impl_->window, &out.width, &out.height);
  const auto row = static_cast<std::size_t>(out.width) * 3;
  std::vector<unsigned char> upside_down(row * static_cast<std::size_t>(out.height));
  // The back buffer is undefined after a swap: draw the last frame again and read it before the swap.
  if (ImGui::GetDrawData() == nullptr) return out;
  glViewport(0, 0, out.width, out.height);
  glClearColor(impl_->ground[0], impl_->ground[1], impl_->ground[2],
               1.0F);  // fills left their own colour there
  glClear(GL_COLOR_BUFFER_BIT);
  ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
  glPixelStorei(GL_PACK_ALIGNMENT, 1);
  glReadBuffer(GL_BACK);
  glReadPixels(0, 0, out.width, out.height, GL_RGB, GL_UNSIGNED_BYTE, upside_down.data());
  out.rgb.resize(upside_down.size());
  for (int y = 0; y < out.height; ++y) {
    const auto from = static_cast<std::ptrdiff_t>(row * static_cast<std::size_t>(out.height - 1 - y));
    std::copy_n(upside_down.begin() + from, row,
                out.rgb.begin() + static_cast<std::ptrdiff_t>(row * static_cast<std::size_t>(y)));
  }
  return out;
}

std::string Window::screenshot(const std::string& file) {
  const Picture shot = picture();
  if (shot.rgb.empty()) return "No picture has been drawn yet.";
  if (stbi_write_png(file.c_str(), shot.width, shot.height, 3, shot.rgb.data(), shot.width * 3) == 0) {
    return file + ": the picture could not be written. Choose a folder that exists and can be written.";
  }
  return {};
}

}  // namespace stirbench::desk::shell
