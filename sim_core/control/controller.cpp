#include "sim_core/control/controller.h"

#include "sim_core/control/controller_internal.h"

namespace stirbench::control {

ControlState initial_state(const ControlSpec& spec) {
  ControlState state;
  state.heat_target_degC = spec.default_heat_degC;
  state.chill_target_degC = spec.default_chill_degC;
  state.target_degC = spec.default_heat_degC;
  state.heat_integral_norm = spec.hold_bias_norm;
  return state;
}

std::string_view hold_control_name(HoldControl hold) {
  return hold == HoldControl::proportional ? "proportional" : "two_point";
}

Outputs scan(const ScanContext& context, ControlState& state, const plant::SensorReadings& readings,
             const PanelInputs& panel, ScanNotices& notices) {
  Scan s{context, state, readings, panel, notices};
  const Mode mode_before = state.mode;

  // Levels and edges first, also without supply, so that a key that is down when the power comes back has no
  // edge.
  const KeyEdges edges = read_keys(s);
  Outputs outputs;
  if (watch_supply(s)) {
    update_probe_rate(s);
    // Causes before keys: a key pressed in the scan in which the guard opens must meet the alarm.
    watch_causes(s);
    watch_shelves(s);
    // Entries before keys: "choose, then Run" may come within one scan.
    obey_display(s);
    obey_alarm_entries(s);
    // Stop before the start keys: it wins when both are down.
    obey_stop(s, edges);
    obey_start_keys(s, edges);
    // Phases before demand: the outputs belong to the phase that is shown.
    advance_phase(s);
    outputs = demand(s);
  }
  if (state.mode != mode_before)
    notices.push_back({Notice::mode_changed, static_cast<std::int32_t>(state.mode), {}});
  return outputs;
}

std::string_view key_name(Key key) {
  switch (key) {
    case Key::heat: return "heat";
    case Key::chill: return "chill";
    case Key::stir: return "stir";
    case Key::run: return "run";
    case Key::stop: return "stop";
    case Key::rinse: return "rinse";
    case Key::count: break;
  }
  return "";
}

int find_key(std::string_view name) {
  for (std::size_t i = 0; i < key_count; ++i) {
    if (key_name(static_cast<Key>(i)) == name) return static_cast<int>(i);
  }
  return -1;
}

std::string_view mode_name(Mode mode) {
  switch (mode) {
    case Mode::off: return "off";
    case Mode::standby: return "standby";
    case Mode::heating: return "heating";
    case Mode::chilling: return "chilling";
    case Mode::stirring: return "stirring";
    case Mode::running: return "running";
    case Mode::paused: return "paused";
    case Mode::rinsing: return "rinsing";
  }
  return "";
}

bool mode_moves(Mode mode) { return mode != Mode::off && mode != Mode::standby && mode != Mode::paused; }

const Phase* current_phase(const Recipe* recipe, const ControlState& state) {
  if (recipe == nullptr || state.phase < 0) return nullptr;
  const auto index = static_cast<std::size_t>(state.phase);
  return index < recipe->phases.size() ? &recipe->phases[index] : nullptr;
}

double aimed_degC(const Recipe* recipe, const ControlState& state) {
  const Phase* phase = current_phase(recipe, state);
  const bool by_recipe = state.mode == Mode::running || state.mode == Mode::paused;
  return phase != nullptr && by_recipe ? phase->target_degC : state.target_degC;
}

double hold_left_s(const Recipe* recipe, const ControlState& state, double tick_s) {
  const Phase* phase = current_phase(recipe, state);
  if (phase == nullptr || (phase->kind != PhaseKind::hold && phase->kind != PhaseKind::age)) return 0.0;
  // The first scan that sees the target only starts the clock: n scans bound n - 1 ticks.
  const double gone_s = state.hold_ticks > 0 ? static_cast<double>(state.hold_ticks - 1) * tick_s : 0.0;
  return gone_s < phase->duration_s ? phase->duration_s - gone_s : 0.0;
}

}  // namespace stirbench::control
