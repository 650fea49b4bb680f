#pragma once

#include <string>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/screens/train/pointing.h"
#include "app/desk/work/fault/search_advice.h"
#include "app/desk/work/run/live_run.h"

// The Now card: the one thing to do, said once and large, with a line of why. Guided runs show it always,
// practice runs when asked, tests never.
namespace stirbench::desk::screens {

struct NowCardState {
  bool hint_open = false;  // practice: the step's words were asked for
  bool why_open = false;   // the longer hint
  bool pointing = false;   // ring and arrow at the step's control
  std::string shown{};     // goal and way of the words shown; hints close when they change
  Pointed pointed{};       // what was last pointed at, in a lesson that asks for parts
  work::SearchAdviser adviser{};
};

struct NowCardRequests {
  bool hint = false;    // asked for in this frame
  bool finish = false;  // "End and see the score"
  bool again = false;   // "Try again": the run cannot pass any more
};

NowCardRequests draw_now_card(kit::Ui& ui, NowCardState& state, const work::LiveRun& run,
                              const kit::Rect& rect);

// Widget to point at for the present advice, given which widgets are on the screen: its own, or the way to
// it (an ingredient when the scale is closed -> the button that opens the scale).
std::string pointed_widget(const work::LiveRun& run, const kit::Registry& registry);

}  // namespace stirbench::desk::screens
