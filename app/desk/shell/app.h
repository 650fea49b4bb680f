#pragma once

#include <functional>
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "app/desk/kit/theme/fonts.h"
#include "app/desk/kit/theme/theme.h"
#include "app/desk/kit/widgets/feedback.h"
#include "app/desk/kit/widgets/registry.h"
#include "app/desk/screens/screen.h"
#include "app/desk/shell/settings_file.h"
#include "app/desk/shell/window.h"

namespace stirbench::desk::shell {

struct AppOptions {
  std::string data_dir;     // where settings.json lives; made when absent
  std::string content_dir;  // for content/text
  std::string first_screen = "home";
  screens::ScreenArgs first_args;
};

// The shell: a stack of screens, one top bar, toasts, settings. Screens ask; requests are carried out between
// two frames.
class App final : public kit::Host, public screens::Shell {
 public:
  App(Window& window, AppOptions options);
  ~App();
  App(const App&) = delete;
  App& operator=(const App&) = delete;

  // Not empty: cannot start (fonts missing); says why and what to do.
  const std::string& error() const { return error_; }

  // Screens by name, all before start().
  void add_screens(const std::map<std::string, screens::ScreenMaker>& makers);
  void add_screen(const std::string& name, screens::ScreenMaker maker);
  std::vector<std::string> screen_names() const;
  void start();

  // screens::Shell.
  void push(const std::string& name, const screens::ScreenArgs& args = {}) override;
  void replace(const std::string& name, const screens::ScreenArgs& args = {}) override;
  void back(bool without_asking = false) override;
  const screens::Settings& settings() const override { return settings_; }
  void change_settings(const screens::Settings& settings) override;
  double now_s() const override { return window_.now_s(); }
  void wake() const override { Window::wake_from_any_thread(); }

  // kit::Host.
  void animate() override { animate_ = true; }
  void wake_at(double time_s) override;
  void toast(kit::Status state, const std::string& words, double seconds = 5.0) override;

  // Requests of the shell's own, like those of the screens carried out after the frame.
  void home(bool without_asking = false);
  void quit(bool without_asking = false);
  // Called after the frame, outside ImGui.
  void later(std::function<void()> work);

  const AppOptions& options() const { return options_; }
  Window& window() { return window_; }
  kit::Registry& registry() { return registry_; }
  kit::Theme& theme() { return theme_; }
  screens::Screen* top();
  std::size_t depth() const { return stack_.size(); }

  // One turn of the loop; true when a frame was drawn. `wait` false = never sleep, always draw (tests,
  // measuring).
  bool run_frame(bool wait = true);
  // Until the window is closed.
  void run();
  bool closing() const { return closing_; }

 private:
  struct Toast {
    kit::Status state;
    std::string words;
    double until_s;
    kit::Rect drawn{};  // where it stood in the last frame
  };
  struct Request;

  void before_frame();
  void build_frame();
  void draw_top_bar(kit::Ui& ui);
  void draw_back_and_titles(kit::Ui& ui, const screens::TopBar& bar, kit::Rect& room);
  void draw_toasts(kit::Ui& ui);
  void dismiss_toasts();
  void handle_keys(kit::Ui& ui);
  void carry_out(kit::Ui& ui);
  void carry_out_one(kit::Ui& ui, Request& request);
  void load_language();
  static void apply_style(const kit::Theme& theme);
  kit::Ui make_ui();
  std::unique_ptr<screens::Screen> make(const std::string& name, const screens::ScreenArgs& args);

  Window& window_;
  AppOptions options_;
  std::string error_;
  screens::Settings settings_;
  kit::Theme theme_;
  kit::Registry registry_;
  kit::FontFiles fonts_;
  std::map<std::string, screens::ScreenMaker> makers_;
  std::vector<std::unique_ptr<screens::Screen>> stack_;
  std::vector<Request> requests_;
  std::vector<Toast> toasts_;
  float built_dpi_ = 0.0F;
  int built_percent_ = 0;
  float tools_width_ = 0.0F;
  double last_frame_s_ = -1.0;
  bool animate_ = false;
  bool closing_ = false;
};

}  // namespace stirbench::desk::shell
