#include <algorithm>
#include <cmath>

#include "sim_core/plant/heat.h"
#include "sim_core/plant/plant.h"
#include "sim_core/plant/scorch.h"
#include "sim_core/plant/upkeep/seal.h"
#include "sim_core/plant/upkeep/vanes.h"
#include "sim_core/plant/upkeep/wear.h"
#include "sim_core/signals/signals_internal.h"

// Readings of the plant beyond the trace's own columns.
namespace stirbench::signals {

namespace {

void add_temperatures_and_flows(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number(
          "vat_degC", "product in the vat", [](M, S s) { return s.plant.vat_degC; }, true),
      number("coldest_degC", "colder of well and vat",
             [](M, S s) { return std::min(s.plant.well_degC, s.plant.vat_degC); }),
      number("vat_wall_degC", "wall of the vat", [](M, S s) { return s.plant.vat_wall_degC; }),
      number("element_degC", "heating elements", [](M, S s) { return s.plant.element_degC; }),
      number("evaporator_degC", "evaporator's wall", [](M, S s) { return s.plant.evaporator_degC; }),
      number("lid_degC", "lid", [](M, S s) { return s.plant.lid_degC; }),
      number("head_space_degC", "air above the product", [](M, S s) { return s.plant.head_space_degC; }),
      number("ambient_degC", "room", [](M, S s) { return s.plant.environment.ambient_degC; }),
      number(
          "mass_kg", "product in vat and well", [](M, S s) { return s.plant.product.total_kg(); }, true),
      number("fill_norm", "fill over the working volume",
             [](M m, S s) { return plant::fill_L(s.plant) / m.plant.vat.working_L; }),
      number(
          "motor_A", "motor current", [](M, S s) { return s.plant.flows.motor_A; }, true),
      number("shaft_W", "power at the agitator's shaft: what product, pump and bearings take",
             [](M, S s) { return s.plant.flows.torque_Nm * s.plant.shaft_rad_per_s; }),
      number("drive_load_norm", "power at the shaft over what motor and gear are rated for",
             [](M m, S s) {
               const plant::DriveSpec& d = m.plant.drive;
               return s.plant.flows.torque_Nm * s.plant.shaft_rad_per_s /
                      (d.rated_W * d.gear_efficiency_norm);
             }),
      number("drive_power_factor", "electrical power of the drive over voltage times current",
             [](M m, S s) {
               const double apparent_W = std::sqrt(3.0) * m.plant.supply_V * s.plant.environment.supply_norm *
                                         s.plant.flows.motor_A;
               return apparent_W > 0.0 ? s.plant.flows.drive_W / apparent_W : 0.0;
             }),
      number("winding_degC", "winding of the drive's motor", [](M, S s) { return s.plant.winding_degC; }),
      number("motor_heat_norm", "thermal image of the overload relay, trips at 1",
             [](M, S s) { return s.plant.motor_heat_norm; }),
      number(
          "compressor_W", "power of the compressor", [](M, S s) { return s.plant.flows.compressor_W; }, true),
      number(
          "suction_bar", "suction pressure, absolute", [](M, S s) { return s.plant.flows.suction_bar; },
          true),
      number(
          "discharge_bar", "discharge pressure, absolute", [](M, S s) { return s.plant.flows.discharge_bar; },
          true),
      number("steam_kg_per_h", "vapour that leaves", [](M, S s) { return s.plant.flows.steam_kg_per_h; }),
      number("spill_L_per_min", "flow over the brim", [](M, S s) { return s.plant.flows.spill_L_per_min; }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_heated_wall(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number("deposit_kg_per_m2", "burnt layer on the heated wall",
             [](M, S s) { return s.plant.deposit_kg_per_m2; }),
      number("deposit_g", "burnt layer, all of it",
             [](M m, S s) { return 1000.0 * s.plant.deposit_kg_per_m2 * m.plant.well.heated_area_m2; }),
      number("protein_film_g", "white film of set protein on the heated wall",
             [](M m, S s) { return 1000.0 * s.plant.protein_film_kg_per_m2 * m.plant.well.heated_area_m2; }),
      number("mineral_film_g", "milk stone on the heated wall",
             [](M m, S s) { return 1000.0 * s.plant.mineral_film_kg_per_m2 * m.plant.well.heated_area_m2; }),
      flag("bloom", "a white-grey bloom of milk stone is seen on the heated wall",
           [](M, S s) { return as_number(plant::shows_bloom(s.plant)); }),
      number("wall_resistance_m2K_per_W", "of all layers on the heated wall",
             [](M, S s) { return plant::layers_m2K_per_W(s.plant); }),
      number("singing_norm", "bubbles heard to collapse at the heated wall: 0 quiet, 1 loud",
             [](M m, S s) { return plant::singing_norm(m.plant, s.plant); }),
      flag("wall_sings", "the heated wall sings",
           [](M m, S s) { return as_number(plant::singing_norm(m.plant, s.plant) > plant::heard_norm); }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_pump_and_seal(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number("vane_degC", "vanes of the circulation pump",
             [](M, S s) { return s.plant.vanes.temperature_degC; }),
      number("vane_wear_norm", "wear of the pump's vanes: 0 new, 1 torn or worn out",
             [](M, S s) { return s.plant.vanes.wear_norm; }),
      number("circulation_pulse_norm", "share by which the pump's flow swings as its vanes pass",
             [](M, S s) {
               return s.plant.flows.circulation_L_per_min > 0.0 ? plant::vane_pulse_norm(s.plant.vanes) : 0.0;
             }),
      number("seal_wear_norm", "wear of the shaft's seal: 0 new, 1 worn out",
             [](M, S s) { return s.plant.seal.wear_norm; }),
      number("seal_leak_kg_per_h", "leak past the shaft's seal",
             [](M m, S s) { return 3600.0 * plant::seal_leak_kg_per_s(m.plant, s.plant); }),
      number("tray_kg", "product in the drip tray under the shaft's seal",
             [](M, S s) { return s.plant.seal.tray_kg; }),
      number("floor_water_kg", "dew that ran down to the floor",
             [](M, S s) { return s.plant.floor_water_kg; }),
      number("squeal_norm", "what is heard of dry rubbing: 0 quiet, 1 dry",
             [](M m, S s) { return plant::squeal_norm(m.plant, s.plant); }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_wear_and_fittings(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number(
          "agitator_play_mm", "radial play of the agitator's bushing",
          [](M, S s) { return s.plant.agitator_bushing.play_mm; }, true),
      number(
          "shaft_end_play_mm", "radial play of the shaft end's bushing",
          [](M, S s) { return s.plant.shaft_end_bushing.play_mm; }, true),
      number("agitator_bushing_degC", "the agitator's bushing",
             [](M, S s) { return s.plant.agitator_bushing.temperature_degC; }),
      number("shaft_end_bushing_degC", "the shaft end's bushing",
             [](M, S s) { return s.plant.shaft_end_bushing.temperature_degC; }),
      number("bushing_degC", "hotter of the two bushings",
             [](M, S s) {
               return std::max(s.plant.agitator_bushing.temperature_degC,
                               s.plant.shaft_end_bushing.temperature_degC);
             }),
      number("wear_norm", "greater play of the two bushings over its limit",
             [](M m, S s) {
               return std::max(s.plant.agitator_bushing.play_mm / m.plant.agitator_bushing.limit_mm,
                               s.plant.shaft_end_bushing.play_mm / m.plant.shaft_end_bushing.limit_mm);
             }),
      number("air_norm", "air in the product, share of its volume",
             [](M, S s) { return s.plant.product.air_norm; }),
      number("dry_run_s", "time the agitator has turned without product",
             [](M, S s) { return s.plant.dry_run_s; }),
      number("prime_norm", "1 pump full of product, 0 full of air",
             [](M, S s) { return s.plant.prime_norm; }),
      number("wall_ice_kg", "ice on the cold wall", [](M, S s) { return s.plant.wall_ice_kg; }),
      number(
          "pail_kg", "product in the pail", [](M, S s) { return s.plant.pail.total_kg(); }, true),
      number("pail_degC", "product in the pail", [](M, S s) { return s.plant.pail_degC; }),
      number(
          "floor_kg", "product on the floor", [](M, S s) { return s.plant.floor_kg; }, true),
      number("draw_opening_norm", "draw handle, 0 shut to 1",
             [](M, S s) { return s.plant.fittings.draw_opening_norm; }),
      flag("isolated", "the isolator is off",
           [](M, S s) { return as_number(!s.plant.fittings.isolator_on); }),
      flag("rinse_on", "rinse water runs", [](M, S s) { return as_number(s.plant.fittings.rinse_on); }),
      flag("hose_fitted", "a hose is fitted",
           [](M, S s) { return as_number(s.plant.fittings.hose != plant::HoseEnd::none); }),
      flag("overload_tripped", "the overload relay has tripped",
           [](M, S s) { return as_number(s.plant.overload_tripped); }),
      flag("cutout_tripped", "the heater cut-out has tripped",
           [](M, S s) { return as_number(s.plant.cutout_tripped); }),
      flag("pressure_tripped", "the chiller's pressure switch has tripped",
           [](M, S s) { return as_number(s.plant.pressure_tripped); }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

}  // namespace

void add_plant_signals(std::vector<Signal>& list) {
  add_temperatures_and_flows(list);
  add_heated_wall(list);
  add_pump_and_seal(list);
  add_wear_and_fittings(list);
}

}  // namespace stirbench::signals
