#pragma once

#include <array>
#include <cstdint>

#include "sim_core/plant/health.h"
#include "sim_core/plant/safety_parts.h"
#include "sim_core/plant/upkeep/assembly.h"
#include "sim_core/plant/upkeep/service_state.h"
#include "sim_core/product/product.h"
#include "sim_core/refrigeration/chiller_state.h"

// Everything about the physical machine that changes. Plain values only: a copy is a save point.
namespace stirbench::plant {

// The positions of what people move by hand.
enum class HoseEnd : std::uint8_t { none, pail, freezer };

struct Fittings {
  bool lid_open = false;
  bool shaft_cover_open = false;
  bool isolator_on = true;
  bool rinse_on = false;
  double draw_opening_norm = 0.0;  // 0 shut .. 1 handle fully pulled
  HoseEnd hose = HoseEnd::none;
};

struct Environment {
  double ambient_degC = 22.0;
  double humidity_norm = 0.5;
  double supply_norm = 1.0;  // supply voltage / nominal; 0 = power cut
  double frequency_Hz = 50.0;
};

// What the relays switch on in the plant this tick.
struct Actuators {
  // Power of the elements over their rated power, at the supply's nominal voltage: 1 when all are on and
  // rated for it, (400 / 415)^2 when they are rated for 415 V on 400 V.
  double heat_norm = 0.0;
  bool drive_on = false;
  bool chiller_on = false;
  // Sequence voltages at the drive relative to the nominal ones, from the circuit; below 0: no circuit, use
  // the supply voltage.
  double drive_forward_norm = -1.0;
  double drive_backward_norm = 0.0;
  double drive_A = 0.0;  // greatest line current when they are not equal
  bool from_circuit() const { return drive_forward_norm >= 0.0; }
};

// Energy account since the session began [J], signed so that stored = sum of the others + residual.
// `stored` is computed independently from the state (account.h).
struct Ledger {
  double heaters_J = 0.0;
  double drive_J = 0.0;    // shaft work and friction that ends as heat in product and parts
  double chiller_J = 0.0;  // negative: heat taken out by the refrigerant
  double surroundings_J = 0.0;
  double evaporation_J = 0.0;  // negative: enthalpy of the vapour that left
  double material_J = 0.0;     // poured in less drawn off
  double start_J = 0.0;        // stored energy at the beginning
};

// Mass account [kg]: product in vat = poured + rinsed - drawn - spilled - evaporated - clung.
struct MassLedger {
  double start_kg = 0.0;
  double poured_kg = 0.0;
  double rinsed_kg = 0.0;
  double drawn_kg = 0.0;
  double spilled_kg = 0.0;
  double evaporated_kg = 0.0;
  double clung_kg = 0.0;  // stayed on the walls as a film, less what came off again
};

// Values derived from the state at the last refresh (pace.h): properties and coefficients that change slowly.
// They are part of the state so that a copy continues exactly as its original would.
struct Coefficients {
  double volume_L = 0.0;
  double density_kg_per_m3 = 1000.0;
  double well_cp_J_per_kgK = 4180.0;
  double vat_cp_J_per_kgK = 4180.0;
  double consistency_Pa_sn = 1.0e-3;
  double flow_index = 1.0;
  double viscosity_Pa_s = 1.0e-3;  // apparent, at the agitator's shear rate
  double well_wall_W_per_K = 0.0;  // wall to well product, deposit included
  double vat_wall_W_per_K = 0.0;
  double exchange_kg_per_s = 0.0;  // between well and vat: circulation plus natural convection
  double circulation_L_per_min = 0.0;
  double agitator_torque_Nm = 0.0;    // at rated speed
  double evaporation_kg_per_s = 0.0;  // leaving the machine
  double surface_W_per_K = 0.0;       // product surface to head space
  double freezing_point_degC = 0.0;
  double boiling_point_degC = 100.0;
  double still_wall_W_per_K = 0.0;  // wall to well product by natural convection alone
  double viscous_torque_Nm =
      0.0;                      // part of agitator_torque_Nm that grows with the speed itself, not its square
  double pump_torque_Nm = 0.0;  // at rated speed
  double lid_room_W_per_K = 0.0;       // closed lid to the room
  double water_excess_J_per_kg = 0.0;  // enthalpy of water above that of the mix, at the well's temperature
  double vapour_J_per_kg = 0.0;        // enthalpy of the vapour that leaves the surface
  double draw_kg_per_s = 0.0;          // through the draw valve as it stands now
  double evaporating_degC = 22.0;      // saturation temperatures of the refrigerant
  double condensing_degC = 22.0;
  double chiller_capacity_W = 0.0;  // most the compressor can take at those
  double compressor_W = 0.0;
  double coldest_degC = 22.0;  // zones at the refresh, so that kinetics see the middle of the interval
  double mean_degC = 22.0;
  double hottest_degC = 22.0;
  double scorch_kg_per_m2s = 0.0;  // growth of the deposit at 120 degC wall temperature, nothing moving
  double foam_per_kg = 0.0;        // rise of air_norm for each kg of vapour that bubbles through
  double foam_hold_norm = 0.0;     // share of the air that gets in which the product keeps
  double drawn_air_norm = 0.0;     // air_norm that the turning agitator would whip up to
  double surface_m2 = 0.0;         // of the product
  double lid_drip_kg_per_s = 0.0;  // vapour that condenses under the closed lid
  double dew_kg_per_s = 0.0;       // onto the outside; negative: it dries
  double dew_W = 0.0;              // share of its latent heat that reaches the vat's wall
  double probe_stem_norm = 0.0;    // share of the room in what the pocket's tip has, by conduction along it
  double seen_fittings =
      -1.0;  // lid, hose, valve, drive at the refresh in one number; a change makes a refresh due
};

// Rates of change of the coefficients [their unit / s], from the last two refreshes; 0 after switching.
struct Trend {
  double well_wall_W_per_K = 0.0;
  double vat_wall_W_per_K = 0.0;
  double exchange_kg_per_s = 0.0;
  double surface_W_per_K = 0.0;
  double lid_room_W_per_K = 0.0;
  double evaporation_kg_per_s = 0.0;
  double evaporating_degC = 0.0;
  double evaporator_W_per_K = 0.0;  // of the chiller's gauges
  double lid_drip_kg_per_s = 0.0;
  double dew_W = 0.0;
};

// Nodes that conduct: element, well wall, well, vat, vat wall, evaporator, lid.
using NodeTemperatures = std::array<double, 7>;

// What the step keeps between ticks so that each part advances at its own pace (pace.h).
struct Pace {
  Trend trend;
  bool disturbed = true;            // contents or temperatures were changed outside the step: start afresh
  double coefficients_age_s = 0.0;  // since their refresh, and when the next is due
  double coefficients_due_s = 0.0;
  double chiller_age_s = 0.0;
  double chiller_due_s = 0.0;
  double chiller_load_degC = 22.0;  // evaporator's wall at the chiller's refresh
  double seen_heat_norm = 0.0;      // of the elements, at the last tick
  double seen_power = -1.0;         // other relays with the compressor, and the room, in one number each
  double seen_room = -1.0;
  NodeTemperatures seen_degC{};  // nodes and shaft at the refresh
  double seen_rad_per_s = 0.0;
  double seen_rubbing_Nm = 0.0;    // torque of bushings and vanes that the shaft was last turned with
  NodeTemperatures before_degC{};  // nodes a tick ago
  double before_s = 0.0;           // length of that tick; 0: nodes have jumped since
  bool shaft_steady = false;       // the shaft kept its speed: its flows and its heat stay as they are
  double stir_vat_W = 0.0;
  double stir_well_W = 0.0;
  double wear_due_s = 0.0;  // time by which wear has still to be advanced
};

struct BushingState {
  double play_mm = 0.0;  // radial, beyond the clearance as new
  double temperature_degC = 22.0;
};

// Flexible vanes of the circulation pump. What they have lost stays lost until they are replaced.
struct VaneState {
  double temperature_degC = 22.0;
  double wear_norm = 0.0;  // 0 new .. 1 torn or worn out
};

// The shaft's seal. What its lip has lost stays lost until it is replaced.
struct SealState {
  double wear_norm = 0.0;  // 0 new .. 1 worn out
  double tray_kg = 0.0;    // product in the drip tray below
};

struct Flows {  // rates of the last tick, for display, trace and monitors
  double heaters_W = 0.0;
  double chiller_W = 0.0;  // heat taken out, positive
  double compressor_W = 0.0;
  double drive_W = 0.0;  // electrical
  double motor_A = 0.0;
  double agitator_rpm = 0.0;
  double torque_Nm = 0.0;
  double circulation_L_per_min = 0.0;
  double draw_L_per_min = 0.0;
  double spill_L_per_min = 0.0;
  double splash_L_per_min = 0.0;  // drops that the drawn jet throws out of the pail
  double steam_kg_per_h = 0.0;    // visible vapour leaving
  double suction_bar = 0.0;       // absolute
  double discharge_bar = 0.0;
};

// Mass and energy of the freezer's contents, signed so that contents = sum of the entries.
struct FreezerLedger {
  double arrived_kg = 0.0;
  double drawn_kg = 0.0;
  double spilled_kg = 0.0;
  double drained_kg = 0.0;  // down the drain
  double arrived_J = 0.0;
  double left_J = 0.0;  // drawn, spilled and drained, negative
  double dasher_J = 0.0;
  double refrigerant_J = 0.0;  // negative
  double room_J = 0.0;
};

// What the batch freezer's selector is set to.
enum class FreezerSetting : std::uint8_t {
  freeze,  // dasher and refrigeration
  dasher,  // dasher alone: rinsing, breaking up, drawing
  keep,    // both, only while the product is warmer than when it became ready: for a charge that waits
  count
};

// The batch freezer beside the machine. It has its own supply lead: the machine's isolator does not stop it.
struct FreezerState {
  product::Product product;  // ice counts as water here
  double contents_J = 0.0;   // above 0 degC, liquid
  double degC = 22.0;
  double ice_kg = 0.0;
  double air_L = 0.0;       // beaten in
  double crystal_um = 0.0;  // mean size of the ice crystals
  double flake_kg = 0.0;    // ice that froze on to the wall before a blade took it off
  bool inlet_open = true;
  bool lid_open = false;    // the hinged lid in front, with a guard that stops the dasher
  bool drain_open = false;  // plug at the lowest point; leads to the gully
  FreezerSetting setting = FreezerSetting::freeze;
  bool resting = false;    // keep: cold enough, dasher and refrigeration wait
  bool running = false;    // started; what turns depends on the setting
  bool tripped = false;    // the dasher's overload protection
  double gate_norm = 0.0;  // outlet gate, 0 shut .. 1 open
  double motor_heat_norm = 0.0;
  double freezing_s = 0.0;  // dasher and refrigeration on, since this charge was started
  double ready_s = -1.0;    // freezing_s when it became ready, -1 not yet
  // Of the last second, for display and for what people hear and feel.
  double wall_degC = 22.0;
  double evaporating_degC = 22.0;
  double refrigeration_W = 0.0;
  double compressor_W = 0.0;
  double torque_Nm = 0.0;
  double viscosity_Pa_s = 0.0;
  double inflow_L_per_min = 0.0;
  double outflow_L_per_min = 0.0;
  double overflow_L_per_min = 0.0;
  double drain_L_per_min = 0.0;
  double line_bar = 0.0;  // in the hose that leads to it, above the room's
  double since_s = 0.0;   // not yet advanced
  // The tub under the gate.
  product::Product tub;
  double tub_J = 0.0;
  double tub_degC = -6.0;
  double tub_air_L = 0.0;
  FreezerLedger ledger;
};

struct PlantState {
  product::Product product;
  Fittings fittings;
  Environment environment;

