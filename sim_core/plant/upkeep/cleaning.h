#pragma once

#include <vector>

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/plant/zones.h"

// Washing the machine: what stays on its walls, how it comes off, what a sanitiser kills, and what is carried
// into the next batch.
namespace stirbench::plant {

// Wetted walls of vat and well [m2].
double wetted_area_m2(const MachineSpec& spec);

// What clings to them after a liquid has drained [kg]: mean film on a draining wall after Jeffreys 1930
// (memory), h = 2/3 sqrt(mu H / (rho g t)), with H the vat's height and t = 60 s (choice); at most 1 mm.
double clinging_kg(const MachineSpec& spec, double viscosity_Pa_s, double density_kg_per_m3);
// How much more can cling to the bare part of the walls with `left_kg` still in the vat; `take_liquid` leaves
// it behind through `leave_film` as the level falls.
double film_room_kg(const MachineSpec& spec, const PlantState& state, double left_kg);
// Share of each kilogram that stays behind as the falling level bares the wall.
double film_share_norm(const MachineSpec& spec, const PlantState& state);
// Moves up to `room_kg` of what was taken last onto the walls. 3 % of a food's soil adheres from the start; a
// rinse removes the rest (dairy practice: 90 to 99 %, from memory).
void leave_film(PlantState& state, double room_kg, TakenLiquid& last);

// The liquid that is in contact with the walls, at rest, stirred or sprayed.
struct WashLiquid {
  double degC = 20.0;
  double alkaline_norm = 0.0;  // mass share of alkali, and of acid; they take each other up
  double acid_norm = 0.0;
  double stir_norm = 0.0;   // agitator's speed over the rated one; the rinse gun's jet counts as 1
  double reach_norm = 0.0;  // share of the walls that it reaches
};
WashLiquid wash_liquid(const MachineSpec& spec, const PlantState& state);

// Removal is of first order, dm/dt = -k m, with k by Arrhenius (milk films: Jennings 1965, from memory). k
// [1/s]:
//   loose soil: reach (0.1 + 0.9 stir) / 40 s at 40 degC, 25 kJ/mol; up to twice with alkali
//   set soil:   reach (0.1 + 0.9 stir) [0.02 + min(1, alkali / 0.5 %)] / 150 s at 60 degC, 50 kJ/mol
// The order and the form of the dependence are published; times and energies are choices.
double loose_rate_per_s(const WashLiquid& wash);
double set_rate_per_s(const WashLiquid& wash);
// Factor by which a baked deposit comes off faster than by flow alone: 1 + 9 min(1, alkali / 0.5 %) with the
// set soil's Arrhenius factor (choice).
double deposit_boost(const WashLiquid& wash);

// Rate at degC over that at the reference, by its activation energy.
double arrhenius(double degC, double reference_degC, double J_per_mol);

// How fast the white film of set protein goes [m/s of its thickness], on account of alkali: 0.2e-6 at 70 degC
// in 0.5 % stirred (from memory, within a factor of 3), 50 kJ/mol, three tenths at rest. Water alone takes
// none.
double film_removal_m_per_s(const WashLiquid& wash);
// How fast acid dissolves milk stone that it reaches [m/s of its thickness]: 0.1e-6 at 60 degC in 0.5 %
// stirred, 30 kJ/mol, three tenths at rest (choices: a daily film goes within minutes, a tenth of a
// millimetre within the 20 min of dairy practice, from memory). Water and alkali take none.
double stone_removal_m_per_s(const WashLiquid& wash);
// Rate at which loose soil sets [1/s]: under liquid without alkali above 55 degC, 1 / 600 s at 70 degC
// (protein sets: dairy practice); on a bare wall it dries, 1 / 7200 s, above 50 degC 1 / 600 s (choices).
double setting_rate_per_s(bool wet, double degC, double alkaline_norm);

// Available chlorine in the vat [mg/L]; counts a tenth with residual alkali above 0.02 % (pH beyond the
// table).
double chlorine_mg_per_L(const PlantState& state);
// Chick 1908, Watson 1908: log10 reduction = k C t. k [L/(mg s)] is such that each line of the table achieves
// `sanitised_log10` in its contact time at its lowest temperature; between the lines ln k is linear in
// temperature, below them it keeps falling, above them it is constant.
double kill_per_mg_L_s(const std::vector<SanitiserLine>& lines, double degC);
inline constexpr double sanitised_log10 =
    5.0;  // 99.999 %, what a sanitiser for food-contact surfaces has to show (from memory)
// Hot water does the same in 30 s at 77 degC (Food Code 4-501.111), ten times faster for each 7 K (choice).
double heat_kill_log10_per_s(double degC);
// The line that the liquid meets; nullptr when none.
const SanitiserLine* met_line(const std::vector<SanitiserLine>& lines, double mg_per_L, double degC);

// Doses a cleaning chemical into the vat: `kg` of concentrate at room temperature (its mass counts as water),
// of which `active_kg` is the substance that `which` names (&Product::alkaline_kg, acid_kg or chlorine_kg).
void dose(const MachineSpec& spec, PlantState& state, double product::Product::*which, double kg,
          double active_kg);

// Advances washing by dt: soil, germs, and chlorine used up by soil; scorch() does the deposit's part.
void advance_washing(const MachineSpec& spec, PlantState& state, double dt_s);

// What passed the draw valve soils its parts, or washes those that it reaches.
void pass_valve(PlantState& state, const product::Product& passed);

// Dry soil [ug on 100 cm2] as a swab finds it: film without its water, and deposit but for the milk stone,
// which no swab wipes off, averaged over the wetted walls; for the valve its worst part, a whole film being
// 4e5. Readings have steps of 10.
double vat_soil_ug(const MachineSpec& spec, const PlantState& state);
double valve_soil_ug(const PlantState& state);
double swab_reading_ug(double soil_ug);
// Below this a wall counts as clean (site limit, choice).
inline constexpr double clean_ug = 100.0;

// Head start that the walls' germs give a fresh batch over its own [log10]: 10^g on 100 cm2 of half a square
// metre in 45 kg with one germ per gram (choice), so g - 2.9; 0 on a clean wall.
double germs_lead_log10(const PlantState& state);

// Food solids over total mass.
double solids_norm(const product::Product& product);

}  // namespace stirbench::plant
