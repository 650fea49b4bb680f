#include "sim_core/bench/explore_moves.h"

namespace stirbench::bench::explore {

namespace {

using control::Key;
using S = Step;

constexpr double room_degC = 22.0;
constexpr double cold_degC = -5.0;
constexpr double hot_degC = 120.0;

bool is_press(S step) { return step >= S::press_heat && step <= S::press_rinse; }
bool is_release(S step) { return step >= S::release_heat && step <= S::release_rinse; }
std::size_t key_of(S step) {
  return static_cast<std::size_t>(step) - static_cast<std::size_t>(is_press(step) ? S::press_heat : S::release_heat);
}
S press_of(std::size_t key) { return static_cast<S>(static_cast<std::size_t>(S::press_heat) + key); }
S release_of(std::size_t key) { return static_cast<S>(static_cast<std::size_t>(S::release_heat) + key); }

std::vector<Move> make_moves() {
  std::vector<Move> moves;
  for (std::size_t i = 0; i < static_cast<std::size_t>(S::count); ++i) moves.push_back({static_cast<S>(i), S::none});
  // Two things in the same scan, where the order of the scan's parts decides.
  for (const Move& pair : {Move{S::press_heat, S::press_stir}, Move{S::press_run, S::press_stir}, Move{S::press_heat, S::press_stop}, Move{S::press_stir, S::open_lid},
                           Move{S::press_stir, S::close_lid}, Move{S::press_stir, S::stop_in}, Move{S::press_stir, S::stop_out},
                           Move{S::press_stir, S::feed}, Move{S::press_stir, S::release_stop}, Move{S::release_stop, S::open_lid},
                           Move{S::press_stop, S::close_lid}, Move{S::press_stop, S::open_lid}, Move{S::press_stop, S::feed},
                           Move{S::release_stop, S::feed}, Move{S::release_stop, S::trip_overload}, Move{S::trip_overload, S::trip_cutout}}) {
    moves.push_back(pair);
  }
  return moves;
}

// Sets one of the surroundings' switches; false when it is in that position already.
bool turn(bool& now, bool wanted) {
  if (now == wanted) return false;
  now = wanted;
  return true;
}

// The part of a node that hands and the world move.
struct Hands {
  Around& around;
  std::array<bool, control::key_count>& finger;
};

bool apply_key(const Scope& scope, S step, bool with_another, Hands node) {
  bool& finger = node.finger[key_of(step)];
  if (is_release(step)) return turn(finger, false);
  int down = 0, starts = 0;
  for (std::size_t i = 0; i < control::key_count; ++i) {
    down += node.finger[i] ? 1 : 0;
    starts += node.finger[i] && i != static_cast<std::size_t>(Key::stop) ? 1 : 0;
  }
  if (down >= scope.fingers || (step != S::press_stop && starts > 0 && !with_another)) return false;
  return turn(finger, true);
}

bool apply_step(const Rig& rig, const Scope& scope, S step, bool with_another, Hands node, control::PanelInputs& panel,
                double& probe_degC) {
  Around& a = node.around;
  if ((scope.never & step_bit(step)) != 0) return false;
  if (is_press(step) || is_release(step)) {
    // Without a recipe Run is always refused; only its contact can matter then.
    const bool run = key_of(step) == static_cast<std::size_t>(Key::run);
    if (run && !scope.recipe && rig.parts.keys[key_of(step)] == plant::KeyContact::good) return false;
    return apply_key(scope, step, with_another, node);
  }
  switch (step) {
    case S::open_lid: return turn(a.lid_open, true);
    case S::close_lid: return turn(a.lid_open, false);
    case S::open_cover: return turn(a.cover_open, true);
    case S::close_cover: return turn(a.cover_open, false);
    case S::stop_in: return turn(a.stop_in, true);
    case S::stop_out: return turn(a.stop_in, false);
    case S::isolate: return turn(a.fed, false);
    case S::feed: return turn(a.fed, true);
    case S::trip_overload: return turn(a.overload, true);
    case S::reset_overload: return turn(a.overload, false);
    case S::trip_cutout: return turn(a.cutout, true);
    case S::reset_cutout: return turn(a.cutout, false);
    case S::trip_pressure: return turn(a.pressure, true);
    case S::pressure_right: return turn(a.pressure, false);
    case S::wire_opens: return scope.wire && rig.parts.guard_wire_loose_s > 0.0 && turn(a.wire_open, true);
    case S::wire_closes: return scope.wire && turn(a.wire_open, false);
    case S::choose:
      panel.choose_recipe = 0;
      return scope.recipe;
    case S::confirm:
      panel.confirm = true;
      return scope.recipe;
    case S::acknowledge:
      panel.acknowledge = -1;
      return true;
    case S::probe_cold: probe_degC = cold_degC; return scope.recipe;
    case S::probe_hot: probe_degC = hot_degC; return scope.recipe;
    default: return true;
  }
}

// The hand that does a step on the machine; count when none does.
ActionKind hand_of(S step) {
  using K = ActionKind;
  switch (step) {
    case S::open_lid: return K::open_lid;
    case S::close_lid: return K::close_lid;
    case S::open_cover: return K::open_shaft_cover;
    case S::close_cover: return K::close_shaft_cover;
    case S::stop_in: return K::press_emergency_stop;
    case S::stop_out: return K::release_emergency_stop;
    case S::isolate:
    case S::feed: return K::isolate;
    case S::trip_overload: return K::test_overload;
    case S::reset_overload: return K::reset_overload;
    case S::trip_cutout: return K::test_cutout;
    case S::reset_cutout: return K::reset_cutout;
    case S::trip_pressure: return K::test_pressure;
    case S::choose: return K::choose_recipe;
    case S::confirm: return K::confirm;
    case S::acknowledge: return K::acknowledge;
    default: return K::count;
  }
}

}  // namespace

const std::vector<Move>& all_moves() {
  static const std::vector<Move> moves = make_moves();
  return moves;
}

bool apply(const Rig& rig, const Scope& scope, const Move& move, Node& node, control::PanelInputs& panel, double& probe_degC) {
  probe_degC = room_degC;
  const Hands hands{node.around, node.finger};
  return apply_step(rig, scope, move.first, false, hands, panel, probe_degC) &&
         (move.second == S::none || apply_step(rig, scope, move.second, true, hands, panel, probe_degC));
}

bool can_happen(const Rig& rig, const Scope& scope, const Move& move, const Node& node) {
  Around around = node.around;
  auto finger = node.finger;
  control::PanelInputs panel;
  double probe_degC = 0.0;
  const Hands hands{around, finger};
  return apply_step(rig, scope, move.first, false, hands, panel, probe_degC) &&
         (move.second == S::none || apply_step(rig, scope, move.second, true, hands, panel, probe_degC));
}

Step way_back(const Rig& rig, const Node& node) {
  const Around& a = node.around;
  // Put right what is wrong.
  if (a.stop_in) return S::stop_out;
  if (a.lid_open) return S::close_lid;
  if (a.cover_open) return S::close_cover;
  if (a.overload) return S::reset_overload;
  if (a.cutout) return S::reset_cutout;
  if (a.pressure) return S::pressure_right;
  if (a.wire_open) return S::wire_closes;
  if (!a.fed) return S::feed;
  const bool stands = !control::why_not_start(node.control).empty();
  if (control::mode_moves(node.control.mode) && !stands) return S::none;
  // Hands off the keys, then Stop to clear, then start.
  for (std::size_t i = 0; i < control::key_count; ++i) {
    if (node.finger[i]) return release_of(i);
  }
  // A start key that is stuck gives no fresh press; another does.
  const bool stir_good = rig.parts.keys[static_cast<std::size_t>(Key::stir)] == plant::KeyContact::good;
  return press_of(static_cast<std::size_t>(stands ? Key::stop : stir_good ? Key::stir : Key::heat));
}

std::vector<TimedAction> as_actions(const std::vector<Move>& moves, const std::string& recipe, double begin_s, bool& exact) {
  std::vector<TimedAction> actions;
  const auto add = [&](S step, std::size_t at) {
    TimedAction entry;
    entry.at_s = begin_s + tick_s * static_cast<double>(at);
    Action& action = entry.action;
    if (is_press(step)) {
      action.kind = ActionKind::press;
      action.name = control::key_name(static_cast<Key>(key_of(step)));
      std::size_t until = at + 1;
      const S up = release_of(key_of(step));
      while (until < moves.size() && moves[until].first != up && moves[until].second != up) ++until;
      // A key that the sequence does not release stays down a little longer.
      action.held_s = tick_s * static_cast<double>(until - at) + (until == moves.size() ? 2.0 : 0.0);
      actions.push_back(std::move(entry));
      return;
    }
    if (step == S::none || is_release(step)) return;
    action.kind = hand_of(step);
    if (action.kind == ActionKind::count) {
      exact = false;
      return;
    }
    if (action.kind == ActionKind::isolate) action.on = step == S::isolate;
    if (action.kind == ActionKind::choose_recipe) action.name = recipe;
    if (action.kind == ActionKind::acknowledge) action.name = "all";
    actions.push_back(std::move(entry));
  };
  for (std::size_t i = 0; i < moves.size(); ++i) {
    // Keys let go or pressed after what the hands do at the machine: the panel is read after them anyway.
    add(moves[i].first, i);
    add(moves[i].second, i);
  }
  return actions;
}

}  // namespace stirbench::bench::explore
