#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

namespace stirbench::desk::shell {

struct WindowOptions {
  std::string title = "Stirbench";
  int width = 1280;
  int height = 800;
  bool vsync = true;  // false for measuring
  bool visible = true;
  std::function<double()>
      clock;  // seconds, rising; empty: the steady clock from the start of the process. Tests own time by it.
};

// CPU time of one frame: build, render and buffer swap, without waiting for the display.
struct FrameTimes {
  double build_s = 0.0;
  double render_s = 0.0;
  double total_s = 0.0;
};

// One OS window with an OpenGL 3.3 core context and an ImGui context. Draws a frame only when there was
// input, somebody asked for motion, or a wake-up time is due. One per process.
class Window {
 public:
  // Never throws; when it could not be opened, ok() is false and error() says why and what to do.
  explicit Window(const WindowOptions& options);
  ~Window();
  Window(const Window&) = delete;
  Window& operator=(const Window&) = delete;

  bool ok() const;
  const std::string& error() const;

  // Waits for events at most until something is due, then draws one frame if one is needed. Returns true when
  // a frame was drawn. `build` is called between the start and the end of the ImGui frame, `before` (fonts,
  // theme) just before it starts.
  bool run_frame(const std::function<void()>& before, const std::function<void()>& build);
  // The same without waiting: handles events and always draws.
  void draw_frame(const std::function<void()>& before, const std::function<void()>& build);

  bool should_close() const;
  void request_close();
  void keep_open();  // takes a request to close back

  // Asks for frames: the next one at once; one at a time (window clock); as fast as the display for a while.
  void request_frame();
  void wake_at(double time_s);
  // Thread-safe: lets run_frame return from its wait and draw.
  static void wake_from_any_thread();

  double now_s() const;            // by WindowOptions::clock
  double first_picture_s() const;  // process start to the end of the first swap; < 0 before
  float dpi_scale() const;
  long long frames() const;
  const std::vector<FrameTimes>& frame_times() const;  // the last 4096
  void clear_frame_times();
  bool active() const;  // has the OS focus

  // What the picture is cleared to, 0..1.
  void set_ground(float red, float green, float blue);

  // Uploads the font atlas again after it was rebuilt.
  void refresh_fonts();

  // PNG of what the window shows. Empty = written, else the message.
  std::string screenshot(const std::string& file);
  // The same picture as RGB bytes, top row first.
  struct Picture {
    int width = 0;
    int height = 0;
    std::vector<unsigned char> rgb;
  };
  Picture picture();

  void* native() const;  // GLFWwindow*

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

}  // namespace stirbench::desk::shell
