#pragma once

#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/run/live_run.h"

// Finding and mending at hand: what was taken up to now, the cause one names, its repair, the hand-off, the
// proof.
namespace stirbench::desk::screens {

struct FaultHandsState {
  std::string system = "heating";  // whose causes are listed
  std::string cause;               // id of the cause looked at; empty: none
};

void draw_fault_group(kit::Ui& ui, FaultHandsState& state, const work::LiveRun& run,
                      std::vector<hands::Action>& out);

}  // namespace stirbench::desk::screens
