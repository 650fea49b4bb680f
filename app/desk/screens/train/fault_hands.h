#pragma once

#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/run/live_run.h"

// Finding and mending at hand: what was taken up to now, the cause one names, its repair, the report for a
// colleague, the proof.
namespace stirbench::desk::screens {

struct FaultHandsState {
  std::string system = "heating";  // whose causes are listed
  std::string cause;               // id of the cause looked at; empty: none
  bool report_open = false;        // the report for a colleague
  std::string suspected;           // id of the cause that it suspects; empty: not known
};

// The report for a colleague: what was found, how the machine is left, what is suspected; then how far the
// colleague is, and what they gave back with.
void draw_hand_over(kit::Ui& ui, FaultHandsState& state, const work::LiveRun& run,
                    std::vector<hands::Action>& out);

void draw_fault_group(kit::Ui& ui, FaultHandsState& state, const work::LiveRun& run,
                      std::vector<hands::Action>& out);

}  // namespace stirbench::desk::screens
