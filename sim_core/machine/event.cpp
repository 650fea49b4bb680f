#include "sim_core/machine/event.h"

namespace stirbench::machine {

std::string_view event_name(EventKind kind) {
  switch (kind) {
    case EventKind::acted: return "acted";
    case EventKind::refused: return "refused";
    case EventKind::alarm_raised: return "alarm_raised";
    case EventKind::alarm_cleared: return "alarm_cleared";
    case EventKind::phase_began: return "phase_began";
    case EventKind::recipe_finished: return "recipe_finished";
    case EventKind::hold_restarted: return "hold_restarted";
    case EventKind::mode_changed: return "mode_changed";
    case EventKind::harm: return "harm";
    case EventKind::spilled: return "spilled";
    case EventKind::boiled_over: return "boiled_over";
    case EventKind::overload_tripped: return "overload_tripped";
    case EventKind::cutout_tripped: return "cutout_tripped";
    case EventKind::alarm_state: return "alarm_state";
    case EventKind::other_person: return "other_person";
    case EventKind::instructor: return "instructor";
    case EventKind::count: break;
  }
  return "";
}

}  // namespace stirbench::machine
