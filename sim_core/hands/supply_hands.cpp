#include "sim_core/hands/handles.h"
#include "sim_core/hands/procedure.h"
#include "sim_core/plant/plant.h"

// Isolators, emergency stop, protecting devices.
namespace stirbench::hands {

namespace {

constexpr Flag on{"on", "true: isolated, the machine is without supply"};
constexpr Flag neighbour_on{"on", "true: isolated, that machine is without supply"};

std::string why_not_isolate(const Machine&, const State& state, const Action& action) {
  const machine::Lockout& lockout = state.lockout;
  const bool off = action.get(on);
  if (!off) {
    for (const std::int32_t wire : state.work.wires_off) {
      if (wire != 0) return "Wires are off their terminals. Put them back first.";
    }
    if (lockout.yours.on && !lockout.yours.on_neighbour)
      return "Your padlock holds the isolator. Take it off first.";
    if (lockout.colleagues.on && !lockout.colleagues.on_neighbour) {
      return "Your colleague's padlock holds the isolator. Only they take it off.";
    }
  }
  if (off == state.plant.fittings.isolator_on) return "";
  return off ? "The machine is already isolated." : "The isolator is already on.";
}

Outcome isolator_turned(Scene& scene, const Action& action) {
  State& state = scene.state;
  const bool off = action.get(on);
  state.plant.fittings.isolator_on = !off;
  state.lockout.neighbour_last = false;
  if (off) {
    work_began(state);
    isolator_turned_off(state);
  } else {
    isolator_turned_on(state);
  }
  return {};
}

double isolate_min(const Machine&, const Action& action) { return action.get(on) ? 1.0 : 2.0; }

std::string why_not_neighbour(const Machine&, const State& state, const Action& action) {
  const bool off = action.get(neighbour_on);
  if (off == !state.lockout.neighbour_isolated) return "";
  return off ? "That isolator is already off." : "That isolator is already on.";
}

Outcome neighbour_turned(Scene& scene, const Action& action) {
  machine::Lockout& lockout = scene.state.lockout;
  lockout.neighbour_isolated = action.get(neighbour_on);
  lockout.neighbour_last = true;
  if (lockout.neighbour_isolated) work_began(scene.state);
  return {};
}

std::string why_not_press_stop(const Machine&, const State& state, const Action&) {
  return state.plant.safety.emergency_stop_in ? "The emergency stop is already pressed." : "";
}

std::string why_not_release_stop(const Machine&, const State& state, const Action&) {
  return state.plant.safety.emergency_stop_in ? "" : "The emergency stop is not pressed.";
}

template <bool in>
Outcome stop_turned(Scene& scene, const Action&) {
  scene.state.plant.safety.emergency_stop_in = in;
  return {};
}

std::string why_not_reset_overload(const Machine&, const State& state, const Action&) {
  return state.plant.overload_tripped ? "" : "The overload relay has not tripped.";
}

Outcome overload_reset(Scene& scene, const Action&) {
  plant::reset_overload(scene.state.plant);
  return scene.state.plant.overload_tripped
             ? Outcome::resisted("The overload relay is still hot. Wait, then reset it.")
             : Outcome();
}

std::string why_not_reset_cutout(const Machine&, const State& state, const Action&) {
  return state.plant.cutout_tripped ? "" : "The heater cut-out has not tripped.";
}

Outcome cutout_reset(Scene& scene, const Action&) {
  plant::reset_cutout(scene.machine.plant, scene.state.plant);
  return scene.state.plant.cutout_tripped
             ? Outcome::resisted("The heater cut-out is still hot. Wait, then reset it.")
             : Outcome();
}

std::string why_not_test_overload(const Machine&, const State& state, const Action&) {
  return state.plant.overload_tripped ? "The overload relay has already tripped." : "";
}

Outcome overload_tested(Scene& scene, const Action&) {
  plant::PlantState& plant = scene.state.plant;
  plant.overload_tripped = !plant.safety.overload_stuck;
  return plant.overload_tripped ? "" : "The button goes in, and nothing opens.";
}

std::string why_not_test_cutout(const Machine&, const State& state, const Action&) {
  return state.plant.cutout_tripped ? "The heater cut-out has already tripped." : "";
}

Outcome cutout_tested(Scene& scene, const Action&) {
  plant::PlantState& plant = scene.state.plant;
  plant.cutout_tripped = !plant.safety.cutout_bridged;
  return plant.cutout_tripped ? "" : "The button goes in, and nothing opens: the cut-out is bridged.";
}

std::string why_not_test_pressure(const Machine&, const State& state, const Action&) {
  return state.plant.pressure_tripped ? "The pressure switch has already tripped." : "";
}

Outcome pressure_tested(Scene& scene, const Action&) {
  plant::PlantState& plant = scene.state.plant;
  plant.pressure_tripped = !plant.safety.pressure_stuck;
  return plant.pressure_tripped ? "" : "The button goes in, and nothing opens.";
}

}  // namespace

constinit const HandOf<Flag> isolate{
    {
        .name = "isolate",
        .meaning = "Turn the isolator.",
        .group = Group::safety,
        .why_not = why_not_isolate,
        .effect = isolator_turned,
        .minutes_of = isolate_min,
        .turns = {Contact::supply, true},
    },
    on,
};

constinit const HandOf<Flag> isolate_neighbour{
    {
        .name = "isolate_neighbour",
        .meaning = "Turn the isolator beside it, which feeds another machine.",
        .group = Group::safety,
        .why_not = why_not_neighbour,
        .effect = neighbour_turned,
    },
    neighbour_on};

constinit const HandOf<> press_emergency_stop{{
    .name = "press_emergency_stop",
    .meaning = "Push the emergency stop in; it stays in. Drive, heat and chiller lose their power.",
    .group = Group::safety,
    .why_not = why_not_press_stop,
    .effect = stop_turned<true>,
    .turns = {Contact::emergency_stop, true},
}};

constinit const HandOf<> release_emergency_stop{{
    .name = "release_emergency_stop",
    .meaning = "Turn the emergency stop until it springs out. Nothing starts by itself.",
    .group = Group::safety,
    .why_not = why_not_release_stop,
    .effect = stop_turned<false>,
    .turns = {Contact::emergency_stop, false},
}};

constinit const HandOf<> reset_overload{{
    .name = "reset_overload",
    .meaning = "Push the reset of the drive's overload relay.",
    .group = Group::safety,
    .why_not = why_not_reset_overload,
    .effect = overload_reset,
    .turns = {Contact::overload, false},
}};

constinit const HandOf<> reset_cutout{{
    .name = "reset_cutout",
    .meaning = "Push the reset of the heater cut-out.",
    .group = Group::safety,
    .why_not = why_not_reset_cutout,
    .effect = cutout_reset,
    .turns = {Contact::cutout, false},
}};

constinit const HandOf<> test_overload{{
    .name = "test_overload",
    .meaning = "Push the test button of the drive's overload relay, as a technician does.",
    .group = Group::safety,
    .why_not = why_not_test_overload,
    .effect = overload_tested,
    .turns = {Contact::overload, true},
}};

constinit const HandOf<> test_cutout{{
    .name = "test_cutout",
    .meaning = "Push the test button of the heater cut-out, as a technician does.",
    .group = Group::safety,
    .why_not = why_not_test_cutout,
    .effect = cutout_tested,
    .turns = {Contact::cutout, true},
}};

constinit const HandOf<> test_pressure{{
    .name = "test_pressure",
    .meaning = "Push the test button of the chiller's pressure switch, as a technician does.",
    .group = Group::safety,
    .why_not = why_not_test_pressure,
    .effect = pressure_tested,
    .turns = {Contact::pressure, true},
}};

HandList supply_hands() {
  static constexpr const Hand* list[] = {
      &isolate,      &isolate_neighbour, &press_emergency_stop, &release_emergency_stop, &reset_overload,
      &reset_cutout, &test_overload,     &test_cutout,          &test_pressure};
  return list;
}

}  // namespace stirbench::hands
