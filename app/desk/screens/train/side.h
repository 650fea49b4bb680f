#pragma once

#include <vector>

#include "app/desk/screens/train/at_hand.h"
#include "app/desk/screens/train/instructor_panel.h"
#include "app/desk/views/panel/panel.h"
#include "app/desk/work/desk.h"

namespace stirbench::desk::screens {

// What was done at the side in a frame, in order.
struct SideWork {
  std::vector<hands::Action> hands;       // for LiveRun::act
  std::vector<hands::Action> instructed;  // for LiveRun::instruct
};

// The right of the training screen: the machine's own panel, below it the things at hand or the instructor,
// and over all of it the sheet of alarms when it was asked for.
class TrainSide {
 public:
  // `alone`: no other dialog lies over the screen; the sheet of alarms waits until then.
  SideWork draw(kit::Ui& ui, work::Desk& desk, bool alone, kit::Rect rect);

  AtHandState& at_hand() { return at_hand_; }
  // The button in the top bar: opens the instructor's panel; closes it again, signing out, unless the clock
  // stands.
  bool instructing() const { return instructor_.open; }
  void toggle_instructor(work::Desk& desk);

  void begin_afresh();

 private:
  views::PanelState panel_;
  AtHandState at_hand_;
  InstructorState instructor_;
  bool alarms_open_ = false;
};

}  // namespace stirbench::desk::screens
