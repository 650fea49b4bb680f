#pragma once

#include <string>
#include <vector>

#include "sim_core/electrics/diagram.h"
#include "sim_core/plant/upkeep/assembly.h"
#include "sim_core/refrigeration/chiller_spec.h"

// The physical machine as content describes it: constant during a session. One struct per part; the unit is
// in the field's name. Loaded from content/machines/ID.json. The initialisers only keep values defined; they
// are no defaults, since the loader requires each field.
namespace stirbench::plant {

struct VatSpec {
  double working_L = 0.0;     // greatest permitted volume of vat and well together
  double brim_L = 0.0;        // spills above this
  double minimum_L = 0.0;     // least for circulation and agitation
  double diameter_m = 0.0;    // inner, cylinder
  double wall_area_m2 = 0.0;  // wetted side wall at working volume
  double wall_mass_kg = 0.0;
  double wall_cp_J_per_kgK = 0.0;
  double loss_W_per_K = 0.0;  // through insulation to the room, vat wall
  double lid_area_m2 = 0.0;
  double lid_mass_kg = 0.0;
  double lid_cp_J_per_kgK = 0.0;
  double lid_vapour_leak_norm = 0.0;  // share of open-surface evaporation that passes a closed lid
};

struct WellSpec {
  double volume_L = 0.0;
  double diameter_m = 0.0;
  double heated_area_m2 = 0.0;  // floor and side of the well, and the vat's bottom round it
  double wall_mass_kg = 0.0;
  double wall_cp_J_per_kgK = 0.0;
  double loss_W_per_K = 0.0;
  double evaporator_share_norm = 0.0;  // share of the evaporator's area that is on the well
  double passage_m = 0.0;              // free diameter of the opening to the vat when the pump is stopped
};

struct ElementSpec {
  int count = 0;
  double rated_W_each = 0.0;  // at rated_V
  double rated_V = 0.0;
  double mass_kg = 0.0;  // all together
  double cp_J_per_kgK = 0.0;
  double contact_W_per_K = 0.0;  // all elements to the well wall
  double cutout_degC = 0.0;      // independent over-temperature cut-out on the well wall, manual reset
};

struct DriveSpec {
  double rated_W = 0.0;
  double rated_rpm = 0.0;
  double synchronous_rpm = 0.0;
  double breakdown_ratio = 0.0;  // Mk/Mn
  double rated_A = 0.0;          // line current at rated load
  double idle_A = 0.0;
  double efficiency_norm = 0.0;  // at rated load
  double gear_ratio = 0.0;       // motor rpm / agitator rpm
  double gear_efficiency_norm = 0.0;
  double inertia_kgm2 = 0.0;     // all, seen at the agitator shaft
  double brake_torque_Nm = 0.0;  // friction that stops the shaft when power is off
  double overload_A = 0.0;       // relay setting
  double overload_tau_s = 0.0;   // thermal model, IEC 60947-4-1 trip class
};

struct AgitatorSpec {
  double diameter_m = 0.0;
  double laminar_power_Kp = 0.0;  // Np = Kp/Re + Np_turbulent
  double turbulent_power_Np = 0.0;
  double shear_ks = 0.0;        // Metzner-Otto
  double nusselt_wall_a = 0.0;  // Nu = a Re^(2/3) Pr^(1/3) at the vat wall (turbulent branch)
  double nusselt_well_a = 0.0;  // same form at the heated well, of the foot
  double foot_m = 0.0;          // diameter of the paddle at the shaft's foot, which stirs the well
  double covered_L = 0.0;       // agitator is covered from this fill on
};

struct PumpSpec {
  double displacement_L_per_rev = 0.0;  // per revolution of the agitator shaft
  double slip_L_per_min_per_bar =
      0.0;  // at 1 mPa s; laminar slip falls with viscosity, capped by orifice law
  double circulation_loss_bar_at_rated = 0.0;  // loop resistance with water at rated flow
  double prime_L = 0.0;                        // fill below which it draws air
  double shut_off_bar = 0.0;
  double vane_friction_Nm = 0.0;  // dry vanes in their housing, at the agitator's shaft
  double vane_J_per_K = 0.0;      // of the vanes and what of the housing warms up with them
  double vane_K_per_W = 0.0;      // from there to the well's wall, dry
  double vane_life_h = 0.0;       // turning in product until they are worn out
};

struct BushingSpec {
  std::string material;  // "nylon" or "bronze"
  double diameter_m = 0.0;
  double length_m = 0.0;
  double load_N = 0.0;
  double wear_dry_mm3_per_Nm = 0.0;
  double wear_wet_mm3_per_Nm = 0.0;
  double friction_dry = 0.0;
  double friction_wet = 0.0;
  double limit_mm = 0.0;        // radial play at which it must be replaced
  double softening_degC = 0.0;  // greatest temperature in running; friction and wear rise from here
  double clearance_mm = 0.0;    // radial, between shaft and bore as new, cold
  double wall_mm = 0.0;         // of the bushing: no more than this can wear away
  double K_per_W = 0.0;         // dry: from the rubbing face through shaft and foot to the well's wall
  double J_per_K = 0.0;         // of the bushing and the metal that warms up with it
};

struct DrawSpec {
  double valve_bore_m = 0.0;
  double valve_laminar_K1 = 0.0;  // of the valve's body and spout, on the bore (Hooper's K = K1 / Re + ...)
  double outlet_height_m = 0.0;   // valve below the bottom of the vat (positive: lower)
  double hose_bore_m = 0.0;
  double hose_length_m = 0.0;
};

struct RinseSpec {
  double flow_kg_per_s = 0.0;
  double water_degC = 0.0;
};

// A sheathed element in a pocket (thermowell) that stands in the product, heat-conducting paste between them.
struct ProbeSpec {
  double tau_s = 0.0;              // both lags together: pocket's wall, and element behind the paste
  double pocket_share_norm = 0.0;  // of that the pocket's wall, 0 .. 1
  double immersed_m = 0.0;         // length of the pocket in the product
  double pocket_outer_m = 0.0;     // diameter
  double pocket_wall_m = 0.0;      // thickness
  double vat_share_norm = 0.0;     // what the pocket sees: share of vat temperature, rest is well
  double covered_L = 0.0;          // below this it hangs in air
};

// The seal where the shaft passes the well's floor to the gear, with a tray below it.
struct SealSpec {
  double diameter_m = 0.0;
  double lip_m = 0.0;       // length of the gap that its lip closes
  double worn_gap_m = 0.0;  // radial gap of one that is worn out
  double life_h = 0.0;      // turning in product until it is worn out
  double dry_life_h = 0.0;  // and turning dry
  double tray_kg = 0.0;     // what the drip tray below holds
};

// A line of the table that a chlorine sanitiser must meet: at least this strong, at least this warm, this
// long.
struct SanitiserLine {
  double from_mg_per_L = 0.0;
  double least_degC = 0.0;
  double contact_s = 0.0;
};

// The batch freezer beside the machine: a horizontal cylinder with a dasher, chilled through its wall by a
// refrigeration unit of its own.
struct FreezerSpec {
  double free_L = 0.0;            // what the cylinder holds with the dasher in it
  double minimum_charge_L = 0.0;  // of liquid mix
  double maximum_charge_L = 0.0;
  double wall_area_m2 = 0.0;  // chilled and scraped
  int blades = 0;             // blades that pass a point of the wall per turn
  double dasher_rpm = 0.0;
  double friction_Nm = 0.0;       // of the blades on the wall when all of it is covered
  double drag_Nm_per_Pa_s = 0.0;  // dasher covered, at its speed, per Pa s of apparent viscosity
  double shear_per_s = 0.0;       // at which that viscosity counts
  double rated_Nm = 0.0;          // at the dasher's shaft; the overload protection is set to it
  double overload_tau_s = 0.0;
  double refrigerant_W_per_K = 0.0;  // boiling refrigerant to the inside of the wall
  double capacity_W = 0.0;           // of the unit at rated_evaporating_degC
  double rated_evaporating_degC = 0.0;
  double maximum_evaporating_degC = 0.0;  // the expansion valve throttles above
  double lowest_evaporating_degC = 0.0;   // the low-pressure switch keeps it above
  double room_W_per_K = 0.0;
  double inlet_height_m = 0.0;     // above the mixer's draw valve
  double draw_L_per_min = 0.0;     // gate fully open, dasher pushing, ready product
  double ready_degC = 0.0;         // at which the product is usually drawn
  double ready_Nm = 0.0;           // or this torque, whichever comes first
  double best_overrun_norm = 0.0;  // aged mix, proper charge
};

// On laws of the model that no machine file has a figure of; 1 but in runs that ask what their uncertainty
// does (machine/uncertain.h).
struct LawFactors {
  double thickness = 1.0;    // viscosity of whatever is in the vat
  double evaporation = 1.0;  // of the open surface, and of what drips from the lid
  double burning = 1.0;      // rate of the burnt deposit
  double white_film = 1.0;   // rate of the film of set protein
  double milk_stone = 1.0;   // rate of its mineral part
  double descaling = 1.0;    // rate at which acid dissolves it
  double boiling = 1.0;      // heat flux of bubbles at the wall
  double foam = 1.0;         // air that agitator and pouring bring in
  double fat_setting = 1.0;  // rate at which undercooled fat sets
};

struct MachineSpec {
  std::string id;
  std::string title;
  double supply_V = 0.0;    // line to line
  double supply_Hz = 50.0;  // frequency that the drive's and compressor's ratings are for
  VatSpec vat;
  WellSpec well;
  ElementSpec elements;
  refrigeration::ChillerSpec chiller;
  DriveSpec drive;
  AgitatorSpec agitator;
  PumpSpec pump;
  BushingSpec agitator_bushing;
  BushingSpec shaft_end_bushing;
  DrawSpec draw;
  AssemblySpec assembly;
  FreezerSpec freezer;
  RinseSpec rinse;
  ProbeSpec probe;
  SealSpec seal;
  LawFactors factors;
  std::vector<SanitiserLine> sanitiser;  // weakest first, of content's chlorine chemical; empty: none
  electrics::Network circuit;            // empty: the relays switch their loads directly
};

}  // namespace stirbench::plant
