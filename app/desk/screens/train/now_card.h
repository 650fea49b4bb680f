#pragma once

#include <optional>
#include <string>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/screens/train/pointing.h"
#include "app/desk/work/run/live_run.h"
// The Now card: help with the one thing to do, by rungs. Guided runs begin at the rung that what the person
// has shown before leaves to them, practice runs with none; further ones are asked for one by one. Tests have
// none.
namespace stirbench::desk::screens {

struct NowCardState {
  int rungs = 0;          // of the ladder of help (guidance/ladder.h), how many are shown
  bool why_open = false;  // with the last rung: the longer words
  bool pointing = false;  // ring and arrow at the step's control
  std::string shown{};    // goal and way of the words shown; hints close when they change
  Pointed pointed{};      // what was last pointed at, in a lesson that asks for parts
};

struct NowCardRequests {
  std::optional<training::Rung> rung{};  // asked for in this frame
  bool finish = false;                   // "End and see the score"
  bool again = false;                    // "Try again": the run cannot pass any more
  bool rewind = false;                   // "Back 30 seconds"
};

NowCardRequests draw_now_card(kit::Ui& ui, NowCardState& state, const work::LiveRun& run,
                              const kit::Rect& rect);

// Widget to point at for the present advice, given which widgets are on the screen: its own, or the way to
// it (an ingredient when the scale is closed -> the button that opens the scale).
std::string pointed_widget(const work::LiveRun& run, const kit::Registry& registry);

}  // namespace stirbench::desk::screens
