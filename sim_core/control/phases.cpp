#include <cmath>

#include "sim_core/control/controller_internal.h"

// The recipe: entering, timing and ending phases.
namespace stirbench::control {

namespace {

void enter_phase(Scan& scan, std::int32_t index) {
  ControlState& state = scan.state;
  state.phase = index;
  state.phase_ticks = 0;
  state.hold_ticks = 0;
  state.cycle_ticks = 0;
  state.confirmed = false;
  set_prompt(scan, AlarmId::hold_broken, false);
  scan.notices.push_back({Notice::phase_began, index, {}});
  const Phase* phase = current_phase(scan.recipe(), state);
  set_prompt(scan, AlarmId::addition_waiting, phase->kind == PhaseKind::add);
  if (phase->kind == PhaseKind::keep) {
    state.recipe_done = true;
    scan.notices.push_back({Notice::recipe_finished, index, {}});
  }
}

// A recipe without a keep phase ends in standby.
void finish_recipe(Scan& scan) {
  scan.notices.push_back({Notice::recipe_finished, scan.state.phase, {}});
  abort_recipe(scan);
  scan.state.recipe_done = true;
  stop_everything(scan);
}

// Whether a clock of `hold_ticks` scans has run for duration_s. The first scan at the target starts the
// clock, so n scans bound n - 1 ticks: a hold is never a tick short.
bool clock_ran(const Scan& scan, double duration_s) {
  const double needed = std::round(duration_s / scan.context.tick_s);
  return static_cast<double>(scan.state.hold_ticks) > needed;
}

bool hold_ended(Scan& scan, const Phase& phase) {
  ControlState& state = scan.state;
  if (scan.readings.probe_degC >= phase.target_degC) {
    ++state.hold_ticks;
    set_prompt(scan, AlarmId::hold_broken, false);
  } else {
    restart_hold(scan);
  }
  return clock_ran(scan, phase.duration_s);
}

bool age_ended(Scan& scan, const Phase& phase) {
  // Ageing adds up the time spent cold; a warm spell interrupts it but does not undo it.
  constexpr double still_cold_K = 1.0;
  if (scan.readings.probe_degC <= phase.target_degC + still_cold_K) ++scan.state.hold_ticks;
  return clock_ran(scan, phase.duration_s);
}

bool phase_ended(Scan& scan, const Phase& phase) {
  switch (phase.kind) {
    case PhaseKind::heat: return scan.readings.probe_degC >= phase.target_degC;
    case PhaseKind::add: return scan.state.confirmed;
    case PhaseKind::hold: return hold_ended(scan, phase);
    case PhaseKind::chill: return scan.readings.probe_degC <= phase.target_degC;
    case PhaseKind::age: return age_ended(scan, phase);
    case PhaseKind::keep: return false;
  }
  return false;
}

// Asks for the next phase's addition a little before the target is reached, so that it can be weighed in
// time. Only the asking comes early: the confirmation counts in the add phase.
void ask_ahead(Scan& scan, const Phase& phase) {
  const auto next = static_cast<std::size_t>(scan.state.phase) + 1;
  const double ahead_s = scan.context.spec.prompt_ahead_s;
  if (!(ahead_s > 0.0) || next >= scan.recipe()->phases.size()) return;
  if (scan.recipe()->phases[next].kind != PhaseKind::add) return;
  const double to_go_K = phase.target_degC - scan.readings.probe_degC;
  const double soon_K = scan.state.probe_rate_K_per_s * ahead_s;  // what the probe will move by until then
  const bool warming = phase.kind == PhaseKind::heat && soon_K > 0.0 && soon_K >= to_go_K;
  const bool cooling = phase.kind == PhaseKind::chill && soon_K < 0.0 && soon_K <= to_go_K;
  if (warming || cooling) set_prompt(scan, AlarmId::addition_waiting, true);
}

}  // namespace

void begin_recipe(Scan& scan) {
  ControlState& state = scan.state;
  if (scan.recipe()->phases.empty()) {
    scan.refuse("The recipe has no phases.", static_cast<std::int32_t>(Key::run));
    return;
  }
  state.mode = Mode::running;
  state.heat_demand = false;
  state.chill_demand = false;
  if (state.phase >= 0) return;  // goes on where it was paused
  state.recipe_done = false;
  enter_phase(scan, 0);
}

void restart_hold(Scan& scan) {
  const Phase* phase = current_phase(scan.recipe(), scan.state);
  if (phase == nullptr || phase->kind != PhaseKind::hold || scan.state.hold_ticks == 0) return;
  scan.state.hold_ticks = 0;
  scan.notices.push_back({Notice::hold_restarted, scan.state.phase, {}});
  set_prompt(scan, AlarmId::hold_broken, true);
}

void abort_recipe(Scan& scan) {
  ControlState& state = scan.state;
  state.phase = -1;
  state.phase_ticks = 0;
  state.hold_ticks = 0;
  state.cycle_ticks = 0;
  state.confirmed = false;
  state.recipe_done = false;
  if (state.mode == Mode::paused) state.mode = Mode::standby;
  set_prompt(scan, AlarmId::addition_waiting, false);
  set_prompt(scan, AlarmId::hold_broken, false);
}

void advance_phase(Scan& scan) {
  ControlState& state = scan.state;
  const Phase* phase = current_phase(scan.recipe(), state);
  if (phase == nullptr) return;
  ++state.phase_ticks;
  if (phase->kind == PhaseKind::add) set_prompt(scan, AlarmId::addition_waiting, !state.confirmed);
  if (state.mode != Mode::running) return;
  if (phase->kind == PhaseKind::age || phase->kind == PhaseKind::keep) ++state.cycle_ticks;
  if (!phase_ended(scan, *phase)) {
    ask_ahead(scan, *phase);
    return;
  }
  const std::int32_t next = state.phase + 1;
  if (static_cast<std::size_t>(next) < scan.recipe()->phases.size()) {
    enter_phase(scan, next);
  } else {
    finish_recipe(scan);
  }
}

}  // namespace stirbench::control
