#include "sim_core/bench/other_people.h"

#include <algorithm>
#include <cmath>

#include "sim_core/hands/mending.h"
#include "sim_core/hands/procedure.h"
#include "sim_core/machine/record_harm.h"
#include "sim_core/plant/pace.h"

// Another person who comes by and wants to use the machine, a colleague who works on it with you, and
// residual energies.
namespace stirbench::bench {

using machine::Event;
using machine::HarmId;
using machine::Lockout;
using machine::Padlock;

namespace {

void report_person(State& state, std::vector<Event>& events, std::string text, const char* name) {
  events.push_back({state.tick, machine::EventKind::other_person, -1, std::move(text), 0.0, name});
}

void colleague(State& state, std::vector<Event>& events) {
  Lockout& lockout = state.lockout;
  if (lockout.situation.colleague_work_s <= 0.0 || lockout.colleague_done) return;
  if (!lockout.colleague_working) {
    const bool held = !state.plant.fittings.isolator_on && lockout.yours.on && !lockout.yours.on_neighbour;
    if (!held || lockout.colleagues.on) return;
    lockout.colleagues = {.on = true, .tag = true};
    lockout.colleague_working = true;
    lockout.colleague_until_tick =
        state.tick +
        static_cast<std::uint64_t>(lockout.situation.colleague_work_s * machine::ticks_per_second);
    report_person(state, events,
                  "Your colleague hangs their own padlock and tag beside yours and begins to work.",
                  "colleague_begins");
    return;
  }
  if (state.plant.fittings.isolator_on) {
    machine::record_harm(state, HarmId::colleague_hurt, 1.0, events);
    return;
  }
  if (state.tick < lockout.colleague_until_tick) return;
  lockout.colleague_working = false;
  lockout.colleague_done = true;
  lockout.colleagues = {};
  report_person(
      state, events,
      "Your colleague has finished, is clear of the machine, and has taken the own padlock and tag off.",
      "colleague_done");
}

// Switches on an isolator without a lock and presses a start key, as a person does who was not told.
void second_person(State& state, std::vector<Event>& events) {
  Lockout& lockout = state.lockout;
  if (lockout.situation.second_person_s < 0.0 || lockout.second_came || !lockout.began) return;
  const double since_s = static_cast<double>(state.tick - lockout.began_tick) / machine::ticks_per_second;
  if (since_s < lockout.situation.second_person_s) return;
  lockout.second_came = true;
  if (machine::floor_wet(state) && !state.floor_sign_up) {
    machine::record_harm(state, HarmId::slipped, machine::on_floor_kg(state), events);
    return;
  }
  if (!state.plant.fittings.isolator_on) {
    if (machine::isolator_held(lockout)) {
      report_person(state, events,
                    "Somebody comes by and wants to switch on. A padlock holds the isolator: it stays off.",
                    "held_by_lock");
      return;
    }
    const bool opened = machine::any_lock_on(lockout);
    lockout.yours = lockout.yours.on_neighbour ? lockout.yours : Padlock{.tag = lockout.yours.tag};
    lockout.colleagues =
        lockout.colleagues.on_neighbour ? lockout.colleagues : Padlock{.tag = lockout.colleagues.tag};
    state.plant.fittings.isolator_on = true;
    hands::isolator_turned_on(state);
    report_person(
        state, events,
        opened ? "Somebody comes by, opens the padlock with the key that was in reach, and switches on."
               : "Somebody comes by, sees no padlock, and switches on. A tag alone holds nothing.",
        "switched_on");
  } else {
    report_person(state, events,
                  "Somebody comes by and presses Stir: nothing told them that you work on the machine.",
                  "pressed_start");
  }
  std::uint32_t& key = state.key_ticks_left[static_cast<std::size_t>(control::Key::stir)];
  key = std::max(key, 3U);
}

// The supply fails and returns at the lesson's times.
void power_cut(State& state, std::vector<Event>& events) {
  const machine::Scenario& situation = state.lockout.situation;
  if (situation.power_cut_at_s < 0.0) return;
  double& before_norm = state.lockout.supply_before_norm;
  const double since_s = machine::time_s(state) - situation.power_cut_at_s;
  const bool cut = since_s >= -1.0e-6 && since_s < situation.power_cut_for_s - 1.0e-6;
  plant::Environment& room = state.plant.environment;
  if (cut && before_norm <= 0.0 && room.supply_norm > 0.0) {
    before_norm = room.supply_norm;
    room.supply_norm = 0.0;
    plant::invalidate_pace(state.plant);
    report_person(state, events, "The lights go out: the supply has failed.", "power_failed");
  } else if (!cut && before_norm > 0.0) {
    room.supply_norm = before_norm;
    before_norm = 0.0;
    plant::invalidate_pace(state.plant);
    report_person(state, events, "The lights come on again.", "power_back");
  }
}

}  // namespace

void other_people(const Machine& machine, State& state, std::vector<Event>& events) {
  power_cut(state, events);
  if (state.injured) return;
  colleague(state, events);
  hands::advance_hand_over(machine, state, events);
  if (!state.injured) second_person(state, events);
}

void stored_energies(const Machine& machine, State& state) {
  Lockout& lockout = state.lockout;
  // Capacitor: at the supply's peak while fed, then down with exp(-t / RC); one tick's factor.
  constexpr double tick_decay = 0.99501247919268231;  // exp(-tick_s / capacitor_tau_s)
  if (state.plant.fittings.isolator_on && state.plant.environment.supply_norm > 0.0) {
    constexpr double root_two = 1.41421356237309515;
    lockout.capacitor_V = root_two * machine.plant.supply_V * state.plant.environment.supply_norm;
  } else {
    lockout.capacitor_V *= tick_decay;
  }
  if (state.plant.freezer.line_bar > machine::released_bar)
    hands::unmark(state, machine::LockoutStep::hose_gone);
}

}  // namespace stirbench::bench
