#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// What a person can do to the machine: one table (action.cpp) that feeds the actions-file reader, the journal,
// `stirbench help actions` and the desk.
namespace stirbench::bench {

enum class ActionKind : std::uint8_t {
  open_lid, close_lid, open_shaft_cover, close_shaft_cover,
  pour,             // ingredient, kg, degC (optional: the ingredient's usual temperature)
  press,            // key, held_s (optional, 0.3): pressed and released
  set_target,       // degC
  choose_recipe,    // recipe
  confirm,          // the addition that the display asks for
  turn_draw_valve,  // opening_norm
  fit_hose,         // to: pail | freezer
  remove_hose,
  rinse,            // on
  isolate,          // on: true = isolator switched off
  reach_in,         // a hand goes into the vat
  touch_wall,       // bare hand on the outside of well or vat
  take_sample,      // a spoon of product: look, taste, thermometer
  reset_overload,
  reset_cutout,
  empty_pail,
  freezer_inlet,    // on: true = open
  freezer_start,    // dasher and refrigeration
  freezer_stop,
  freezer_draw,     // opening_norm of the outlet gate, over the tub
  reset_freezer,
  empty_tub,
  freezer_lid,      // on: true = open
  freezer_drain,    // on: true = open
  freezer_setting,  // setting: freeze | dasher | keep
  freezer_water,    // kg, degC (optional, 15): rinse water through its open lid
  // Lock-out (lockout_hands.cpp).
  read_energies,
  tell_people,          // about: lockout | restart
  isolate_neighbour,    // on: the isolator beside, which looks the same
  fit_lock,             // person: you | colleague
  take_key,
  fit_tag, remove_tag, remove_lock,  // person
  release_energy,       // which: heat | hose | spring | capacitor | refrigerant
  measure,              // at: known_source | terminals
  take_panel_off, put_panel_on,
  begin_work,           // where: vat | panel
  end_work,
  inspect,
  take_valve_out, put_valve_back,
  open_refrigerant,
  // Floor, bucket and what people wear (spill_hands.cpp).
  put_on, take_off,     // item
  walk_round, wipe_floor, put_up_sign,
  add_water,            // kg
  add_chemical,         // chemical, kg
  scrub, empty_bucket,
  // Emergency stop, test buttons, alarms (safety_hands.cpp).
  press_emergency_stop, release_emergency_stop,
  test_overload, test_cutout, test_pressure,
  acknowledge,          // alarm: all, or one
  shelve,               // alarm, for_s
  unshelve,             // alarm
  // Draw valve and agitator, part by part (assembly_hands.cpp).
  take_part_off,    // part
  pick_up,          // thing
  lay_down,
  grease,           // what is in the hand
  put_part_on,      // part: the place
  look_over,        // count and condition of the parts
  // Transfer hose, washing, service (hose_hands.cpp, clean_hands.cpp, service_hands.cpp).
  push_hose_on,     // to: pail | freezer, without its clamp
  clamp_hose,       // on
  hose_gasket,      // on: into the joint, or out of it
  route_hose,       // route: straight | kinked | high
  drain_hose,
  dose_vat,         // chemical, kg: into the vat's water
  brush,            // what is in the hand, in the wash bucket
  swab,             // spot: vat | valve
  unscrew,          // part, clockwise: a part on a thread
  feel_gap,         // bushing: feeler gauge
  // Finding a fault and mending it (fault_work_hands.cpp, fault_mending.cpp).
  take_tool,        // tool
  set_meter,        // function
  red_probe,        // terminal
  black_probe,      // terminal
  probes_off,
  clamp_round,      // wire
  press_thermometer,  // point
  connect_gauges, take_gauges_off,
  look_at_reading,
  new_fuse,         // into the multimeter
  take_wire_off, put_wire_on,  // wire
  reset_breaker,    // breaker
  name_cause,       // cause
  repair,           // cause: what is put right or replaced for it
  hand_off,         // cause: a licensed colleague does the repair
  prove,
  point_out,        // body_part: what somebody was asked to find on the machine
  // What an instructor does to a run, not hands to the machine (instructor.cpp).
  set_room,             // degC
  set_supply_voltage,   // share_norm
  set_delivery,         // ingredient, degC
  set_fault,            // fault, severity: 0 puts it right
  freeze_run, hand_back,
  mark_observation,     // note, good
  count
};

enum class ParameterType : std::uint8_t { none, number, text, boolean };

struct ActionParameter {
  std::string_view name;     // "kg"
  ParameterType type = ParameterType::none;
  bool required = false;
  double low = 0.0, high = 0.0;   // numbers: legal range
  std::string_view unit;
  std::string_view meaning;
};

struct ActionEntry {
  ActionKind kind;
  std::string_view name;          // "pour"
  std::string_view meaning;
  std::vector<ActionParameter> parameters;
};
const std::vector<ActionEntry>& action_table();            // in the order of ActionKind
const ActionEntry* find_action(std::string_view name);     // nullptr when there is none
const ActionEntry& action_entry(ActionKind kind);

// One action, by value. Unused fields keep their defaults.
struct Action {
  ActionKind kind = ActionKind::open_lid;
  std::string name;               // ingredient, key, recipe or hose end, as the kind says
  double number = 0.0;            // kg, degC, opening_norm ...
  double degC = 0.0;              // pour: temperature; has_degC says whether given
  bool has_degC = false;
  bool on = false;
  double held_s = 0.3;            // press
};

// Puts a parameter's value into the field of Action that holds it; `parameter` is one of the kind's own names.
void set_number(Action& action, std::string_view parameter, double value);
void set_text(Action& action, std::string_view parameter, std::string_view value);
void set_boolean(Action& action, std::string_view parameter, bool value);
// The other way round. `has_number` is false for an optional number that was not given.
bool has_number(const Action& action, std::string_view parameter);
double get_number(const Action& action, std::string_view parameter);

// An actions file's entry: at a time, or when a phase begins (plus after_s).
struct TimedAction {
  double at_s = 0.0;
  std::string at_phase;           // when not empty: waits for that phase id to begin, then after_s
  double after_s = 0.0;
  Action action;
};

}  // namespace stirbench::bench
