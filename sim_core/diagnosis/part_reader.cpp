#include "sim_core/diagnosis/part_reader.h"

#include <algorithm>
#include <array>
#include <stdexcept>

#include "sim_core/plant/plant.h"

namespace stirbench::diagnosis {

namespace {

using bench::Machine;
using bench::State;

struct Part {
  std::string_view name;
  double (*read)(const Machine& good, const Machine& machine, const State& state);
};

// 0 good, 1 rotor worn, 2 pin sheared, 3 passage clogged: what one sees with the cover off.
double pump_state(const Machine& good, const Machine& machine, const State&) {
  constexpr double worn = 4.0;
  constexpr double clogged = 8.0;
  if (machine.plant.pump.displacement_L_per_rev < 0.5 * good.plant.pump.displacement_L_per_rev) return 2.0;
  if (machine.plant.pump.circulation_loss_bar_at_rated > clogged * good.plant.pump.circulation_loss_bar_at_rated) return 3.0;
  return machine.plant.pump.slip_L_per_min_per_bar > worn * good.plant.pump.slip_L_per_min_per_bar ? 1.0 : 0.0;
}

// What a clamp round each heater line shows: 0 three alike, 1 two low and one right (an element open), 2 two lower and one without (a
// line lost), 3 two low and one without (one element left), 4 none carries any.
double heater_pattern(const Machine& good, const Machine& machine, const State& state) {
  constexpr double least_W = 50.0;
  const double lines = machine.plant.elements.rated_W_each / good.plant.elements.rated_W_each;
  const int open = good.plant.elements.count - machine.plant.elements.count;
  if (state.plant.flows.heaters_W < least_W) return 4.0;
  if (lines < 0.75) return 2.0;
  return open == 0 ? 0.0 : open == 1 ? 1.0 : 3.0;
}

// -1 silent, below 1 an even hum, from 1 on squealing, grinding or humming loudly.
double drive_noise(const Machine& good, const Machine& machine, const State& state) {
  constexpr double squeals = 4.0;     // times the friction
  constexpr double grinds = 1.35;     // times the gear's loss
  constexpr double hums = 1.35;       // times the idle current
  if (state.plant.flows.motor_A <= 0.0) return -1.0;
  const double friction = machine.plant.agitator_bushing.friction_wet / good.plant.agitator_bushing.friction_wet;
  const double gear = good.plant.drive.gear_efficiency_norm / machine.plant.drive.gear_efficiency_norm;
  return std::max({friction / squeals, gear / grinds, state.plant.flows.motor_A / (hums * good.plant.drive.idle_A)});
}

constexpr std::array<Part, 15> parts = {{
    {"part:heater_pattern", heater_pattern},
    {"part:drive_noise", drive_noise},
    {"part:gear_norm",
     [](const Machine& good, const Machine& m, const State&) { return m.plant.drive.gear_efficiency_norm / good.plant.drive.gear_efficiency_norm; }},
    {"part:fan_norm", [](const Machine&, const Machine&, const State& s) { return s.plant.compressor_on ? s.plant.chiller.condition.fan_norm : 0.0; }},
    {"part:condenser_split_K",
     [](const Machine&, const Machine&, const State& s) {
       return s.plant.compressor_on ? s.plant.chiller.gauges.condensing_degC - s.plant.chiller.gauges.air_on_degC : 0.0;
     }},
    {"part:elements_working", [](const Machine&, const Machine& m, const State&) { return static_cast<double>(m.plant.elements.count); }},
    {"part:heater_lines_norm",
     [](const Machine& good, const Machine& m, const State& s) {
       return s.plant.environment.supply_norm * m.plant.elements.rated_W_each / good.plant.elements.rated_W_each;
     }},
    {"part:pump_state", pump_state},
    {"part:loss_norm", [](const Machine& good, const Machine& m, const State&) { return m.plant.vat.loss_W_per_K / good.plant.vat.loss_W_per_K; }},
    {"part:probe_lag_K", [](const Machine&, const Machine&, const State& s) { return plant::product_degC(s.plant) - s.plant.probe_degC; }},
    {"part:overload_A", [](const Machine&, const Machine& m, const State&) { return m.plant.drive.overload_A; }},
    {"part:condenser_air_norm",
     [](const Machine&, const Machine&, const State& s) {
       const auto& condition = s.plant.chiller.condition;
       return s.plant.compressor_on ? condition.fan_norm * (1.0 - 0.8 * condition.condenser_fouling_norm) : 0.0;
     }},
    {"part:condenser_fouling_norm", [](const Machine&, const Machine&, const State& s) { return s.plant.chiller.condition.condenser_fouling_norm; }},
    {"part:draw_bore_norm", [](const Machine& good, const Machine& m, const State&) { return m.plant.draw.valve_bore_m / good.plant.draw.valve_bore_m; }},
    {"part:bushing_friction_norm",
     [](const Machine& good, const Machine& m, const State&) { return m.plant.agitator_bushing.friction_wet / good.plant.agitator_bushing.friction_wet; }},
}};

const Part* find_part(std::string_view signal) {
  const auto found = std::find_if(parts.begin(), parts.end(), [signal](const Part& one) { return one.name == signal; });
  return found == parts.end() ? nullptr : &*found;
}

}  // namespace

bool PartReader::knows(std::string_view signal) const { return find_part(signal) != nullptr; }

double PartReader::read(const bench::Machine& machine, const bench::State& state, std::string_view signal) const {
  const Part* part = find_part(signal);
  if (part == nullptr) throw std::invalid_argument("there is no part signal \"" + std::string(signal) + "\"");
  return part->read(good_, machine, state);
}

}  // namespace stirbench::diagnosis
