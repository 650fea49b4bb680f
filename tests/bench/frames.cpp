#include <imgui.h>

#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <string>
#include <vector>

#include "app/desk/screens/screens.h"
#include "app/desk/shell/app.h"
#include "app/desk/shell/window.h"
#include "app/desk/work/desk.h"
#include "app/library/library.h"
#include "sim_core/machine/state.h"

// Frame times of the desk at 1280 x 800, beside those of ImGui's own demo window in the same run. Needs a
// display:
//   xvfb-run -s "-screen 0 1280x800x24" build/release/tests/bench_frames
// "first picture" is from the start of the process to the end of the first swap.
namespace {

using namespace stirbench;

struct Stats {
  double median_ms = 0.0;
  double p95_ms = 0.0;
};

Stats stats(const std::vector<desk::shell::FrameTimes>& times) {
  std::vector<double> ms;
  for (const auto& t : times) ms.push_back(1000.0 * t.total_s);
  if (ms.empty()) return {};
  std::sort(ms.begin(), ms.end());
  return {ms[ms.size() / 2], ms[ms.size() * 95 / 100]};
}

void print(const char* what, const Stats& s) {
  std::printf("%-34s median %6.2f ms   95 %% %6.2f ms\n", what, s.median_ms, s.p95_ms);
}

// A run of First batch in the middle of its heating, as busy as the screen gets.
void open_run(desk::work::Desk& d) {
  desk::work::LiveRun::Setup setup;
  const auto& lesson = d.library.lessons.at("first-batch");
  setup.machine = d.library.machine(lesson.machine);
  setup.lesson = lesson;
  setup.program = STIRBENCH_VERSION;
  d.run = std::make_unique<desk::work::LiveRun>(std::move(setup));
  // Hands by the lesson's own right actions, for forty simulated minutes.
  std::size_t next = 0;
  const auto all =
      library::read_actions(d.content_dir + "/lessons/first-batch/right.jsonl", d.run->machine()).actions;
  for (int tick = 0; tick < 24000 && !d.run->over(); ++tick) {
    while (next < all.size() && all[next].at_phase.empty() &&
           all[next].at_s <= machine::time_s(d.run->state())) {
      d.run->act(all[next++].action);
    }
    d.run->step();
  }
}

}  // namespace

int main() {
  const std::string data = std::filesystem::temp_directory_path() / "stirbench-bench-frames";
  std::filesystem::remove_all(data);
  desk::work::DeskOptions options;
  options.data_dir = data;
  auto d = desk::work::open_desk(options);
  desk::shell::Window window({.vsync = false});
  if (!window.ok()) {
    std::fprintf(stderr, "%s\n", window.error().c_str());
    return 4;
  }
  desk::shell::AppOptions app_options;
  app_options.data_dir = data;
  app_options.content_dir = d->content_dir;
  desk::shell::App app(window, app_options);
  app.add_screens(desk::screens::all_screens(*d));
  app.start();
  app.run_frame(false);
  std::printf("first picture                      %.0f ms\n", 1000.0 * window.first_picture_s());

  const auto measure = [&](const char* what, int count) {
    for (int i = 0; i < 20; ++i) app.run_frame(false);
    window.clear_frame_times();
    for (int i = 0; i < count; ++i) app.run_frame(false);
    print(what, stats(window.frame_times()));
  };
  measure("home", 200);
  open_run(*d);
  app.push("train");
  measure("training screen, machine running", 400);
  d->solid_view = true;
  measure("the same with the solid view", 400);
  d->solid_view = false;
  app.home(true);
  app.push("recipes");
  measure("recipe bench", 200);

  window.clear_frame_times();
  for (int i = 0; i < 200; ++i) {
    window.draw_frame([] {}, [] { ImGui::ShowDemoWindow(); });
  }
  print("ImGui's own demo window", stats(window.frame_times()));
  std::filesystem::remove_all(data);
  return 0;
}
