#include "sim_core/explore/explore_state.h"

namespace stirbench::explore {

namespace {

using control::AlarmId;

// Writes or reads bits from the low end up.
struct Writer {
  Word word = 0;
  unsigned at = 0;
  void put(Word value, unsigned bits) {
    word |= value << at;
    at += bits;
  }
};
struct Taker {
  Word word;
  unsigned at = 0;
  Word take(unsigned bits) {
    const Word value = word >> at & ((Word{1} << bits) - 1);
    at += bits;
    return value;
  }
  bool flag() { return take(1) != 0; }
};

}  // namespace

Word pack(const ExplorationNode& node) {
  const control::ControlState& c = node.control;
  Writer w;
  w.put(static_cast<Word>(c.mode), 3);
  w.put(c.recipe >= 0 ? 1 : 0, 1);
  w.put(static_cast<Word>(c.phase) + 1, 3);
  w.put(c.confirmed, 1);
  w.put(c.recipe_done, 1);
  w.put(c.hold_ticks < 3 ? c.hold_ticks : 3, 2);
  w.put(c.cycle_ticks & 1, 1);
  w.put(c.heat_demand, 1);
  w.put(c.chill_demand, 1);
  for (const bool down : c.key_down) w.put(down, 1);
  w.put(c.key_armed[static_cast<std::size_t>(control::Key::stop)], 1);
  bool waits = false;
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    const control::Alarm& alarm = c.alarms[i];
    if (control::alarm_latches(static_cast<AlarmId>(i))) w.put(alarm.latched, 1);
    w.put(alarm.active && c.had_supply, 1);
    waits = waits || (alarm.unacknowledged && alarm.stands());
  }
  w.put(waits, 1);
  w.put(c.had_supply, 1);
  const Surroundings& a = node.around;
  for (const bool one :
       {a.lid_open, a.cover_open, a.stop_in, a.fed, a.overload, a.cutout, a.pressure, a.wire_open})
    w.put(one, 1);
  for (const bool down : node.finger) w.put(down, 1);
  for (const bool one : {node.honest_stop, node.drive, node.heat, node.chill}) w.put(one, 1);
  return w.word;
}

ExplorationNode unpack(const ControllerModel& rig, Word word) {
  ExplorationNode node;
  control::ControlState& c = node.control;
  c = control::initial_state(rig.spec);
  Taker t{word};
  c.mode = static_cast<control::Mode>(t.take(3));
  c.recipe = t.flag() ? 0 : -1;
  c.phase = static_cast<std::int32_t>(t.take(3)) - 1;
  c.confirmed = t.flag();
  c.recipe_done = t.flag();
  c.hold_ticks = t.take(2);
  c.cycle_ticks = t.take(1);
  c.heat_demand = t.flag();
  c.chill_demand = t.flag();
  for (bool& down : c.key_down) down = t.flag();
  c.key_armed[static_cast<std::size_t>(control::Key::stop)] = t.flag();
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    if (control::alarm_latches(static_cast<AlarmId>(i))) c.alarms[i].latched = t.flag();
    c.alarms[i].active = t.flag();
  }
  const bool waits = t.flag();
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    c.alarms[i].unacknowledged =
        waits && c.alarms[i].stands() && !control::alarm_is_prompt(static_cast<AlarmId>(i));
  }
  c.had_supply = t.flag();
  Surroundings& a = node.around;
  for (bool* one :
       {&a.lid_open, &a.cover_open, &a.stop_in, &a.fed, &a.overload, &a.cutout, &a.pressure, &a.wire_open})
    *one = t.flag();
  for (bool& down : node.finger) down = t.flag();
  for (bool* one : {&node.honest_stop, &node.drive, &node.heat, &node.chill}) *one = t.flag();
  return node;
}

ControllerModel controller_model(const machine::Machine& machine) {
  ControllerModel rig;
  rig.spec = machine.control;
  // The taper only takes heat away that is demanded: what it leaves out is a state of a machine that stirs.
  rig.spec.heat_taper_K = 0.0;
  // So does a proportional hold: heat on and off at every temperature is among the states of the two-point
  // one.
  rig.spec.hold_control = control::HoldControl::two_point;
  rig.spec.age_stir_on_s = rig.spec.age_stir_off_s = machine::tick_s;
  control::Recipe recipe;
  recipe.id = "each-phase";
  using K = control::PhaseKind;
  for (const auto& [kind, degC] : {std::pair{K::heat, 40.0},
                                   {K::add, 40.0},
                                   {K::hold, 60.0},
                                   {K::chill, 10.0},
                                   {K::age, 10.0},
                                   {K::keep, 10.0}}) {
    control::Phase phase;
    phase.kind = kind;
    phase.target_degC = degC;
    phase.duration_s = machine::tick_s;
    recipe.phases.push_back(std::move(phase));
  }
  rig.recipes.push_back(std::move(recipe));
  return rig;
}

ExplorationNode first_node(const ControllerModel& rig) {
  ExplorationNode node;
  node.control = control::initial_state(rig.spec);
  for (std::size_t i = 0; i < control::key_count; ++i) {
    node.control.key_down[i] = rig.parts.keys[i] == plant::KeyContact::stuck_down;
  }
  return node;
}

GroundTruth ground_truth(const ExplorationNode& node) {
  GroundTruth scene;
  const Surroundings& a = node.around;
  scene.lid_open = a.lid_open;
  scene.cover_open = a.cover_open;
  scene.stop_in = a.stop_in;
  scene.fed = a.fed;
  scene.overload = a.overload;
  scene.cutout = a.cutout;
  scene.pressure = a.pressure;
  scene.finger = node.finger;
  scene.drive = node.drive;
  scene.heat = node.heat;
  scene.chill = node.chill;
  scene.commanded = control::mode_moves(node.control.mode);
  scene.alarms = node.control.alarms;
  scene.honest_stop = node.honest_stop;
  return scene;
}

}  // namespace stirbench::explore
