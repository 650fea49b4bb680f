#pragma once

#include <vector>

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"
#include "sim_core/plant/zones.h"

// Washing the machine: what stays on its walls, how it comes off, what a sanitiser kills, what is carried into the next batch.
namespace stirbench::plant {

// Wetted walls of vat and well [m2].
double wetted_area_m2(const MachineSpec& spec);

// What clings to them when a liquid has run off [kg]: mean film of a draining wall after Jeffreys 1930 (from memory),
// h = 2/3 sqrt(mu H / (rho g t)), with H the vat's height and t = 60 s (choice); at most 1 mm.
double clinging_kg(const MachineSpec& spec, double viscosity_Pa_s, double density_kg_per_m3);
// How much more than now can cling to what is bare of the walls with `left_kg` still in the vat; `take` leaves it behind by `leave_film` as the level falls.
double film_room_kg(const MachineSpec& spec, const PlantState& state, double left_kg);
// What each kilogram leaves behind as it bares the wall that it stood at.
double film_share_norm(const MachineSpec& spec, const PlantState& state);
// Moves up to `room_kg` out of what was taken last on to the walls. Three hundredths of food's soil sit fast from the start: a rinse takes the rest (dairy
// practice: 90 to 99 %, from memory).
void leave_film(PlantState& state, double room_kg, Taken& last);

// The liquid that stands on, moves over or is sprayed at the walls.
struct Washing {
  double degC = 20.0;
  double alkaline_norm = 0.0;  // mass share of alkali
  double stir_norm = 0.0;      // agitator's speed over the rated one; the rinse gun's jet counts as 1
  double reach_norm = 0.0;     // share of the walls that it reaches
};
Washing washing(const MachineSpec& spec, const PlantState& state);

// Removal is of first order in what is left, dm/dt = -k m, k by Arrhenius (milk films: Jennings 1965, from memory). k [1/s]:
//   loose soil: reach (0.1 + 0.9 stir) / 40 s at 40 degC, 25 kJ/mol; up to twice with alkali
//   set soil:   reach (0.1 + 0.9 stir) [0.02 + min(1, alkali / 0.5 %)] / 150 s at 60 degC, 50 kJ/mol
// The order and the kind of dependence are published, times and energies are choices.
double loose_rate_per_s(const Washing& wash);
double set_rate_per_s(const Washing& wash);
// How many times faster a baked deposit goes than by flow alone: 1 + 9 min(1, alkali / 0.5 %) with the set soil's Arrhenius factor (choice).
double deposit_boost(const Washing& wash);
// Loose soil that sets on [1/s]: under liquid without alkali from 55 degC on, 1 / 600 s at 70 (protein sets on: dairy practice); on a bare wall it dries, 1 / 7200 s,
// above 50 degC 1 / 600 s (choices).
double setting_rate_per_s(bool wet, double degC, double alkaline_norm);

// Available chlorine in the vat [mg/L]; counts a tenth where alkali was left in (above 0.02 %: pH beyond the table's).
double chlorine_mg_per_L(const PlantState& state);
// Chick 1908, Watson 1908: log10 reduction = k C t. k [L/(mg s)] is such that each line of the table takes `sanitised_log10` off in its contact time
// at its least temperature; between the lines ln k is linear in temperature, colder it goes on falling, warmer it stays.
double kill_per_mg_L_s(const std::vector<SanitiserLine>& lines, double degC);
inline constexpr double sanitised_log10 = 5.0;  // 99.999 %, what a sanitiser for food-contact surfaces has to show (from memory)
// Hot water does the same in 30 s at 77 degC (Food Code 4-501.111), ten times faster each 7 K (choice).
double heat_kill_log10_per_s(double degC);
// The line that the liquid meets now; nullptr when none.
const SanitiserLine* met_line(const std::vector<SanitiserLine>& lines, double mg_per_L, double degC);

// Measures a cleaning chemical into the vat: `kg` of concentrate at the room's temperature (its mass counts as water), of which `active_kg` of the substance
// that `which` names (&Product::alkaline_kg, acid_kg or chlorine_kg).
void dose(const MachineSpec& spec, PlantState& state, double product::Product::*which, double kg, double active_kg);

// Washing of dt: soil, deposit's share is scorch()'s, germs, chlorine that soil uses up.
void wash(const MachineSpec& spec, PlantState& state, double dt_s);

// What passed the draw valve soils its parts, or washes what of them it reaches.
void pass_valve(PlantState& state, const product::Product& passed);

// Dry soil [ug on 100 cm2] as a swab finds it: film without its water and deposit over the wetted walls; the valve's by its worst part, a whole film being
// 4e5. Readings have steps of 10.
double vat_soil_ug(const MachineSpec& spec, const PlantState& state);
double valve_soil_ug(const PlantState& state);
double swab_reading_ug(double soil_ug);
// Below this a wall counts as clean (house limit, choice).
inline constexpr double clean_ug = 100.0;

// How far ahead of its own germs a fresh batch is by those of the walls [log10]: 10^g on 100 cm2 of half a square metre in 45 kg with one germ in the
// gram (choice), so g - 2.9; 0 on a clean wall.
double germs_lead_log10(const PlantState& state);

// Solids of food over the whole mass.
double solids_norm(const product::Product& product);

}  // namespace stirbench::plant
