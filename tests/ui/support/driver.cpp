#define GLFW_INCLUDE_NONE
#include "tests/ui/support/driver.h"

#include <GLFW/glfw3.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "app/desk/screens/screens.h"

// Last: its macros are greedy.
#include "tests/ui/support/x_events.h"

namespace stirbench::ui_test {

struct Driver::Impl {
  std::unique_ptr<desk::shell::Window> window;
  std::unique_ptr<desk::shell::App> app;
  std::unique_ptr<XEvents> x;
  long long clock_readings = 0;

  GLFWwindow* glfw() const { return static_cast<GLFWwindow*>(window->native()); }
  ImVec2 on_screen(ImVec2 point) const {
    int left = 0;
    int top = 0;
    glfwGetWindowPos(glfw(), &left, &top);
    return {point.x + static_cast<float>(left), point.y + static_cast<float>(top)};
  }
};

namespace {

constexpr int settle_frames = 4;
constexpr int patience_frames = 12;
constexpr double frame_s = 0.016;
constexpr double reading_s =
    2e-5;  // each reading takes a little too, so that what runs until a budget of time is used up ends

bool same(const desk::kit::Rect& a, const desk::kit::Rect& b) {
  return std::abs(a.x - b.x) < 0.5F && std::abs(a.y - b.y) < 0.5F && std::abs(a.w - b.w) < 0.5F &&
         std::abs(a.h - b.h) < 0.5F;
}

double percentile(std::vector<double> values, double share) {
  if (values.empty()) return 0.0;
  std::sort(values.begin(), values.end());
  const auto at = static_cast<std::size_t>(share * static_cast<double>(values.size() - 1) + 0.5);
  return values[at];
}

}  // namespace

Driver::Driver(const DriverOptions& options) : impl_(std::make_unique<Impl>()) {
  desk::shell::WindowOptions window_options;
  window_options.width = options.width;
  window_options.height = options.height;
  window_options.vsync = false;
  if (options.time_by_frames) {
    window_options.clock = [impl = impl_.get()] {
      const long long frames = impl->window ? impl->window->frames() : 0;
      return frame_s * static_cast<double>(frames) + reading_s * static_cast<double>(++impl->clock_readings);
    };
  }
  impl_->window = std::make_unique<desk::shell::Window>(window_options);
  if (!impl_->window->ok()) throw std::runtime_error(impl_->window->error());
  impl_->x = std::make_unique<XEvents>();
  desk::shell::AppOptions app_options;
  app_options.data_dir = options.data_dir;
  app_options.content_dir = options.content_dir;
  app_options.first_screen = options.first_screen;
  app_options.first_args = options.first_args;
  impl_->app = std::make_unique<desk::shell::App>(*impl_->window, app_options);
  impl_->app->add_screen("sheet", desk::screens::make_control_sheet);
  if (options.set_up) options.set_up(*impl_->app);
  if (!impl_->app->error().empty()) throw std::runtime_error(impl_->app->error());
  impl_->app->start();
  frames(settle_frames);
  // Without a window manager nobody else gives the window the keyboard.
  glfwFocusWindow(impl_->glfw());
  if (!wait_for([this] { return impl_->window->active(); }))
    throw std::runtime_error("The window does not get the keyboard.");
  frames(settle_frames);
}

Driver::~Driver() {
  impl_->app.reset();
  impl_->window.reset();
}

desk::shell::App& Driver::app() { return *impl_->app; }
desk::shell::Window& Driver::window() { return *impl_->window; }

void Driver::frames(int count) {
  for (int i = 0; i < count; ++i) impl_->app->run_frame(false);
}

bool Driver::wait_for(const std::function<bool()>& predicate, int max_frames) {
  for (int i = 0; i < max_frames; ++i) {
    if (predicate()) return true;
    frames(1);
  }
  return predicate();
}

bool Driver::has(std::string_view id) { return app().registry().find(id) != nullptr; }

desk::kit::Widget Driver::widget(std::string_view id, int max_frames) {
  desk::kit::Rect before;
  bool seen = false;
  for (int i = 0; i < max_frames; ++i) {
    const desk::kit::Widget* found = app().registry().find(id);
    if (found != nullptr && seen && found->visible && same(found->rect, before)) return *found;
    seen = found != nullptr;
    if (seen) {
      before = found->rect;
      if (!found->visible) app().registry().scroll_to(id);
    }
    frames(1);
  }
  std::string drawn;
  for (const desk::kit::Widget& other : app().registry().all())
    drawn += " " + other.id + (other.visible ? "" : "(hidden)");
  throw std::runtime_error("No widget \"" + std::string(id) + "\" at rest within " +
                           std::to_string(max_frames) + " frames. Drawn:" + drawn);
}

void Driver::move_to(std::string_view id) {
  const ImVec2 wanted = widget(id).visible_rect.centre();
  const ImVec2 screen = impl_->on_screen(wanted);
  impl_->x->move(static_cast<int>(screen.x), static_cast<int>(screen.y));
  const auto arrived = [wanted] {
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    return std::abs(mouse.x - wanted.x) <= 1.5F && std::abs(mouse.y - wanted.y) <= 1.5F;
  };
  if (!wait_for(arrived)) throw std::runtime_error("The pointer does not reach \"" + std::string(id) + "\".");
  frames(2);
}

void Driver::click(std::string_view id) {
  // What was just done may be what allows it, and a tick has to pass first: a person sees the control come
  // alive and presses then.
  for (int i = 0; i < patience_frames && !widget(id).enabled; ++i) frames(1);
  move_to(id);
  // A message lies over it: a click takes the message away and reaches nothing below.
  const ImVec2 point = widget(id).visible_rect.centre();
  const auto covered = [this, point] {
    const auto& drawn = app().registry().all();
    return std::any_of(drawn.begin(), drawn.end(), [point](const desk::kit::Widget& one) {
      return one.kind == "toast" && one.rect.contains(point);
    });
  };
  for (int i = 0; i < 4 && covered(); ++i) press_and_release();
  press_and_release();
}

void Driver::press_and_release() {
  impl_->x->button(1, true);
  if (!wait_for([] { return ImGui::GetIO().MouseDown[0]; }))
    throw std::runtime_error("The press does not arrive.");
  frames(1);
  impl_->x->button(1, false);
  if (!wait_for([] { return !ImGui::GetIO().MouseDown[0]; }))
    throw std::runtime_error("The release does not arrive.");
  frames(settle_frames);
}

void Driver::drag(std::string_view id, float by_x, float by_y) {
  move_to(id);
  const ImVec2 from = impl_->on_screen(widget(id).visible_rect.centre());
  impl_->x->button(1, true);
  frames(3);
  constexpr int steps = 8;
  for (int i = 1; i <= steps; ++i) {
    const float share = static_cast<float>(i) / static_cast<float>(steps);
    impl_->x->move(static_cast<int>(from.x + by_x * share), static_cast<int>(from.y + by_y * share));
    frames(1);
  }
  frames(2);
  impl_->x->button(1, false);
  frames(settle_frames);
}

void Driver::hover(ImVec2 at) {
  const ImVec2 there = impl_->on_screen(at);
  impl_->x->move(static_cast<int>(there.x), static_cast<int>(there.y));
  frames(3);
}

void Driver::trace(const std::vector<ImVec2>& way, bool release) {
  hover(way.front());
  impl_->x->button(1, true);
  frames(3);
  for (const ImVec2& one : way) hover(one);
  frames(2);
  if (release) let_go();
}

void Driver::let_go() {
  impl_->x->button(1, false);
  frames(settle_frames);
}

void Driver::drag_to(std::string_view id, std::string_view target) {
  const ImVec2 to = widget(target).visible_rect.centre();
  const ImVec2 from = widget(id).visible_rect.centre();
  drag(id, to.x - from.x, to.y - from.y);
}

void Driver::wheel(std::string_view id, int notches_down) {
  move_to(id);
  for (int i = 0; i < std::abs(notches_down); ++i) {
    const unsigned int which = notches_down > 0 ? 5 : 4;
    impl_->x->button(which, true);
    impl_->x->button(which, false);
    frames(2);
  }
  frames(settle_frames);
}

void Driver::press(std::string_view key) {
  std::vector<std::string> names;
  std::size_t start = 0;
  for (std::size_t plus = key.find('+'); plus != std::string_view::npos && plus + 1 < key.size();
       plus = key.find('+', start)) {
    names.emplace_back(key.substr(start, plus - start));
    start = plus + 1;
  }
  names.emplace_back(key.substr(start));
  for (const std::string& name : names) {
    impl_->x->key(name, true);
    frames(2);
  }
  for (auto name = names.rbegin(); name != names.rend(); ++name) {
    impl_->x->key(*name, false);
    frames(2);
  }
  frames(2);
}

void Driver::type(std::string_view text) {
  for (const char letter : text) {
    impl_->x->character(letter, true);
    frames(1);
    impl_->x->character(letter, false);
    frames(1);
  }
  frames(2);
}

void Driver::fill(std::string_view id, std::string_view text) {
  click(id);
  press("ctrl+a");
  if (text.empty()) press("BackSpace");
  type(text);
  press("Tab");
}

void Driver::screenshot(const std::string& file) {
  frames(2);
  if (const std::string problem = window().screenshot(file); !problem.empty())
    throw std::runtime_error(problem);
}

FrameStats Driver::measure(int count) {
  frames(10);
  window().clear_frame_times();
  frames(count);
  std::vector<double> total;
  std::vector<double> build;
  for (const desk::shell::FrameTimes& times : window().frame_times()) {
    total.push_back(times.total_s * 1e3);
    build.push_back(times.build_s * 1e3);
  }
  return {static_cast<int>(total.size()), percentile(total, 0.5), percentile(total, 0.95),
          percentile(build, 0.5)};
}

}  // namespace stirbench::ui_test
