#include <algorithm>
#include <charconv>

#include "sim_core/hands/handles.h"
#include "sim_core/hands/procedure.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/machine/record_harm.h"
#include "sim_core/plant/instruments.h"

// Instruments in the hand, and wires: what they can be put on, and what that does to meter, machine and
// person.
namespace stirbench::hands {

namespace {

using machine::FaultWork;
using machine::Instrument;
using machine::Lapse;
namespace w = electrics;

constexpr Text tool{"tool", machine::instrument_words,
                    "none, multimeter, clamp_meter, insulation_tester, gauge_set or contact_thermometer"};
constexpr Text function{"function", machine::meter_functions, "V~, V=, Ohm or continuity"};
constexpr Text terminal{"terminal", Catalogue::terminal,
                        "part and terminal, as measure --list shows them: E1.1"};
constexpr Text wire{"wire", Catalogue::wire, "the wire's number"};
constexpr Text point{"point", plant::contact_point_words, "suction_line, well_wall, ..."};

constexpr double probe_min = 0.7;  // half of a measurement: the other probe is the other half

int terminal_of(const Machine& machine, const Action& action) {
  return machine.plant.circuit.terminal(action.get(terminal));
}

int wire_of(const Machine& machine, const Action& action) {
  const std::string& word = action.get(wire);
  int number = -1;
  std::from_chars(word.data(), word.data() + word.size(), number);
  return machine.plant.circuit.wire(number);
}

bool takes_probes(Instrument one) {
  return one == Instrument::multimeter || one == Instrument::insulation_tester;
}

std::string why_not_take_tool(const Machine&, const State& state, const Action& action) {
  if (state.work.gauges_on) return "The gauge set is connected: take it off first.";
  return index_of(tool, action.get(tool)) == static_cast<int>(state.work.tool)
             ? "You have it in hand already."
             : "";
}

std::string why_not_set_meter(const Machine&, const State& state, const Action&) {
  return state.work.tool == Instrument::multimeter ? "" : "Take the multimeter in hand first.";
}

std::string why_not_probe(const Machine& machine, const State& state, const Action& action) {
  const w::Network& network = machine.plant.circuit;
  if (!takes_probes(state.work.tool)) return "Take the multimeter or the insulation tester in hand first.";
  const int part = network.terminals[static_cast<std::size_t>(terminal_of(machine, action))].part;
  return state.lockout.panel_off || is_site_side(network, part)
             ? ""
             : "The panel is on: its terminals cannot be reached.";
}

constexpr const char* panel_is_on = "The panel is on: its wires cannot be reached.";

std::string why_not_clamp(const Machine&, const State& state, const Action&) {
  if (!state.lockout.panel_off) return panel_is_on;
  return state.work.tool == Instrument::clamp_meter ? "" : "Take the clamp meter in hand first.";
}

bool is_off(const Machine& machine, const State& state, const Action& action) {
  return std::ranges::count(state.work.wires_off, wire_of(machine, action) + 1) > 0;
}

std::string why_not_wire_off(const Machine& machine, const State& state, const Action& action) {
  if (!state.lockout.panel_off) return panel_is_on;
  if (is_off(machine, state, action)) return "That wire is off already.";
  const bool room = std::ranges::count(state.work.wires_off, 0) > 0;
  return room ? "" : "Six wires are off: put one back before you lose track.";
}

std::string why_not_wire_on(const Machine& machine, const State& state, const Action& action) {
  if (!state.lockout.panel_off) return panel_is_on;
  return is_off(machine, state, action) ? "" : "That wire is on already.";
}

std::string why_not_thermometer(const Machine&, const State& state, const Action&) {
  return state.work.tool == Instrument::contact_thermometer ? ""
                                                            : "Take the contact thermometer in hand first.";
}

std::string why_not_gauges(const Machine&, const State& state, const Action&) {
  if (state.work.tool != Instrument::gauge_set) return "Take the gauge set in hand first.";
  if (state.work.gauges_on) return "The gauge set is connected already.";
  const bool licensed = state.lockout.situation.trade == faults::Who::refrigeration;
  return licensed ? ""
                  : "Connecting gauges opens the refrigerant circuit: a licensed refrigeration technician "
                    "does it.";
}

std::string why_not_gauges_off(const Machine&, const State& state, const Action&) {
  return state.work.gauges_on ? "" : "The gauge set is not connected.";
}

std::string why_not_look(const Machine&, const State& state, const Action&) {
  return probes_placed(state.work) ? "" : "Nothing is being measured.";
}

std::string why_not_fuse(const Machine&, const State& state, const Action&) {
  return state.work.fuse_blown ? "" : "The meter's fuse is good.";
}

// What the meter did to itself and the machine by the reading that it has just taken; whether that was a
// mishap.
bool count_mishap(const Machine& machine, State& state) {
  FaultWork& work = state.work;
  switch (work.reading.mishap) {
    case w::Mishap::fuse_blown:
      work.fuse_blown = true;
      count_lapse(state, Lapse::ohms_live);
      return true;
    case w::Mishap::live_reading: count_lapse(state, Lapse::ohms_live); return true;
    case w::Mishap::unlicensed_live: count_lapse(state, Lapse::live_unlicensed); return true;
    case w::Mishap::electronics_dead: {
      count_lapse(state, Lapse::electronics);
      // What it leaves behind is a dead controller, as content knows it.
      const auto dead =
          std::find_if(machine.faults.begin(), machine.faults.end(), [](const faults::Fault& one) {
            return one.changes.size() == 1 && one.changes.front().target == faults::FaultTarget::dead;
          });
      if (dead != machine.faults.end()) faults::inject(machine.plant, state.plant, *dead, 1.0);
      return true;
    }
    default: return false;
  }
}

// The reading in words, and what it means for meter, machine and procedure.
std::string take_reading(const Machine& machine, State& state) {
  FaultWork& work = state.work;
  if (!probes_placed(work)) return {};
  work.reading = reading_now(machine, state);
  ++work.checks;
  const bool panel = takes_probes(work.tool) || work.tool == Instrument::clamp_meter;
  if (panel && state.lockout.panel_off) note_lapses_in_panel(state, false);
  const std::string words = reading_words(work);
  if (count_mishap(machine, state)) return words + ". " + std::string(w::mishap_words(work.reading.mishap));
  const std::string proving = note_proving(machine, state);
  return proving.empty() ? words : words + ". " + proving;
}

void lay_probes_down(FaultWork& work) {
  work.red = work.black = work.round = work.point = -1;
  work.reading = {};
}

// Live parts and no cover over eyes and face, for those who may measure there.
void note_uncovered(State& state) {
  const bool covered =
      state.wearing.has(machine::PpeItem::face_shield) || state.wearing.has(machine::PpeItem::eye_protection);
  if (!covered && state.lockout.situation.trade == faults::Who::electrician)
    count_lapse(state, Lapse::live_unprotected);
}

Outcome tool_taken(Scene& scene, const Action& action) {
  FaultWork& work = scene.state.work;
  lay_probes_down(work);
  work.tool = static_cast<Instrument>(index_of(tool, action.get(tool)));
  return {};
}

Outcome meter_set(Scene& scene, const Action& action) {
  scene.state.work.function = static_cast<w::MeterFunction>(index_of(function, action.get(function)));
  return take_reading(scene.machine, scene.state);
}

template <std::int32_t FaultWork::*probe>
Outcome probe_placed(Scene& scene, const Action& action) {
  State& state = scene.state;
  FaultWork& work = state.work;
  work.*probe = terminal_of(scene.machine, action);
  const bool both_fed = work.red >= 0 && work.black >= 0 && state.plant.fittings.isolator_on;
  std::string words = take_reading(scene.machine, state);
  // Extra-low voltage needs no face shield: what counts is what is there.
  const bool volts = work.tool == Instrument::multimeter && work.function == w::MeterFunction::alternating_V;
  if (both_fed && volts && work.reading.value > w::live_touch_V) note_uncovered(state);
  return words;
}

Outcome probes_taken_off(Scene& scene, const Action&) {
  lay_probes_down(scene.state.work);
  return {};
}

Outcome clamp_laid(Scene& scene, const Action& action) {
  scene.state.work.round = wire_of(scene.machine, action);
  if (scene.state.plant.fittings.isolator_on) note_uncovered(scene.state);
  return take_reading(scene.machine, scene.state);
}

Outcome thermometer_pressed(Scene& scene, const Action& action) {
  scene.state.work.point = plant::find_contact_point(action.get(point));
  return take_reading(scene.machine, scene.state);
}

Outcome gauges_connected(Scene& scene, const Action&) {
  scene.state.work.gauges_on = true;
  return take_reading(scene.machine, scene.state);
}

Outcome gauges_taken_off(Scene& scene, const Action&) {
  scene.state.work.gauges_on = false;
  scene.state.work.reading = {};
  return {};
}

Outcome looked_at(Scene& scene, const Action&) {
  scene.state.work.reading = reading_now(scene.machine, scene.state);
  return reading_words(scene.state.work);
}

Outcome fuse_changed(Scene& scene, const Action&) {
  scene.state.work.fuse_blown = false;
  return {};
}

void harms_of_wire(Scene& scene, const Action& action) {
  const double touched_V = wire_V(scene.machine, scene.state, wire_of(scene.machine, action));
  if (touched_V > machine::touch_V)
    machine::record_harm(scene.state, machine::HarmId::live_terminals, touched_V, scene.events);
}

Outcome wire_taken_off(Scene& scene, const Action& action) {
  note_lapses_in_panel(scene.state, true);
  *std::ranges::find(scene.state.work.wires_off, 0) = wire_of(scene.machine, action) + 1;
  return {};
}

Outcome wire_put_on(Scene& scene, const Action& action) {
  note_lapses_in_panel(scene.state, true);
  std::ranges::replace(scene.state.work.wires_off, wire_of(scene.machine, action) + 1, 0);
  return {};
}

double read_value(const State& state, const Action&) { return state.work.reading.value; }

}  // namespace

constinit const HandOf<Text> take_tool{
    {
        .name = "take_tool",
        .meaning = "Take an instrument in hand; what was held is laid down and its probes come off.",
        .group = Group::faults,
        .why_not = why_not_take_tool,
        .effect = tool_taken,
        .minutes = 0.3,
    },
    tool};

constinit const HandOf<Text> set_meter{
    {
        .name = "set_meter",
        .meaning = "Turn the multimeter to a function; probes that are placed stay.",
        .group = Group::faults,
        .why_not = why_not_set_meter,
        .effect = meter_set,
    },
    function};

constinit const HandOf<Text> red_probe{
    {
        .name = "red_probe",
        .meaning = "Put the red probe on a terminal. Measuring on live parts is for licensed people.",
        .group = Group::faults,
        .why_not = why_not_probe,
        .effect = probe_placed<&FaultWork::red>,
        .minutes = probe_min,
        .value = read_value,
    },
    terminal};

constinit const HandOf<Text> black_probe{
    {
        .name = "black_probe",
        .meaning = "Put the black probe on a terminal.",
        .group = Group::faults,
        .why_not = why_not_probe,
        .effect = probe_placed<&FaultWork::black>,
        .minutes = probe_min,
        .value = read_value,
    },
    terminal,
};

constinit const HandOf<> probes_off{{
    .name = "probes_off",
    .meaning = "Take the probes, clamp or thermometer off.",
    .group = Group::faults,
    .effect = probes_taken_off,
}};

constinit const HandOf<Text> clamp_round{
    {
        .name = "clamp_round",
        .meaning = "Lay the clamp meter round one wire.",
        .group = Group::faults,
        .why_not = why_not_clamp,
        .effect = clamp_laid,
        .minutes = probe_min,
        .value = read_value,
    },
    wire,
};

constinit const HandOf<Text> press_thermometer{
    {
        .name = "press_thermometer",
        .meaning = "Press the contact thermometer on something.",
        .group = Group::faults,
        .why_not = why_not_thermometer,
        .effect = thermometer_pressed,
        .minutes = 2.0,
        .value = read_value,
    },
    point,
};

constinit const HandOf<> connect_gauges{{
    .name = "connect_gauges",
    .meaning = "Connect the gauge set to the chiller's service ports. Only licensed people may.",
    .group = Group::faults,
    .why_not = why_not_gauges,
    .effect = gauges_connected,
    .minutes = 6.0,
    .value = read_value,
}};

constinit const HandOf<> take_gauges_off{{
    .name = "take_gauges_off",
    .meaning = "Take the gauge set off.",
    .group = Group::faults,
    .why_not = why_not_gauges_off,
    .effect = gauges_taken_off,
    .minutes = 2.0,
}};

constinit const HandOf<> look_at_reading{{
    .name = "look_at_reading",
    .meaning = "Look at the instrument again.",
    .group = Group::faults,
    .why_not = why_not_look,
    .effect = looked_at,
    .value = read_value,
}};

constinit const HandOf<> new_fuse{{
    .name = "new_fuse",
    .meaning = "Put a new fuse into the multimeter.",
    .group = Group::faults,
    .why_not = why_not_fuse,
    .effect = fuse_changed,
    .minutes = 2.0,
}};

constinit const HandOf<Text> take_wire_off{
    {
        .name = "take_wire_off",
        .meaning = "Take a wire off its terminals, to measure what is behind it alone.",
        .group = Group::faults,
        .why_not = why_not_wire_off,
        .harms = harms_of_wire,
        .effect = wire_taken_off,
        .minutes = 1.0,
    },
    wire};

constinit const HandOf<Text> put_wire_on{
    {
        .name = "put_wire_on",
        .meaning = "Put a wire back on its terminals.",
        .group = Group::faults,
        .why_not = why_not_wire_on,
        .harms = harms_of_wire,
        .effect = wire_put_on,
        .minutes = 1.0,
    },
    wire,
};

HandList instrument_hands() {
  static constexpr const Hand* list[] = {
      &take_tool,   &set_meter,         &red_probe,      &black_probe,     &probes_off,
      &clamp_round, &press_thermometer, &connect_gauges, &take_gauges_off, &look_at_reading,
      &new_fuse,    &take_wire_off,     &put_wire_on};
  return list;
}

}  // namespace stirbench::hands