  // Thermal nodes.
  double well_degC = 22.0;
  double vat_degC = 22.0;
  double element_degC = 22.0;
  double well_wall_degC = 22.0;
  double vat_wall_degC = 22.0;
  double evaporator_degC = 22.0;
  double lid_degC = 22.0;
  double head_space_degC = 22.0;  // air and vapour: quasi-steady between surface and lid
  double head_space_humidity_norm = 0.5;
  double lid_water_kg = 0.0;        // condensate that hangs under the lid
  double dew_kg = 0.0;              // on the cold outside of the vat
  double probe_pocket_degC = 22.0;  // wall of the probe's pocket
  double probe_degC = 22.0;         // the element in it
  double well_kg = 0.0;             // product in the well zone; the rest is in the vat zone
  // Enthalpies of the zones as the fluxes left them; the temperatures follow them within a second, exactly at
  // refresh.
  double well_J = 0.0;
  double vat_J = 0.0;

  // On the heated wall [kg/m2]: burnt matter (scorching), the white film of set milk protein and salts, and
  // milk stone, the salts that stay under that film (all but its protein); frost/ice on the cold wall [kg].
  double deposit_kg_per_m2 = 0.0;
  double protein_film_kg_per_m2 = 0.0;
  double mineral_film_kg_per_m2 = 0.0;
  double wall_ice_kg = 0.0;

