#include "app/desk/screens/train/speed_bar.h"

#include <array>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;

void draw_speed_bar(kit::Ui& ui, work::Pacing& pacing, const work::LiveRun& run) {
  const bool paused = pacing.paused();
  if (icon_button(ui, "speed.pause", paused ? kit::Icon::play : kit::Icon::pause,
                  paused ? tr("Let time run") : tr("Hold time"), {.selected = paused})) {
    pacing.pause(!paused);
  }
  static constexpr std::array<int, 4> speeds = {1, 10, 60, 300};
  for (const int speed : speeds) {
    same_line(ui);
    const bool selected = !pacing.rushing() && !paused && static_cast<int>(pacing.speed()) == speed;
    if (chip(ui, "speed." + std::to_string(speed), std::to_string(speed) + "×", selected)) {
      pacing.rush(false);
      pacing.pause(false);
      pacing.set_speed(speed);
    }
  }
  same_line(ui);
  const bool idle = !run.something_runs();
  if (button(ui, "speed.next", tr("to my next step"),
             {.enabled = !idle,
              .reason = tr("Nothing is running: the machine waits for you."),
              .selected = pacing.rushing()})) {
    pacing.rush(true);
  }
}

}  // namespace stirbench::desk::screens
