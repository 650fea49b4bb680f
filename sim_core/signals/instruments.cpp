#include "sim_core/signals/instruments.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <stdexcept>
#include <string>
#include <vector>

#include "sim_core/electrics/meter.h"
#include "sim_core/electrics/solve.h"
#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/instruments.h"
#include "sim_core/plant/plant.h"

namespace stirbench::signals {

using machine::State;

namespace {

namespace w = electrics;

constexpr double over_range = 1.0e9;

std::vector<std::string_view> split(std::string_view name) {
  std::vector<std::string_view> out;
  for (std::size_t at = 0; at <= name.size();) {
    const std::size_t colon = std::min(name.find(':', at), name.size());
    out.push_back(name.substr(at, colon - at));
    at = colon + 1;
  }
  return out;
}

int wire_number(std::string_view word) {
  int number = 0;
  for (const char c : word) {
    if (c < '0' || c > '9' || number > 99999) return -1;
    number = 10 * number + (c - '0');
  }
  return word.empty() ? -1 : number;
}

std::optional<w::MeterFunction> function_of(std::string_view word) {
  for (std::size_t i = 0; i < static_cast<std::size_t>(w::MeterFunction::count); ++i) {
    if (w::meter_function_word(static_cast<w::MeterFunction>(i)) == word)
      return static_cast<w::MeterFunction>(i);
  }
  return std::nullopt;
}

constexpr std::array<std::string_view, 6> gauge_words = {"low_bar",   "high_bar",    "low_degC",
                                                         "high_degC", "superheat_K", "subcooling_K"};

double gauge(const plant::PlantState& state, std::string_view word) {
  const plant::GaugeReading g = plant::gauge_set(state);
  const std::array<double, 6> values = {g.low_bar,   g.high_bar,    g.low_degC,
                                        g.high_degC, g.superheat_K, g.subcooling_K};
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (gauge_words[i] == word) return values[i];
  }
  throw std::invalid_argument("gauge: there is no \"" + std::string(word) + "\"");
}

// The circuit of a state, as it is or isolated.
struct Bench {
  const w::Network& network;
  w::CircuitInputs conditions;
  w::Switchgear gear;
};

Bench circuit_of(const Machine& machine, const State& state, bool isolated) {
  Bench out{machine.plant.circuit,
            plant::circuit_inputs(machine.plant, state.plant, plant::last_wanted(state.plant)),
            state.plant.circuit.gear};
  if (isolated) out.conditions.switches.set(w::Switch::isolator_on, false);
  w::settle_relays(out.network, out.conditions, out.gear);
  return out;
}

// Takes the wires at a terminal off. False when there is no room for so many.
bool unplug(Bench& bench, int terminal) {
  for (std::size_t i = 0; i < bench.network.joins.size(); ++i) {
    const auto& join = bench.network.joins[i];
    if (join.from != terminal && join.to != terminal) continue;
    if (!bench.gear.add({w::DefectKind::wire_Ohm, static_cast<std::uint16_t>(i), 0, 1.0e12})) return false;
  }
  return true;
}

double shown(const w::MeterReading& reading) { return reading.over_range ? over_range : reading.exact; }

double meter(Bench bench, std::string_view how, w::MeterFunction function, int a, int b) {
  w::Meter instrument;
  if (how == "unplugged" && !(unplug(bench, a) && unplug(bench, b))) return over_range;
  const auto reading = w::multimeter(bench.network, bench.conditions, bench.gear, function, instrument,
                                     static_cast<std::uint16_t>(a), static_cast<std::uint16_t>(b));
  if (function == w::MeterFunction::continuity) return reading.sounds ? 1.0 : 0.0;
  return shown(reading);
}

bool is_meter(std::string_view word) { return word == "meter" || word == "dead" || word == "unplugged"; }

}  // namespace

bool knows_instrument(const Machine& machine, std::string_view name) {
  const auto part = split(name);
  const w::Network& network = machine.plant.circuit;
  const auto terminal = [&](std::size_t i) { return network.terminal(part[i]) >= 0; };
  if (part.size() == 2 && part[0] == "gauge")
    return std::find(gauge_words.begin(), gauge_words.end(), part[1]) != gauge_words.end();
  if (part.size() == 2 && part[0] == "display") return part[1] == "error_K" || part[1] == "off_K";
  if (part.size() == 2 && part[0] == "contact") return plant::find_contact_point(part[1]) >= 0;
  if (network.empty()) return false;
  if (part.size() == 4 && is_meter(part[0])) return function_of(part[1]) && terminal(2) && terminal(3);
  if (part.size() == 3 && part[0] == "insulation") return terminal(1) && terminal(2);
  if (part.size() == 2 && part[0] == "clamp") return network.wire(wire_number(part[1])) >= 0;
  if (part.size() == 2 && part[0] == "panel") return part[1] == "controller";
  const int which = part.size() == 2 ? network.part(part[1]) : -1;
  if (which < 0) return false;
  const w::CircuitPartKind kind = network.parts[static_cast<std::size_t>(which)].kind;
  return (part[0] == "contactor" && kind == w::CircuitPartKind::contactor) ||
         (part[0] == "breaker" && kind == w::CircuitPartKind::breaker);
}

double read_instrument(const Machine& machine, const State& state, std::string_view name) {
  if (!knows_instrument(machine, name))
    throw std::invalid_argument("there is no instrument or place \"" + std::string(name) + "\"");
  const auto part = split(name);
  if (part[0] == "gauge") return gauge(state.plant, part[1]);
  if (part[0] == "contact")
    return plant::contact_degC(state.plant,
                               static_cast<plant::ContactPoint>(plant::find_contact_point(part[1])));
  if (part[0] == "display") {
    const double error_K = plant::probe_reading_degC(state.plant) - plant::product_degC(state.plant);
    return part[1] == "off_K" ? std::abs(error_K) : error_K;
  }
  Bench bench =
      circuit_of(machine, state, part[0] == "dead" || part[0] == "unplugged" || part[0] == "insulation");
  const w::Network& network = bench.network;
  if (is_meter(part[0]))
    return meter(bench, part[0], *function_of(part[1]), network.terminal(part[2]), network.terminal(part[3]));
  if (part[0] == "insulation") {
    w::Meter tester;
    return shown(w::insulation_tester(network, bench.conditions, bench.gear, tester, 500.0,
                                      static_cast<std::uint16_t>(network.terminal(part[1])),
                                      static_cast<std::uint16_t>(network.terminal(part[2]))));
  }
  if (part[0] == "clamp") {
    const int wire = network.wire(wire_number(part[1]));
    return w::clamp_meter(network, bench.conditions, bench.gear, {}, {&wire, 1}).exact;
  }
  if (part[0] == "panel")
    return bench.gear.is_in(network.by_role(w::CircuitPartKind::controller, w::CircuitRole::none)) ? 1.0
                                                                                                   : 0.0;
  const int which = network.part(part[1]);
  return part[0] == "contactor" ? (bench.gear.is_in(which) ? 1.0 : 0.0)
                                : (bench.gear.is_tripped(which) ? 1.0 : 0.0);
}

}  // namespace stirbench::signals
