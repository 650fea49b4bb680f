#include "sim_core/faults/fault.h"

#include "sim_core/hands/handles.h"
#include "sim_core/plant/pace.h"

// The instructor's place beside a run: the room, the supply, what is delivered, what breaks, and what was
// seen. All of it are actions like others, so that they stand in the journal with their tick and a replay
// does them again.
namespace stirbench::hands {

namespace {

constexpr Number room_degC{"degC", -20.0, 60.0, "degC", "the room's temperature"};
constexpr Number share_norm{"share_norm", 0.0, 1.2, "-", "of the nominal voltage; 0 is a power cut"};
constexpr Text delivered{"ingredient", Catalogue::ingredient, "ingredient id, as the content names it"};
constexpr Number delivered_degC{"degC", -2.0, 100.0, "degC", "its temperature"};
constexpr Text fault{"fault", Catalogue::fault, "id of a fault of the content"};
constexpr Number severity{"severity", 0.0, 1.0, "-", "how bad; 0 puts it right"};
constexpr Text note{"note", Catalogue::anything, "what was seen"};
constexpr Flag good{"good", "true: well done, false: to work on"};

Outcome room_set(Scene& scene, const Action& action) {
  scene.state.plant.environment.ambient_degC = action.get(room_degC);
  plant::invalidate_pace(scene.state.plant);
  return {};
}

Outcome supply_set(Scene& scene, const Action& action) {
  State& state = scene.state;
  const double share = action.get(share_norm);
  // During a power cut of the lesson's own: what comes back afterwards.
  double& kept = state.lockout.supply_before_norm;
  if (kept > 0.0 && share > 0.0)
    kept = share;
  else
    state.plant.environment.supply_norm = share;
  plant::invalidate_pace(state.plant);
  return {};
}

// What is delivered reaches the machine with the next pour, which names its temperature.
Outcome delivery_set(Scene& scene, const Action& action) {
  const int index = scene.machine.ingredient_index(action.get(delivered));
  return scene.machine.ingredients[static_cast<std::size_t>(index)].title;
}

bool is_in(const State& state, const std::string& id) {
  const std::uint64_t mark = faults::fault_id_hash(id);
  for (const plant::ActiveFault& one : state.plant.faults) {
    if (one.mark == mark) return true;
  }
  return false;
}

std::string why_not_fault(const Machine& machine, const State& state, const Action& action) {
  const std::string& id = action.get(fault);
  if (action.get(severity) <= 0.0) return is_in(state, id) ? "" : "This fault is not set.";
  // On a copy: a fault may have no place on this machine, or be one too many.
  plant::PlantState tried = state.plant;
  faults::remove_fault(machine.plant, machine.faults, tried, id);
  return faults::inject(machine.plant, machine.faults, tried, id, action.get(severity));
}

Outcome fault_set(Scene& scene, const Action& action) {
  const Machine& machine = scene.machine;
  plant::PlantState& plant = scene.state.plant;
  const std::string& id = action.get(fault);
  faults::remove_fault(machine.plant, machine.faults, plant, id);
  if (action.get(severity) > 0.0)
    faults::inject(machine.plant, machine.faults, plant, id, action.get(severity));
  plant::invalidate_pace(plant);
  return machine.faults[static_cast<std::size_t>(machine.fault_index(id))].title;
}

Outcome noted(Scene&, const Action& action) { return action.get(note); }

}  // namespace

constinit const HandOf<Number> set_room{
    {
        .name = "set_room",
        .meaning = "Instructor: make the room warmer or colder.",
        .group = Group::instructor,
        .effect = room_set,
        .by_instructor = true,
    },
    room_degC,
};

constinit const HandOf<Number> set_supply_voltage{
    {
        .name = "set_supply_voltage",
        .meaning = "Instructor: change the supply's voltage.",
        .group = Group::instructor,
        .effect = supply_set,
        .by_instructor = true,
    },
    share_norm,
};

constinit const HandOf<Text, Number> set_delivery{
    {
        .name = "set_delivery",
        .meaning = "Instructor: an ingredient is delivered at another temperature from now on.",
        .group = Group::instructor,
        .effect = delivery_set,
        .by_instructor = true,
    },
    delivered,
    delivered_degC};

constinit const HandOf<Text, Number> set_fault{
    {
        .name = "set_fault",
        .meaning = "Instructor: break something, or put it right.",
        .group = Group::instructor,
        .why_not = why_not_fault,
        .effect = fault_set,
        .by_instructor = true,
    },
    fault,
    severity,
};

constinit const HandOf<> freeze_run{{
    .name = "freeze_run",
    .meaning = "Instructor: stop the clock to talk. The machine stands still with it.",
    .group = Group::instructor,
    .by_instructor = true,
}};

constinit const HandOf<> hand_back{{
    .name = "hand_back",
    .meaning = "Instructor: the clock goes on, the run is the learner's again.",
    .group = Group::instructor,
    .by_instructor = true,
}};

constinit const HandOf<Text, Flag> mark_observation{
    {
        .name = "mark_observation",
        .meaning = "Instructor: write down what was seen at this moment.",
        .group = Group::instructor,
        .effect = noted,
        .by_instructor = true,
    },
    note,
    good};

HandList instructor_hands() {
  static constexpr const Hand* list[] = {&set_room,   &set_supply_voltage, &set_delivery,    &set_fault,
                                         &freeze_run, &hand_back,          &mark_observation};
  return list;
}

}  // namespace stirbench::hands
