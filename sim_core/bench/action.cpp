#include "sim_core/bench/action.h"

namespace stirbench::bench {

namespace {

constexpr ActionParameter number(std::string_view name, bool required, double low, double high, std::string_view unit,
                                 std::string_view meaning) {
  return {name, ParameterType::number, required, low, high, unit, meaning};
}
constexpr ActionParameter text(std::string_view name, std::string_view meaning) {
  return {name, ParameterType::text, true, 0.0, 0.0, {}, meaning};
}
constexpr ActionParameter boolean(std::string_view name, std::string_view meaning) {
  return {name, ParameterType::boolean, true, 0.0, 0.0, {}, meaning};
}

std::vector<ActionEntry> make_table() {
  using K = ActionKind;
  return {
      {K::open_lid, "open_lid", "Open the lid. The guard stops drive, pump and heat if anything runs.", {}},
      {K::close_lid, "close_lid", "Close the lid. Nothing restarts by itself.", {}},
      {K::open_shaft_cover, "open_shaft_cover", "Take the shaft cover off. The guard stops drive, pump and heat.", {}},
      {K::close_shaft_cover, "close_shaft_cover", "Put the shaft cover back. Nothing restarts by itself.", {}},
      {K::pour, "pour", "Pour an ingredient into the open vat. What does not fit below the brim spills.",
       {text("ingredient", "ingredient id, as the content names it"),
        number("kg", true, 0.001, 60.0, "kg", "how much"),
        number("degC", false, -2.0, 100.0, "degC", "its temperature; the ingredient's usual one when left out")}},
      {K::press, "press", "Press a key and let it go.",
       {text("key", "heat, chill, stir, run, stop or rinse"),
        number("held_s", false, 0.1, 600.0, "s", "how long it is held down; 0.3 when left out")}},
      {K::set_target, "set_target", "Enter the target for Heat and Chill on the display.",
       {number("degC", true, -20.0, 120.0, "degC", "the target; the machine takes what lies in its own range")}},
      {K::choose_recipe, "choose_recipe", "Choose a recipe on the display; gives up one that was under way.",
       {text("recipe", "recipe id, as the content names it")}},
      {K::confirm, "confirm", "Confirm on the display that what it asked for has been added.", {}},
      {K::turn_draw_valve, "turn_draw_valve", "Pull the draw handle to an opening and leave it there.",
       {number("opening_norm", true, 0.0, 1.0, "-", "0 shut, 1 pulled fully")}},
      {K::fit_hose, "fit_hose", "Clamp the transfer hose to the draw valve.",
       {text("to", "where its other end goes: pail or freezer")}},
      {K::remove_hose, "remove_hose", "Take the transfer hose off.", {}},
      {K::rinse, "rinse", "Rinse gun into the open vat.", {boolean("on", "true: water runs, false: shut")}},
      {K::isolate, "isolate", "Turn the isolator.", {boolean("on", "true: isolated, the machine is without supply")}},
      {K::reach_in, "reach_in", "Reach into the open vat with a hand. Never do this on a machine that is not isolated.", {}},
      {K::touch_wall, "touch_wall", "Lay a bare hand on the outside of vat and well.", {}},
      {K::take_sample, "take_sample", "Take a spoon of product: thermometer, look and taste.", {}},
      {K::reset_overload, "reset_overload", "Push the reset of the drive's overload relay.", {}},
      {K::reset_cutout, "reset_cutout", "Push the reset of the heater cut-out.", {}},
      {K::empty_pail, "empty_pail", "Carry the pail away and put an empty one.", {}},
      {K::freezer_inlet, "freezer_inlet", "Open or shut the inlet of the batch freezer.",
       {boolean("on", "true: open, false: shut")}},
      {K::freezer_start, "freezer_start", "Start the batch freezer: dasher and refrigeration.", {}},
      {K::freezer_stop, "freezer_stop", "Stop the batch freezer's dasher and refrigeration.", {}},
      {K::freezer_draw, "freezer_draw", "Set the batch freezer's outlet gate over the tub; refrigeration rests while it is open.",
       {number("opening_norm", true, 0.0, 1.0, "-", "0 shut, 1 fully open")}},
      {K::reset_freezer, "reset_freezer", "Push the reset of the dasher's overload protection.", {}},
      {K::empty_tub, "empty_tub", "Carry the tub to the hardening cabinet and put an empty one.", {}},
      {K::freezer_lid, "freezer_lid", "Open or shut the batch freezer's lid. Its guard stops the dasher.", {boolean("on", "true: open, false: shut")}},
      {K::freezer_drain, "freezer_drain", "Open or shut the batch freezer's drain, which leads to the gully.",
       {boolean("on", "true: open, false: shut")}},
      {K::freezer_setting, "freezer_setting", "Turn the batch freezer's selector: what a start means.",
       {text("setting", "freeze: dasher and refrigeration; dasher: the dasher alone; keep: both, only to keep a ready charge")}},
      {K::freezer_water, "freezer_water", "Pour rinse water into the batch freezer through its open lid.",
       {number("kg", true, 0.1, 20.0, "kg", "how much"), number("degC", false, 1.0, 70.0, "degC", "its temperature; 15 when left out")}},
  };
}

void add_safe_work(std::vector<ActionEntry>& table) {
  using K = ActionKind;
  const ActionParameter person = text("person", "whose: you or colleague");
  const std::vector<ActionEntry> more = {
      {K::read_energies, "read_energies", "Read the sheet on the machine: which energies it holds and how each is held off.", {}},
      {K::tell_people, "tell_people", "Tell the people who work with the machine.",
       {text("about", "lockout: you are locking it out; restart: it comes back")}},
      {K::isolate_neighbour, "isolate_neighbour", "Turn the isolator beside it, which feeds another machine.",
       {boolean("on", "true: isolated, that machine is without supply")}},
      {K::fit_lock, "fit_lock", "Hang a padlock on the isolator that was turned last; its key stays in it.", {person}},
      {K::take_key, "take_key", "Pull the key out of your padlock and pocket it.", {}},
      {K::fit_tag, "fit_tag", "Hang a tag with a name on it beside the padlock.", {person}},
      {K::remove_tag, "remove_tag", "Take a tag off.", {person}},
      {K::remove_lock, "remove_lock", "Take a padlock off: your own with its key, another one with a cutter.", {person}},
      {K::release_energy, "release_energy", "Let one stored energy out, or see that it is gone.",
       {text("which", "heat, hose, spring, capacitor or refrigerant")}},
      {K::measure, "measure", "Hold the meter on something and read it.",
       {text("at", "known_source: one known to be live; terminals: those behind the panel")}},
      {K::take_panel_off, "take_panel_off", "Take the electrical panel off. On a real machine only licensed people do.", {}},
      {K::put_panel_on, "put_panel_on", "Put the electrical panel back.", {}},
      {K::begin_work, "begin_work", "Put hands into the machine and leave them there to work.", {text("where", "vat or panel")}},
      {K::end_work, "end_work", "Take hands and tools out again.", {}},
      {K::inspect, "inspect", "Look round: tools out, guards and panel back, everybody clear.", {}},
      {K::take_valve_out, "take_valve_out", "Take the draw valve out of the empty machine for cleaning.", {}},
      {K::put_valve_back, "put_valve_back", "Put the draw valve back in, spring and all.", {}},
      {K::open_refrigerant, "open_refrigerant", "Loosen a fitting of the refrigerant circuit. Never do this: only licensed people may.", {}},
  };
  table.insert(table.end(), more.begin(), more.end());
}

void add_spill_work(std::vector<ActionEntry>& table) {
  using K = ActionKind;
  const ActionParameter item =
      text("item", "heat_gloves, chemical_gloves, eye_protection, face_shield, apron or safety_shoes");
  const std::vector<ActionEntry> more = {
      {K::put_on, "put_on", "Put on something that protects.", {item}},
      {K::take_off, "take_off", "Take it off again.", {item}},
      {K::walk_round, "walk_round", "Walk round the machine.", {}},
      {K::wipe_floor, "wipe_floor", "Wipe, rinse and dry the floor, and put the sign away.", {}},
      {K::put_up_sign, "put_up_sign", "Put up the wet-floor sign.", {}},
      {K::add_water, "add_water", "Run warm water into the wash bucket.", {number("kg", true, 0.1, 12.0, "kg", "how much")}},
      {K::add_chemical, "add_chemical", "Measure a cleaning chemical into the wash bucket.",
       {text("chemical", "chemical id, as the content names it"), number("kg", true, 0.001, 12.0, "kg", "how much of the concentrate")}},
      {K::scrub, "scrub", "Dip hands and brush into the wash bucket and scrub.", {}},
      {K::empty_bucket, "empty_bucket", "Pour the wash bucket away and rinse it.", {}},
  };
  table.insert(table.end(), more.begin(), more.end());
}

void add_alarm_work(std::vector<ActionEntry>& table) {
  using K = ActionKind;
  const ActionParameter alarm = text("alarm", "key of the alarm, as help alarms lists it");
  const std::vector<ActionEntry> more = {
      {K::press_emergency_stop, "press_emergency_stop", "Push the emergency stop in; it stays in. Drive, heat and chiller lose their power.", {}},
      {K::release_emergency_stop, "release_emergency_stop", "Turn the emergency stop until it springs out. Nothing starts by itself.", {}},
      {K::test_overload, "test_overload", "Push the test button of the drive's overload relay, as a technician does.", {}},
      {K::test_cutout, "test_cutout", "Push the test button of the heater cut-out, as a technician does.", {}},
      {K::test_pressure, "test_pressure", "Push the test button of the chiller's pressure switch, as a technician does.", {}},
      {K::acknowledge, "acknowledge", "Acknowledge on the display that an alarm was seen. It clears nothing.",
       {text("alarm", "all, or the key of one alarm")}},
      {K::shelve, "shelve", "Put an alarm aside for a time, where the machine's content allows it.",
       {alarm, number("for_s", true, 1.0, 86400.0, "s", "how long")}},
      {K::unshelve, "unshelve", "Take an alarm off the shelf before its time.", {alarm}},
  };
  table.insert(table.end(), more.begin(), more.end());
}

void add_part_work(std::vector<ActionEntry>& table) {
  using K = ActionKind;
  const std::string_view places = "valve_handle, valve_nut, valve_spring, valve_plunger, oring_rear, oring_front, guard_cover, agitator, "
                                  "agitator_bushing, sleeve_cap, shaft_end_bushing or shaft_sleeve";
  const std::vector<ActionEntry> more = {
      {K::take_part_off, "take_part_off", "Take a part off the draw valve or the agitator and lay it on the tray.", {text("part", places)}},
      {K::pick_up, "pick_up", "Pick up a thing that lies on the tray or in the box of spares.",
       {text("thing", "a part by its place's name, or new_oring_front, new_oring_rear, new_agitator_bushing, other_agitator_bushing, "
                      "new_shaft_end_bushing")}},
      {K::lay_down, "lay_down", "Lay down what you hold.", {}},
      {K::grease, "grease", "Put food-grade lubricant on the O-ring that you hold.", {}},
      {K::put_part_on, "put_part_on", "Put what you hold into its place.", {text("part", places)}},
      {K::look_over, "look_over", "Count the parts and look at their condition.", {}},
  };
  table.insert(table.end(), more.begin(), more.end());
}

void add_service_work(std::vector<ActionEntry>& table) {
  using K = ActionKind;
  const std::vector<ActionEntry> more = {
      {K::push_hose_on, "push_hose_on", "Push the transfer hose on to the draw valve, without its clamp.",
       {text("to", "where its other end goes: pail or freezer")}},
      {K::clamp_hose, "clamp_hose", "Shut or open the clamp of the transfer hose.", {boolean("on", "true: shut, false: open")}},
      {K::hose_gasket, "hose_gasket", "Lay the gasket into the joint of the hose, or take it out.", {boolean("on", "true: in, false: out")}},
      {K::route_hose, "route_hose", "Lay the transfer hose another way.", {text("route", "straight, kinked or high")}},
      {K::drain_hose, "drain_hose", "Lift the transfer hose so that it empties into what it leads to.", {}},
      {K::dose_vat, "dose_vat", "Measure a cleaning chemical into what is in the vat.",
       {text("chemical", "chemical id, as the content names it"), number("kg", true, 0.001, 12.0, "kg", "how much of the concentrate")}},
      {K::brush, "brush", "Brush the part that you hold in the wash bucket and rinse it under the tap.", {}},
      {K::swab, "swab", "Wipe a swab over 100 cm2 and read how much soil it found.", {text("spot", "vat or valve")}},
      {K::unscrew, "unscrew", "Turn a part that sits on a thread.",
       {text("part", "valve_nut, shaft_end_bushing or shaft_sleeve"), boolean("clockwise", "which way, seen from the end that you hold")}},
      {K::feel_gap, "feel_gap", "Measure the play of a bushing with the feeler gauge.",
       {text("bushing", "agitator_bushing or shaft_end_bushing")}},
  };
  table.insert(table.end(), more.begin(), more.end());
}

void add_fault_work(std::vector<ActionEntry>& table) {
  using K = ActionKind;
  const ActionParameter terminal = text("terminal", "part and terminal, as measure --list shows them: E1.1");
  const ActionParameter wire = text("wire", "the wire's number");
  const ActionParameter cause = text("cause", "id of a fault, as content names it");
  const std::vector<ActionEntry> more = {
      {K::take_tool, "take_tool", "Take an instrument in hand; what was held is laid down and its probes come off.",
       {text("tool", "none, multimeter, clamp_meter, insulation_tester, gauge_set or contact_thermometer")}},
      {K::set_meter, "set_meter", "Turn the multimeter to a function; probes that are placed stay.", {text("function", "V~, V=, Ohm or continuity")}},
      {K::red_probe, "red_probe", "Put the red probe on a terminal. Measuring on live parts is for licensed people.", {terminal}},
      {K::black_probe, "black_probe", "Put the black probe on a terminal.", {terminal}},
      {K::probes_off, "probes_off", "Take the probes, clamp or thermometer off.", {}},
      {K::clamp_round, "clamp_round", "Lay the clamp meter round one wire.", {wire}},
      {K::press_thermometer, "press_thermometer", "Press the contact thermometer on something.", {text("point", "suction_line, well_wall, ...")}},
      {K::connect_gauges, "connect_gauges", "Connect the gauge set to the chiller's service ports. Only licensed people may.", {}},
      {K::take_gauges_off, "take_gauges_off", "Take the gauge set off.", {}},
      {K::look_at_reading, "look_at_reading", "Look at the instrument again.", {}},
      {K::new_fuse, "new_fuse", "Put a new fuse into the multimeter.", {}},
      {K::take_wire_off, "take_wire_off", "Take a wire off its terminals, to measure what is behind it alone.", {wire}},
      {K::put_wire_on, "put_wire_on", "Put a wire back on its terminals.", {wire}},
      {K::reset_breaker, "reset_breaker", "Switch a breaker that has tripped on again.", {text("breaker", "the breaker's letter and number")}},
      {K::name_cause, "name_cause", "Say what you think is wrong.", {cause}},
      {K::repair, "repair", "Do the repair that belongs to a cause, with its parts. Licensed work is refused to others.", {cause}},
      {K::hand_off, "hand_off", "Hand a cause to a licensed colleague, who comes and does its repair.", {cause}},
      {K::prove, "prove", "State that it works again, after you saw it run since the repair.", {}},
      {K::point_out, "point_out", "Point at a part of the machine: this is the one that was asked for. It changes nothing.",
       {text("body_part", "the part, as content/bodies names it")}},
  };
  table.insert(table.end(), more.begin(), more.end());
}

void add_instructor_work(std::vector<ActionEntry>& table) {
  using K = ActionKind;
  const std::vector<ActionEntry> more = {
      {K::set_room, "set_room", "Instructor: make the room warmer or colder.", {number("degC", true, -20.0, 60.0, "degC", "the room's temperature")}},
      {K::set_supply_voltage, "set_supply_voltage", "Instructor: change the supply's voltage.",
       {number("share_norm", true, 0.0, 1.2, "-", "of the nominal voltage; 0 is a power cut")}},
      {K::set_delivery, "set_delivery", "Instructor: an ingredient is delivered at another temperature from now on.",
       {text("ingredient", "ingredient id, as the content names it"), number("degC", true, -2.0, 100.0, "degC", "its temperature")}},
      {K::set_fault, "set_fault", "Instructor: break something, or put it right.",
       {text("fault", "id of a fault of the content"), number("severity", true, 0.0, 1.0, "-", "how bad; 0 puts it right")}},
      {K::freeze_run, "freeze_run", "Instructor: stop the clock to talk. The machine stands still with it.", {}},
      {K::hand_back, "hand_back", "Instructor: the clock goes on, the run is the learner's again.", {}},
      {K::mark_observation, "mark_observation", "Instructor: write down what was seen at this moment.",
       {text("note", "what was seen"), boolean("good", "true: well done, false: to work on")}},
  };
  table.insert(table.end(), more.begin(), more.end());
}

}  // namespace

const std::vector<ActionEntry>& action_table() {
  static const std::vector<ActionEntry> table = [] {
    std::vector<ActionEntry> all = make_table();
    add_safe_work(all);
    add_spill_work(all);
    add_alarm_work(all);
    add_part_work(all);
    add_service_work(all);
    add_fault_work(all);
    add_instructor_work(all);
    return all;
  }();
  return table;
}

const ActionEntry* find_action(std::string_view name) {
  for (const ActionEntry& entry : action_table()) {
    if (entry.name == name) return &entry;
  }
  return nullptr;
}

const ActionEntry& action_entry(ActionKind kind) { return action_table().at(static_cast<std::size_t>(kind)); }

void set_number(Action& action, std::string_view parameter, double value) {
  if (action.kind == ActionKind::pour && parameter == "degC") {
    action.degC = value;
    action.has_degC = true;
  } else if (parameter == "held_s") {
    action.held_s = value;
  } else {
    action.number = value;
  }
}

void set_text(Action& action, std::string_view, std::string_view value) { action.name = value; }

void set_boolean(Action& action, std::string_view, bool value) { action.on = value; }

bool has_number(const Action& action, std::string_view parameter) {
  return !(action.kind == ActionKind::pour && parameter == "degC") || action.has_degC;
}

double get_number(const Action& action, std::string_view parameter) {
  if (action.kind == ActionKind::pour && parameter == "degC") return action.degC;
  return parameter == "held_s" ? action.held_s : action.number;
}

}  // namespace stirbench::bench
