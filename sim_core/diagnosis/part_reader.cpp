#include "sim_core/diagnosis/part_reader.h"

#include <algorithm>
#include <array>
#include <stdexcept>
#include <string>

#include "sim_core/plant/plant.h"
#include "sim_core/plant/upkeep/wear.h"
#include "sim_core/refrigeration/r290.h"

namespace stirbench::diagnosis {

namespace {

using machine::Machine;
using machine::State;

// Cooling across the drier. Drier (four times the valve's area where it is free) and expansion valve share
// the fall of pressure as the inverse squares of their areas; where the pressure after the drier is below the
// liquid's saturation it boils and is as cold as that.
double drier_drop_K(const Machine& machine, const State& s) {
  if (!s.plant.compressor_on) return 0.0;
  const refrigeration::ChillerGauges& g = s.plant.chiller.gauges;
  const double valve_m2 = machine.plant.chiller.valve_area_m2 * std::max(0.01, g.valve_norm);
  const double drier_m2 = 4.0 * machine.plant.chiller.valve_area_m2 *
                          std::max(1.0e-3, 1.0 - s.plant.chiller.health.restriction_norm);
  const double share = (valve_m2 * valve_m2) / (valve_m2 * valve_m2 + drier_m2 * drier_m2);
  const double after_bar = g.discharge_bar - share * (g.discharge_bar - g.suction_bar);
  return std::max(0.0, g.condensing_degC - g.subcooling_K - refrigeration::r290_saturation_degC(after_bar));
}

// What the drive sounds like: -1 silent; else torque of bushings and gear over that of a good machine. Two
// lines make a motor hum twice as loud (choice), so that it is heard like three times the friction.
double drive_noise(const Machine& machine, const State& s) {
  if (s.plant.flows.motor_A <= 0.05) return -1.0;
  plant::PlantState good = s.plant;
  good.health = {};
  const double torque = plant::bushings_torque_Nm(machine.plant, s.plant) /
                        std::max(0.01, plant::bushings_torque_Nm(machine.plant, good));
  return s.plant.circuit.balanced ? torque : torque + 3.0;
}

struct Part {
  std::string_view name;
  double (*read)(const Machine& machine, const State& state);
};

constexpr std::array<Part, 28> parts = {{
    {"part:drier_drop_K", drier_drop_K},
    {"part:drive_noise", drive_noise},
    // Torque to turn the shaft by hand [N m].
    {"part:hand_torque_Nm", [](const Machine& m, const State& s) { return plant::bushings_torque_Nm(m.plant, s.plant); }},
    // What the gear alone adds to it, felt with the agitator off [N m].
    {"part:gear_drag_Nm", [](const Machine&, const State& s) { return s.plant.health.gear_drag_Nm; }},
    // How much of the dog between shaft and agitator is left.
    {"part:dog_norm", [](const Machine&, const State& s) { return s.plant.health.agitator_grip_norm; }},
    // Fan: share of its speed while the compressor runs; how freely its blades turn by hand.
    {"part:fan_norm",
         [](const Machine&, const State& s) { return s.plant.compressor_on && s.plant.circuit.fan_on ? s.plant.chiller.health.fan_norm : 0.0; }},
    {"part:fan_free_norm", [](const Machine&, const State& s) { return s.plant.chiller.health.fan_norm; }},
    {"part:condenser_air_norm",
         [](const Machine&, const State& s) {
           const auto& health = s.plant.chiller.health;
           return s.plant.compressor_on && s.plant.circuit.fan_on ? health.fan_norm * (1.0 - 0.7 * health.condenser_fouling_norm) : 0.0;
         }},
    {"part:condenser_split_K",
         [](const Machine&, const State& s) {
           return s.plant.compressor_on ? s.plant.chiller.gauges.condensing_degC - s.plant.chiller.gauges.air_on_degC : 0.0;
         }},
    {"part:condenser_fouling_norm", [](const Machine&, const State& s) { return s.plant.chiller.health.condenser_fouling_norm; }},
    // Air onto the condenser against the room.
    {"part:own_air_K", [](const Machine&, const State& s) { return s.plant.chiller.gauges.air_on_degC - s.plant.environment.ambient_degC; }},
    // Pump with its cover off: gap of the vanes over a new one's, grip of the coupling, free width of the
    // passage, air that the seal lets in.
    {"part:vane_gap_norm", [](const Machine&, const State& s) { return s.plant.health.slip_factor; }},
    {"part:pump_coupling_norm", [](const Machine&, const State& s) { return s.plant.health.pump_norm; }},
    {"part:passage_loss_norm", [](const Machine&, const State& s) { return s.plant.health.loop_loss_factor; }},
    {"part:pump_seal_norm", [](const Machine&, const State& s) { return s.plant.health.air_leak_norm; }},
    {"part:draw_bore_norm", [](const Machine&, const State& s) { return s.plant.health.draw_bore_norm; }},
    {"part:draw_ring_norm", [](const Machine&, const State& s) { return s.plant.health.draw_leak_norm; }},
    {"part:lid_seal_norm", [](const Machine&, const State& s) { return s.plant.health.lid_leak_factor; }},
    {"part:insulation_norm", [](const Machine&, const State& s) { return s.plant.health.insulation_factor; }},
    {"part:element_seat_norm", [](const Machine&, const State& s) { return s.plant.health.element_contact_norm; }},
    {"part:probe_seat_norm", [](const Machine&, const State& s) { return s.plant.health.probe_air_norm; }},
    {"part:probe_paste_norm", [](const Machine&, const State& s) { return s.plant.health.probe_tau_factor; }},
    // What the table of IEC 60751 gives for the probe at the product's temperature [Ohm] (100 (1 + 3.9083e-3
    // t - 5.775e-7 t^2), 0 .. 850 degC).
    {"part:probe_table_Ohm",
         [](const Machine&, const State& s) {
           const double t = plant::product_degC(s.plant);
           return 100.0 * (1.0 + 3.9083e-3 * t - 5.775e-7 * t * t);
         }},
    // Controller fed with a known resistance instead of the probe: what it shows too much.
    {"part:input_error_K", [](const Machine&, const State& s) { return s.plant.health.panel_offset_K; }},
    // Temperature at which the cut-out opens when it is warmed on its own.
    {"part:cutout_degC", [](const Machine& m, const State& s) { return m.plant.elements.cutout_degC + s.plant.health.cutout_offset_K; }},
    {"part:overload_A", [](const Machine& m, const State& s) { return m.plant.drive.overload_A * s.plant.health.overload_setting_norm; }},
    // Consistency of the mix over that of its recipe, by a flow cup.
    {"part:thickness_norm", [](const Machine&, const State& s) { return s.plant.health.thickness_factor; }},
    // What old product left in valve and hose: growth that a swab shows [log10].
    {"part:soil_log10", [](const Machine&, const State& s) { return s.plant.health.soil_log10; }},
}};

const Part* find_part(std::string_view name) {
  const auto found =
      std::find_if(parts.begin(), parts.end(), [name](const Part& one) { return one.name == name; });
  return found == parts.end() ? nullptr : &*found;
}

}  // namespace

bool knows_part(std::string_view name) { return find_part(name) != nullptr; }

double read_part(const Machine& machine, const State& state, std::string_view name) {
  const Part* part = find_part(name);
  if (part == nullptr) throw std::invalid_argument("there is no part \"" + std::string(name) + "\"");
  return part->read(machine, state);
}

}  // namespace stirbench::diagnosis