  // Drive.
  double shaft_rad_per_s = 0.0;
  double motor_heat_norm = 0.0;  // overload relay's thermal image
  bool overload_tripped = false;
  bool cutout_tripped = false;  // over-temperature cut-out on the well wall
  BushingState agitator_bushing;
  BushingState shaft_end_bushing;
  VaneState vanes;
  SealState seal;
  double winding_degC = 22.0;  // of the drive's motor
  double dry_run_s = 0.0;      // time turned without product

  // Pump and draw line.
  double prime_norm = 1.0;  // 0 full of air, 1 primed

  // Chiller.
  bool compressor_on = false;
  bool pressure_tripped = false;
  double compressor_off_s = 1.0e6;
  refrigeration::ChillerState chiller;

  FreezerState freezer;
  HoseLine line;
  Soil soil;

  AssemblyState assembly = assembled();  // draw valve and agitator, part by part

  // Outside.
  product::Product pail;
  double pail_degC = 22.0;
  double floor_kg = 0.0;        // product
  double floor_water_kg = 0.0;  // dew that ran down the outside

  Coefficients coefficients;
  Flows flows;
  Ledger ledger;
  MassLedger masses;
  Pace pace;
  double since_refresh_s = 0.0;  // time by which the kinetics have still to be advanced
  double pour_spill_L = 0.0;     // spilled while pouring, shown in the next step's flows
  SafetyParts safety;
  Health health;
  CircuitState circuit;
  std::array<ActiveFault, 4> faults{};
};

// What the machine's sensors report to its controller this tick.
struct SensorReadings {
  double probe_degC = 22.0;
  bool lid_closed = true;          // reed switch
  bool shaft_cover_closed = true;  // switch
  bool overload_tripped = false;
  bool cutout_tripped = false;
  bool pressure_tripped = false;
  bool supply_on = true;
  bool emergency_stop_in = false;  // its contact is open
};

}  // namespace stirbench::plant
