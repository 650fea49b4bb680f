#pragma once

#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/desk.h"

namespace stirbench::desk::screens {

// What the instructor's panel remembers between frames. Signing in here does not change who the run belongs
// to.
struct InstructorState {
  bool open = false;
  bool signed_in = false;
  records::Access access;
  std::string name;  // of who signed in
  std::string who;   // as typed
  std::string pin;
  std::string problem;
  double room_degC = 22.0;
  double supply_percent = 100.0;
  int ingredient = 0;
  double delivered_degC = 5.0;
  int fault = 0;
  double severity_percent = 100.0;
  std::string note;
};

// Fresh values from the run as it stands; called when the panel opens.
void open_instructor(InstructorState& state, work::Desk& desk);

// The panel in place of the things at hand: conditions, faults, clock, what was seen. First asks for a PIN
// where the records have a manager. Returns what the instructor does; the caller hands it to
// LiveRun::instruct.
std::vector<hands::Action> draw_instructor(kit::Ui& ui, InstructorState& state, work::Desk& desk,
                                           const kit::Rect& rect);

}  // namespace stirbench::desk::screens
