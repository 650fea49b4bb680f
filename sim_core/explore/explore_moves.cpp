#include "sim_core/explore/explore_moves.h"

#include "sim_core/hands/handles.h"

namespace stirbench::explore {

using hands::Action;
using hands::Contact;
using hands::Turns;

namespace {

using control::Key;
using hands::Action;
using hands::Contact;
using hands::Turns;
using S = Stimulus;

constexpr double room_degC = 22.0;
constexpr double cold_degC = -5.0;
constexpr double hot_degC = 120.0;

bool is_press(S step) { return step >= S::press_heat && step <= S::press_rinse; }
bool is_release(S step) { return step >= S::release_heat && step <= S::release_rinse; }
std::size_t key_of(S step) {
  return static_cast<std::size_t>(step) -
         static_cast<std::size_t>(is_press(step) ? S::press_heat : S::release_heat);
}
S press_of(std::size_t key) { return static_cast<S>(static_cast<std::size_t>(S::press_heat) + key); }
S release_of(std::size_t key) { return static_cast<S>(static_cast<std::size_t>(S::release_heat) + key); }

std::vector<Move> make_moves() {
  std::vector<Move> moves;
  for (std::size_t i = 0; i < static_cast<std::size_t>(S::count); ++i)
    moves.push_back({static_cast<S>(i), S::none});
  // Two things in the same scan, where the order of the scan's parts decides.
  for (const Move& pair :
       {Move{S::press_heat, S::press_stir}, Move{S::press_run, S::press_stir},
        Move{S::press_heat, S::press_stop}, Move{S::press_stir, S::open_lid},
        Move{S::press_stir, S::close_lid}, Move{S::press_stir, S::stop_in}, Move{S::press_stir, S::stop_out},
        Move{S::press_stir, S::feed}, Move{S::press_stir, S::release_stop},
        Move{S::release_stop, S::open_lid}, Move{S::press_stop, S::close_lid},
        Move{S::press_stop, S::open_lid}, Move{S::press_stop, S::feed}, Move{S::release_stop, S::feed},
        Move{S::release_stop, S::trip_overload}, Move{S::trip_overload, S::trip_cutout}}) {
    moves.push_back(pair);
  }
  return moves;
}

// Turns one of the world's switches; false when it stands there already.
bool turn(bool& now, bool wanted) {
  if (now == wanted) return false;
  now = wanted;
  return true;
}

// What a step turns, in the terms of the hands' rows; keys, probe and wire are none of it.
constexpr Turns turns_of(S step) {
  switch (step) {
    case S::open_lid: return {Contact::lid, true};
    case S::close_lid: return {Contact::lid, false};
    case S::open_cover: return {Contact::shaft_cover, true};
    case S::close_cover: return {Contact::shaft_cover, false};
    case S::stop_in: return {Contact::emergency_stop, true};
    case S::stop_out: return {Contact::emergency_stop, false};
    case S::isolate: return {Contact::supply, false};
    case S::feed: return {Contact::supply, true};
    case S::trip_overload: return {Contact::overload, true};
    case S::reset_overload: return {Contact::overload, false};
    case S::trip_cutout: return {Contact::cutout, true};
    case S::reset_cutout: return {Contact::cutout, false};
    case S::trip_pressure: return {Contact::pressure, true};
    case S::pressure_right: return {Contact::pressure, false};
    case S::choose: return {Contact::recipe, true};
    case S::confirm: return {Contact::confirmation, true};
    case S::acknowledge: return {Contact::acknowledgement, true};
    default: return {};
  }
}

// The switch of a node's surroundings that a contact is; null for what stands on the display.
using Switch = bool Surroundings::*;
constexpr Switch switch_of(Contact contact) {
  switch (contact) {
    case Contact::lid: return &Surroundings::lid_open;
    case Contact::shaft_cover: return &Surroundings::cover_open;
    case Contact::emergency_stop: return &Surroundings::stop_in;
    case Contact::supply: return &Surroundings::fed;
    case Contact::overload: return &Surroundings::overload;
    case Contact::cutout: return &Surroundings::cutout;
    case Contact::pressure: return &Surroundings::pressure;
    default: return nullptr;
  }
}

// The same for each step: looked up some hundred million times.
struct Position {
  Switch moved = nullptr;
  bool on = false;
};
constexpr auto positions = [] {
  std::array<Position, static_cast<std::size_t>(S::count)> out{};
  for (std::size_t i = 0; i < out.size(); ++i) {
    const Turns turns = turns_of(static_cast<S>(i));
    out[i] = {switch_of(turns.contact), turns.on};
  }
  return out;
}();

// The part of a node that hands and the world move.
struct Fingers {
  Surroundings& around;
  std::array<bool, control::key_count>& finger;
};

bool apply_key(const ExplorationScope& scope, S step, bool with_another, Fingers node) {
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

bool apply_step(const ControllerModel& rig, const ExplorationScope& scope, S step, bool with_another,
                Fingers node, control::PanelInputs& panel, double& probe_degC) {
  Surroundings& a = node.around;
  if ((scope.never & stimulus_bit(step)) != 0) return false;
  if (is_press(step) || is_release(step)) {
    // Without a recipe Run is always refused; only its contact can matter then.
    const bool run = key_of(step) == static_cast<std::size_t>(Key::run);
    if (run && !scope.recipe && rig.parts.keys[key_of(step)] == plant::KeyContact::good) return false;
    return apply_key(scope, step, with_another, node);
  }
  const Position& position = positions[static_cast<std::size_t>(step)];
  if (position.moved != nullptr) return turn(a.*position.moved, position.on);
  switch (step) {
    case S::wire_opens: return scope.wire && rig.parts.guard_wire_loose_s > 0.0 && turn(a.wire_open, true);
    case S::wire_closes: return scope.wire && turn(a.wire_open, false);
    case S::choose: panel.choose_recipe = 0; return scope.recipe;
    case S::confirm: panel.confirm = true; return scope.recipe;
    case S::acknowledge: panel.acknowledge = -1; return true;
    case S::probe_cold: probe_degC = cold_degC; return scope.recipe;
    case S::probe_hot: probe_degC = hot_degC; return scope.recipe;
    default: return true;
  }
}

// What a person's hands do for a step on the machine: the first row that turns the same contact to the same
// side. No action when none does.
Action action_for(S step, const std::string& recipe) {
  const Turns turns = turns_of(step);
  if (turns.contact == Contact::none) return {};
  if (turns.contact == Contact::supply) return hands::isolate(!turns.on);
  for (const hands::Hand* hand : hands::all()) {
    if (hand->turns.contact != turns.contact || hand->turns.on != turns.on) continue;
    Action action(*hand);
    for (const hands::Parameter* parameter : hand->takes()) {
      if (parameter->type == hands::Type::text)
        action.set(*parameter, turns.contact == Contact::recipe ? recipe : std::string("all"));
    }
    return action;
  }
  return {};
}

}  // namespace

const std::vector<Move>& all_moves() {
  static const std::vector<Move> moves = make_moves();
  return moves;
}

bool apply(const ControllerModel& rig, const ExplorationScope& scope, const Move& move, ExplorationNode& node,
           control::PanelInputs& panel, double& probe_degC) {
  probe_degC = room_degC;
  const Fingers moved{node.around, node.finger};
  return apply_step(rig, scope, move.first, false, moved, panel, probe_degC) &&
         (move.second == S::none || apply_step(rig, scope, move.second, true, moved, panel, probe_degC));
}

bool can_happen(const ControllerModel& rig, const ExplorationScope& scope, const Move& move,
                const ExplorationNode& node) {
  Surroundings around = node.around;
  auto finger = node.finger;
  control::PanelInputs panel;
  double probe_degC = 0.0;
  const Fingers moved{around, finger};
  return apply_step(rig, scope, move.first, false, moved, panel, probe_degC) &&
         (move.second == S::none || apply_step(rig, scope, move.second, true, moved, panel, probe_degC));
}

Stimulus recovery_step(const ControllerModel& rig, const ExplorationNode& node) {
  const Surroundings& a = node.around;
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

std::vector<hands::TimedAction> as_actions(const std::vector<Move>& moves, const std::string& recipe,
                                           double begin_s, bool& exact) {
  std::vector<hands::TimedAction> actions;
  const auto add = [&](S step, std::size_t at) {
    hands::TimedAction entry;
    entry.at_s = begin_s + machine::tick_s * static_cast<double>(at);
    if (is_press(step)) {
      std::size_t until = at + 1;
      const S up = release_of(key_of(step));
      while (until < moves.size() && moves[until].first != up && moves[until].second != up) ++until;
      // One that is not let go in the sequence stays down a little longer.
      const double held_s =
          machine::tick_s * static_cast<double>(until - at) + (until == moves.size() ? 2.0 : 0.0);
      entry.action = hands::press(control::key_name(static_cast<Key>(key_of(step))), held_s);
    } else if (step == S::none || is_release(step)) {
      return;
    } else {
      entry.action = action_for(step, recipe);
    }
    if (entry.action.hand() != nullptr)
      actions.push_back(std::move(entry));
    else
      exact = false;
  };
  for (std::size_t i = 0; i < moves.size(); ++i) {
    // Keys let go or pressed after what the hands do at the machine: the panel is read after them anyway.
    add(moves[i].first, i);
    add(moves[i].second, i);
  }
  return actions;
}

}  // namespace stirbench::explore
