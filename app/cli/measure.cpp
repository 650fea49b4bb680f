#include "app/cli/measure.h"

#include <algorithm>
#include <cmath>

#include "app/library/reading/suggest.h"
#include "sim_core/bench/script.h"
#include "sim_core/electrics/meter.h"
#include "sim_core/electrics/solve.h"
#include "sim_core/journal/session.h"
#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/instruments.h"

namespace stirbench::cli {

namespace {

namespace w = electrics;

void within(const char* option, double low, double high, double value, const char* unit) {
  if (value >= low && value <= high) return;
  throw Refusal(std::string(option) + ": expected " + fixed(low, 1) + " .. " + fixed(high, 1) + unit +
                ", found " + fixed(value, 3));
}

std::uint16_t terminal_or_refuse(const w::Network& network, const std::string& name) {
  const int found = network.terminal(name);
  if (found >= 0) return static_cast<std::uint16_t>(found);
  std::vector<std::string> known;
  for (const auto& t : network.terminals) known.push_back(t.name);
  const std::string near = library::nearest(name, known);
  throw Refusal("--between: expected a terminal such as \"K1.A1\" (--list shows all)" +
                (near.empty() ? std::string() : ", did you mean \"" + near + "\"?") + ", found \"" + name +
                "\"");
}

// The machine to measure on: actions played first, then the options applied.
machine::State state_for(const machine::Machine& machine, const MeasureOptions& o) {
  machine::StartSetup start;
  start.environment.ambient_degC = o.ambient_degC;
  start.environment.supply_norm = o.supply_norm;
  for (const std::string& fault : o.faults) start.faults.push_back(fault_or_refuse(machine, fault));
  bench::Run run(machine, bench::initial_state(machine, start));
  bench::ActionScript script(o.actions.empty() ? std::vector<hands::TimedAction>{}
                                               : actions_or_refuse(o.actions, machine));
  const auto ticks = static_cast<std::uint64_t>(std::llround(o.until_s / machine::tick_s));
  bench::drive(run, script, [&] { return run.state().tick >= ticks; });
  machine::State state = run.state();
  if (o.isolated) state.plant.fittings.isolator_on = false;
  if (o.lid_open) state.plant.fittings.lid_open = true;
  if (o.cover_open) state.plant.fittings.shaft_cover_open = true;
  if (o.probe_degC > -999.0) state.plant.probe_degC = o.probe_degC;
  return state;
}

plant::LoadCommands wanted_for(const machine::State& state, const MeasureOptions& o) {
  plant::LoadCommands wanted{state.control.heat_demand, state.plant.flows.agitator_rpm > 0.0,
                             state.plant.compressor_on};
  for (const std::string& one : o.demand) {
    if (one == "heat")
      wanted.heat = true;
    else if (one == "drive")
      wanted.drive = true;
    else if (one == "chill")
      wanted.chill = true;
    else
      throw Refusal("--demand: expected heat, drive or chill, found \"" + one + "\"");
  }
  return wanted;
}

nlohmann::json reading_json(const w::MeterReading& r, const std::string& unit) {
  return {{"value", r.over_range ? nlohmann::json() : nlohmann::json(r.value)},
          {"exact", r.exact},
          {"resolution", r.resolution},
          {"unit", unit},
          {"over_range", r.over_range},
          {"sounds", r.sounds},
          {"mishap", std::string(w::mishap_key(r.mishap))}};
}

int decimals_of(double resolution) {
  return resolution > 0.0 ? std::clamp(static_cast<int>(std::ceil(-std::log10(resolution) - 1e-9)), 0, 6) : 3;
}

void print_reading(const w::MeterReading& r, const std::string& unit) {
  print((r.over_range ? std::string("OL") : fixed(r.value, decimals_of(r.resolution))) + " " + unit +
        (r.sounds ? " (sounds)" : ""));
  if (r.mishap != w::Mishap::none) say(std::string(w::mishap_words(r.mishap)));
}

int list_terminals(const CommonOptions& common, const w::Network& network) {
  nlohmann::json parts = nlohmann::json::array();
  for (const auto& part : network.parts) {
    const auto names = w::terminal_names(part);
    parts.push_back({{"id", part.id},
                     {"kind", std::string(w::part_kind_word(part.kind))},
                     {"title", part.title},
                     {"place", part.place},
                     {"terminals", names}});
    if (common.json) continue;
    std::string line = part.id + "  " + part.title + " (" + part.place + "):";
    for (const auto& name : names) line += " " + name;
    print(line);
  }
  nlohmann::json wires = nlohmann::json::array();
  for (const auto& wire : network.wires)
    wires.push_back({{"number", wire.number}, {"from", wire.from}, {"to", wire.to}});
  nlohmann::json points = nlohmann::json::array();
  for (std::size_t i = 0; i < static_cast<std::size_t>(plant::ContactPoint::count); ++i)
    points.push_back(std::string(plant::contact_point_word(static_cast<plant::ContactPoint>(i))));
  if (common.json)
    print_json({{"parts", parts}, {"wires", wires}, {"contact_points", points}});
  else
    print(std::to_string(network.wires.size()) +
          " wires; --json lists them, and the points of the contact thermometer.");
  return exit_done;
}

int gauges(const CommonOptions& common, const plant::PlantState& state, const MeasureOptions& o) {
  const plant::GaugeReading g = plant::gauge_set(state, o.error, o.error);
  if (common.json) {
    print_json({{"meter", "gauges"},
                {"low_bar_gauge", g.low_bar},
                {"high_bar_gauge", g.high_bar},
                {"low_degC", g.low_degC},
                {"high_degC", g.high_degC},
                {"superheat_K", g.superheat_K},
                {"subcooling_K", g.subcooling_K}});
    return exit_done;
  }
  print("low side   " + fixed(g.low_bar, 2) + " bar gauge, " + fixed(g.low_degC, 1) + " degC");
  print("high side  " + fixed(g.high_bar, 2) + " bar gauge, " + fixed(g.high_degC, 1) + " degC");
  print("superheat  " + fixed(g.superheat_K, 1) + " K, subcooling " + fixed(g.subcooling_K, 1) + " K");
  return exit_done;
}

int contact(const CommonOptions& common, const plant::PlantState& state, const MeasureOptions& o) {
  const int point = plant::find_contact_point(o.at);
  if (point < 0)
    throw Refusal("--at: expected a point of the contact thermometer (--list --json shows all), found \"" +
                  o.at + "\"");
  const auto r = plant::contact_thermometer(state, static_cast<plant::ContactPoint>(point), o.error);
  if (common.json)
    print_json({{"meter", "contact"},
                {"at", o.at},
                {"value_degC", r.value_degC},
                {"exact_degC", r.exact_degC},
                {"over_range", r.over_range}});
  else
    print(r.over_range ? "out of range" : fixed(r.value_degC, 1) + " degC");
  return exit_done;
}

void check(const MeasureOptions& o) {
  within("--until", 0.0, 86400.0, o.until_s, " s");
  within("--ambient", -10.0, 60.0, o.ambient_degC, " degC");
  within("--supply", 0.0, 1.2, o.supply_norm, "");
  within("--error", -1.0, 1.0, o.error, "");
  within("--test-voltage", 250.0, 1000.0, o.test_V, " V");
}

}  // namespace

int measure(const CommonOptions& common, const MeasureOptions& options) {
  check(options);
  const library::Library library = load_library(common);
  const machine::Machine machine = machine_or_refuse(library, options.machine);
  const w::Network& network = machine.plant.circuit;
  if (options.list) return list_terminals(common, network);

  machine::State state = state_for(machine, options);
  if (options.meter == "gauges") return gauges(common, state.plant, options);
  if (options.meter == "contact") return contact(common, state.plant, options);
  const w::CircuitInputs conditions =
      plant::circuit_inputs(machine.plant, state.plant, wanted_for(state, options));
  w::Switchgear gear = state.plant.circuit.gear;
  w::settle_relays(network, conditions, gear);
  w::Meter meter{options.range, options.error, false};
  const w::MeterUser hands{!options.unlicensed, true};
  w::MeterReading reading;
  std::string unit = "V";
  if (options.meter == "clamp") {
    unit = "A";
    std::vector<int> wires;
    for (const int number : options.wires) {
      wires.push_back(network.wire(number));
      if (wires.back() < 0)
        throw Refusal("--wire: expected the number of a wire (--list --json shows all), found " +
                      std::to_string(number));
    }
    if (wires.empty()) throw Refusal("--wire: expected at least one for the clamp meter, found none");
    reading = w::clamp_meter(network, conditions, gear, meter, wires);
  } else {
    if (options.between.size() != 2)
      throw Refusal("--between: expected two terminals, found " + std::to_string(options.between.size()));
    const std::uint16_t a = terminal_or_refuse(network, options.between[0]);
    const std::uint16_t b = terminal_or_refuse(network, options.between[1]);
    if (options.meter == "insulation") {
      unit = "Ohm";
      reading = w::insulation_tester(network, conditions, gear, meter, options.test_V, a, b, hands);
    } else {
      auto function = w::MeterFunction::count;
      for (std::size_t i = 0; i < static_cast<std::size_t>(w::MeterFunction::count); ++i) {
        if (w::meter_function_word(static_cast<w::MeterFunction>(i)) == options.meter)
          function = static_cast<w::MeterFunction>(i);
      }
      if (function == w::MeterFunction::count)
        throw Refusal(
            "--meter: expected one of V~, V=, Ohm, continuity, clamp, insulation, gauges, contact, found \"" +
            options.meter + "\"");
      if (function == w::MeterFunction::Ohm || function == w::MeterFunction::continuity) unit = "Ohm";
      reading = w::multimeter(network, conditions, gear, function, meter, a, b, hands);
    }
  }
  if (common.json) {
    nlohmann::json out = reading_json(reading, unit);
    out["meter"] = options.meter;
    print_json(out);
  } else {
    print_reading(reading, unit);
  }
  return exit_done;
}

}  // namespace stirbench::cli
