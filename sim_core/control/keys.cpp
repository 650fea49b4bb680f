#include <cmath>

#include "sim_core/control/controller_internal.h"

// Keys and the display's entries: edges, what each asks for, why it is refused.
namespace stirbench::control {

namespace {

constexpr std::size_t index_of(Key key) { return static_cast<std::size_t>(key); }

// Sets out in the mode a start key asks for; the reason when it cannot.
std::string_view start(Scan& scan, Key key) {
  ControlState& state = scan.state;
  const std::string_view reason = why_not_key(scan.recipe(), state, key);
  if (!reason.empty()) return reason;
  switch (key) {
    case Key::heat:
      state.mode = Mode::heating;
      state.target_degC = state.heat_target_degC;
      break;
    case Key::chill:
      state.mode = Mode::chilling;
      state.target_degC = state.chill_target_degC;
      break;
    case Key::stir: state.mode = Mode::stirring; break;
    case Key::rinse: state.mode = Mode::rinsing; break;
    case Key::run: begin_recipe(scan); return {};
    case Key::stop:
    case Key::count: return {};
  }
  state.heat_demand = false;
  state.chill_demand = false;
  return {};
}

}  // namespace

KeyEdges read_keys(Scan& scan) {
  KeyEdges edges;
  ControlState& state = scan.state;
  constexpr std::size_t stop = index_of(Key::stop);
  const bool any_starts = !scan.ruled(InterlockRule::start_wants_fresh_press);
  const bool watched = scan.readings.supply_on || scan.ruled(InterlockRule::keys_watched_without_supply);
  edges.stop_released = !scan.panel.key[stop] && state.key_down[stop];
  for (std::size_t i = 0; i < key_count; ++i) {
    const bool down = scan.panel.key[i];
    edges.pressed[i] = down && (!state.key_down[i] || (i != stop && any_starts));
    if (watched) state.key_down[i] = down;
  }
  return edges;
}

void obey_stop(Scan& scan, const KeyEdges& edges) {
  ControlState& state = scan.state;
  bool& armed = state.key_armed[index_of(Key::stop)];
  const bool down = scan.panel.key[index_of(Key::stop)];
  if (edges.pressed[index_of(Key::stop)]) {
    if (scan.ruled(InterlockRule::stop_acknowledges)) acknowledge_all(scan);
    if (mode_moves(state.mode) && scan.ruled(InterlockRule::stop_stops)) stop_everything(scan);
    armed = causes_right(state) || !scan.ruled(InterlockRule::clear_wants_causes_right);
    if (!armed) scan.refuse(why_not_start(state), static_cast<std::int32_t>(Key::stop));
  } else if (down && !scan.ruled(InterlockRule::clear_wants_fresh_press)) {
    armed = causes_right(state);
  }
  // A cause that comes back while the key is down spoils this press.
  const bool spoils =
      scan.ruled(InterlockRule::cause_spoils_press) && scan.ruled(InterlockRule::clear_wants_causes_right);
  if (!causes_right(state) && spoils) armed = false;
  if (edges.stop_released || (armed && !scan.ruled(InterlockRule::clear_on_release))) {
    const bool had = any_latched(state);
    if (armed) clear_latched(scan);
    if (had && !any_latched(state) && !scan.ruled(InterlockRule::clear_starts_nothing))
      restart_by_itself(scan);
    armed = false;
  }
}

void obey_start_keys(Scan& scan, const KeyEdges& edges) {
  int fresh = 0;
  Key key = Key::count;
  for (std::size_t i = 0; i < key_count; ++i) {
    if (!edges.pressed[i] || i == index_of(Key::stop)) continue;
    ++fresh;
    key = static_cast<Key>(i);
  }
  if (fresh == 0) return;
  std::string_view reason =
      scan.ruled(InterlockRule::alarms_refuse_start) ? why_not_start(scan.state) : std::string_view();
  // Also in the scan that sees Stop released: resetting and starting are two commands, one after the other.
  const bool stop_down = scan.state.key_down[index_of(Key::stop)] || edges.stop_released;
  if (reason.empty() && stop_down && scan.ruled(InterlockRule::stop_down_refuses_start)) {
    reason = "Let go of Stop first, then press again.";
  }
  if (reason.empty() && fresh > 1 && scan.ruled(InterlockRule::one_start_key))
    reason = "Press one key at a time.";
  if (reason.empty()) reason = start(scan, key);
  if (!reason.empty()) scan.refuse(reason, static_cast<std::int32_t>(key));
}

std::string_view why_not_key(const Recipe* recipe, const ControlState& state, Key key) {
  if (key == Key::run) {
    if (recipe == nullptr) return "Choose a recipe first.";
    return state.mode == Mode::running ? "The recipe is already running." : "";
  }
  if (key != Key::stop && state.mode == Mode::running) return "The recipe is running. Press Stop first.";
  if (key == Key::rinse && state.phase >= 0 && !state.recipe_done)
    return "A recipe is under way. Finish it, or choose a recipe again to give it up.";
  return {};
}

std::string_view why_not_choose(const ControlState& state) {
  if (state.mode == Mode::off) return "The display is dark: there is no supply.";
  if (mode_moves(state.mode)) return "The machine is running. Press Stop first.";
  return {};
}

std::string_view why_not_confirm(const Recipe* recipe, const ControlState& state) {
  if (state.mode == Mode::off) return "The display is dark: there is no supply.";
  const Phase* phase = current_phase(recipe, state);
  if (phase == nullptr || phase->kind != PhaseKind::add || state.confirmed)
    return "The display asks for nothing now.";
  if (state.mode != Mode::running && state.mode != Mode::paused)
    return "Press Run to go on with the recipe first.";
  if (any_latched(state)) return why_not_start(state);
  return {};
}

std::string_view why_not_target(const ControlSpec& spec, const ControlState& state, double target_degC) {
  if (state.mode == Mode::off) return "The display is dark: there is no supply.";
  // Written so that a value that is not a number is refused too.
  if (!(target_degC >= spec.lowest_target_degC && target_degC <= spec.highest_target_degC)) {
    return "That target is outside the machine's range.";
  }
  return {};
}

void obey_display(Scan& scan) {
  ControlState& state = scan.state;
  const PanelInputs& panel = scan.panel;
  if (panel.choose_recipe >= 0) {
    std::string_view reason = why_not_choose(state);
    const bool known = static_cast<std::size_t>(panel.choose_recipe) < scan.context.recipes.size();
    if (reason.empty() && !known) reason = "There is no such recipe.";
    if (reason.empty()) {
      // Choosing, even the same one again, gives up a batch that was under way: it starts from the first
      // phase.
      abort_recipe(scan);
      state.recipe = panel.choose_recipe;
      state.recipe_id_hash =
          recipe_id_hash(scan.context.recipes[static_cast<std::size_t>(panel.choose_recipe)].id);
    } else {
      scan.refuse(reason);
    }
  }
  if (panel.set_target) {
    const std::string_view reason = why_not_target(scan.context.spec, state, panel.target_degC);
    if (reason.empty()) {
      // One entry serves two keys: while heating or chilling it is for that; else above the probe is for
      // Heat.
      const bool for_chill = state.mode == Mode::chilling ||
                             (state.mode != Mode::heating && panel.target_degC < scan.readings.probe_degC);
      (for_chill ? state.chill_target_degC : state.heat_target_degC) = panel.target_degC;
      state.target_degC = panel.target_degC;
    } else {
      scan.refuse(reason);
    }
  }
  if (panel.confirm) {
    const std::string_view reason = why_not_confirm(scan.recipe(), state);
    if (reason.empty())
      state.confirmed = true;
    else
      scan.refuse(reason);
  }
}

}  // namespace stirbench::control
