#include "app/desk/shell/app.h"

#include "app/desk/screens/takes_files.h"
#include "app/desk/shell/drops.h"

#include <GLFW/glfw3.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/spot.h"
#include "app/library/reading/paths.h"

namespace stirbench::desk::shell {

using kit::tr;

struct App::Request {
  enum class Kind { push, replace, back, home, quit, settings, work } kind = Kind::work;
  std::string name{};
  screens::ScreenArgs args{};
  bool without_asking = false;
  screens::Settings settings{};
  std::function<void()> work{};
};

App::App(Window& window, AppOptions options)
    : window_(window), options_(std::move(options)), fonts_(kit::find_fonts()) {
  error_ = fonts_.error;
  if (!error_.empty()) return;
  const SettingsLoad load = load_settings(options_.data_dir);
  settings_ = load.settings;
  if (!load.message.empty()) toast(kit::Status::bad, load.message, 12.0);
  if (const std::string problem = library::make_writable(options_.data_dir); !problem.empty())
    toast(kit::Status::bad, problem, 12.0);
  load_language();
}

App::~App() = default;

void App::load_language() {
  const kit::CatalogueResult result = kit::load_catalogue(options_.content_dir, settings_.language);
  if (!result.error.empty()) toast(kit::Status::bad, result.error, 12.0);
  use_catalogue(result.catalogue);
}

void App::add_screens(const std::map<std::string, screens::ScreenMaker>& makers) {
  for (const auto& [name, maker] : makers) add_screen(name, maker);
}

void App::add_screen(const std::string& name, screens::ScreenMaker maker) {
  makers_[name] = std::move(maker);
}

std::vector<std::string> App::screen_names() const {
  std::vector<std::string> names;
  for (const auto& [name, maker] : makers_) names.push_back(name);
  return names;
}

void App::start() {
  if (!error_.empty()) return;
  push(options_.first_screen, options_.first_args);
  kit::Ui ui = make_ui();
  carry_out(ui);
}

void App::push(const std::string& name, const screens::ScreenArgs& args) {
  requests_.push_back({.kind = Request::Kind::push, .name = name, .args = args});
}
void App::replace(const std::string& name, const screens::ScreenArgs& args) {
  requests_.push_back({.kind = Request::Kind::replace, .name = name, .args = args});
}
void App::back(bool without_asking) {
  requests_.push_back({.kind = Request::Kind::back, .without_asking = without_asking});
}
void App::home(bool without_asking) {
  requests_.push_back({.kind = Request::Kind::home, .without_asking = without_asking});
}
void App::quit(bool without_asking) {
  requests_.push_back({.kind = Request::Kind::quit, .without_asking = without_asking});
}
void App::change_settings(const screens::Settings& settings) {
  requests_.push_back({.kind = Request::Kind::settings, .settings = settings});
}
void App::later(std::function<void()> work) {
  requests_.push_back({.kind = Request::Kind::work, .work = std::move(work)});
}

void App::toast(kit::Status state, const std::string& words, double seconds) {
  // Said twice at once is said once, for longer.
  std::erase_if(toasts_, [&](const Toast& old) { return old.words == words; });
  toasts_.push_back({state, words, window_.now_s() + seconds});
  if (toasts_.size() > 4) toasts_.erase(toasts_.begin());
  window_.request_frame();
}

screens::Screen* App::top() { return stack_.empty() ? nullptr : stack_.back().get(); }

void App::wake_at(double time_s) { window_.wake_at(time_s); }

std::unique_ptr<screens::Screen> App::make(const std::string& name, const screens::ScreenArgs& args) {
  const auto found = makers_.find(name);
  if (found == makers_.end()) {
    toast(kit::Status::bad, tr("There is no screen called {name}.", {{"name", name}}));
    return nullptr;
  }
  std::unique_ptr<screens::Screen> screen = found->second(args);
  screen->belong_to(*this);
  return screen;
}

kit::Ui App::make_ui() {
  const double now = window_.now_s();
  const double passed = last_frame_s_ < 0.0 ? 0.0 : std::clamp(now - last_frame_s_, 0.0, 0.1);
  return kit::Ui{.theme = theme_,
                 .registry = registry_,
                 .host = *this,
                 .units = settings_.units,
                 .reduced_motion = settings_.reduced_motion,
                 .now_s = now,
                 .dt_s = passed,
                 .area = {},
                 .draw = nullptr};
}

void App::before_frame() {
  theme_.set_kind(settings_.theme);
  const float dpi = window_.dpi_scale();
  if (dpi != built_dpi_ || settings_.text_percent != built_percent_) {
    const float text_scale = static_cast<float>(settings_.text_percent) / 100.0F;
    const std::string problem = kit::FontSet::build(theme_, *ImGui::GetIO().Fonts, fonts_, dpi, text_scale);
    if (!problem.empty()) error_ = problem;
    window_.refresh_fonts();
    built_dpi_ = dpi;
    built_percent_ = settings_.text_percent;
  }
  apply_style(theme_);
  // The ground comes from clearing the picture: a whole layer less to paint.
  const ImVec4 paper = theme_.colour(kit::Token::paper).vec();
  window_.set_ground(paper.x, paper.y, paper.z);
}

// To the screen that is shown, when it does something with files; else to the one that does.
static void hand_file(App& app, const std::string& path) {
  if (auto* takes = dynamic_cast<screens::TakesFiles*>(app.top())) {
    takes->take_file(path);
    app.animate();
  } else {
    app.push("own", {{"log", path}});
  }
}

bool App::run_frame(bool wait) {
  if (!error_.empty()) {
    closing_ = true;
    return false;
  }
  const auto before = [this] { before_frame(); };
  const auto build = [this] { build_frame(); };
  bool drawn = true;
  if (wait) {
    drawn = window_.run_frame(before, build);
  } else {
    window_.draw_frame(before, build);
  }
  if (window_.should_close()) {
    window_.keep_open();
    quit();
  }
  if (const std::vector<std::string> files = take_dropped_files(); !files.empty())
    hand_file(*this, files.front());
  kit::Ui ui = make_ui();
  if (drawn) last_frame_s_ = ui.now_s;
  carry_out(ui);
  screens::Screen* screen = top();
  if (animate_ || (screen != nullptr && screen->animating())) window_.request_frame();
  animate_ = false;
  if (screen != nullptr && screen->wake_at_s() >= 0.0) window_.wake_at(screen->wake_at_s());
  return drawn;
}

void App::run() {
  while (!closing_) run_frame(true);
}

void App::carry_out(kit::Ui& ui) {
  // Requests may cause further requests; those wait for the next frame, so a screen cannot loop here.
  std::vector<Request> due;
  std::swap(due, requests_);
  for (Request& request : due) carry_out_one(ui, request);
  if (!due.empty()) window_.request_frame();
}

void App::carry_out_one(kit::Ui& ui, Request& request) {
  using Kind = Request::Kind;
  const auto may_leave = [&] { return request.without_asking || top() == nullptr || top()->may_leave(ui); };
  switch (request.kind) {
    case Kind::work:
      if (request.work) request.work();
      return;
    case Kind::settings: {
      const bool language = request.settings.language != settings_.language;
      settings_ = request.settings;
      if (language) load_language();
      if (const std::string problem = save_settings(settings_, options_.data_dir); !problem.empty())
        toast(kit::Status::bad, problem, 12.0);
      ui.units = settings_.units;
      ui.reduced_motion = settings_.reduced_motion;
      for (const auto& screen : stack_) screen->settings_changed(ui);
      return;
    }
    case Kind::quit: closing_ = closing_ || may_leave(); return;
    case Kind::push:
    case Kind::replace: {
      if (request.kind == Kind::replace && !may_leave()) return;
      std::unique_ptr<screens::Screen> screen = make(request.name, request.args);
      if (screen == nullptr) return;
      if (request.kind == Kind::replace && !stack_.empty()) stack_.pop_back();
      stack_.push_back(std::move(screen));
      break;
    }
    case Kind::back:
      if (stack_.size() < 2 || !may_leave()) return;
      stack_.pop_back();
      break;
    case Kind::home:
      if (stack_.size() < 2 || !may_leave()) return;
      stack_.resize(1);
      break;
  }
  registry_.stop_pointing();
  tools_width_ = 0.0F;
  if (top() != nullptr) top()->entered(ui);
}

}  // namespace stirbench::desk::shell
