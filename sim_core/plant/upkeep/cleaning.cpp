#include "sim_core/plant/upkeep/cleaning.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/plant/coefficients.h"
#include "sim_core/plant/drive.h"
#include "sim_core/plant/pace.h"
#include "sim_core/plant/plant.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/product/properties.h"

namespace stirbench::plant {

namespace {

using product::Component;

constexpr double gas_J_per_molK = 8.314;
constexpr double drain_s = 60.0;
constexpr double sits_fast_norm = 0.03;
constexpr double thickest_m = 1.0e-3;              // more slides off at once (choice)
constexpr double strong_norm = 0.005;              // alkali, and acid, from which more does not help
constexpr double neutral_kg_per_kg = 98.0 / 40.0;  // phosphoric acid that takes up a kg of caustic soda
constexpr double full_valve_ug = 4.0e5;
constexpr double shields_kg_per_m2 = 1.0e-3;  // soil that hides all germs under it (choice)
constexpr double germs_of_soil_log10 = 3.0;   // on a wall that product has just left (choice)
constexpr double most_germs_log10 = 8.0;
constexpr double traces_kg = 1.0e-9;  // a film thinner than that is gone

double moved(const WashLiquid& wash) { return wash.reach_norm * (0.1 + 0.9 * wash.stir_norm); }
double strength(const WashLiquid& wash) { return std::min(1.0, wash.alkaline_norm / strong_norm); }

double protein_kg(const product::Product& p) {
  return p.mass_kg[Component::milk_protein] + p.mass_kg[Component::egg_protein] +
         p.mass_kg[Component::other_protein];
}

double dry_kg(const product::Product& p) { return p.total_kg() - p.mass_kg[Component::water]; }

// Takes `kg` of the film's matter into the liquid; what carries its heat is booked as if it were poured in.
void let_go(const MachineSpec& spec, PlantState& state, double kg) {
  product::Product& film = state.soil.film;
  const double all_kg = film.total_kg();
  const product::Product loosened = product::draw_share(film, all_kg - kg < traces_kg ? 1.0 : kg / all_kg);
  const Zones before = zones(state);
  const double degC = before.present ? state.vat_degC : state.vat_wall_degC;
  const double added_J = product::enthalpy_J(loosened.mass_kg, degC);
  const double loosened_kg = loosened.total_kg();
  product::merge(state.product, loosened);
  if (before.present && !before.merged) {
    // Comes off the vat's wall: what lies hot in the well is not stirred up by it.
    state.vat_J += added_J;
    update_zone_temperatures(state);
  } else {
    mix_in(spec, state, before, added_J, degC);
  }
  state.ledger.material_J += added_J + held_J(loosened);
  state.masses.clung_kg -= loosened_kg;
  if (loosened_kg >= all_kg) film = {};
}

void wash_film(const MachineSpec& spec, PlantState& state, const WashLiquid& wash, bool wet, double dt_s) {
  Soil& soil = state.soil;
  const double all_kg = soil.film.total_kg();
  if (!(all_kg > 0.0)) return;
  double set_kg = soil.set_norm * all_kg;
  double loose_kg = all_kg - set_kg;
  const double sets_kg =
      loose_kg *
      -std::expm1(-dt_s * setting_rate_per_s(wet, wet ? wash.degC : state.vat_wall_degC, wash.alkaline_norm));
  set_kg += sets_kg;
  loose_kg -= sets_kg;
  if (wet) {
    set_kg *= std::exp(-dt_s * set_rate_per_s(wash));
    loose_kg *= std::exp(-dt_s * loose_rate_per_s(wash));
    const double goes_kg = all_kg - set_kg - loose_kg;
    if (goes_kg > 0.0) let_go(spec, state, goes_kg);
  }
  soil.set_norm = soil.film.total_kg() > 0.0 ? std::clamp(set_kg / (set_kg + loose_kg), 0.0, 1.0) : 0.0;
}

// Chlorine that soil in the water uses up: of first order in both, 0.003 1/s for each g/L of protein
// (choice).
void use_up_chlorine(PlantState& state, double dt_s) {
  product::Product& p = state.product;
  if (!(p.chlorine_kg > 0.0)) return;
  const double g_per_L = 1000.0 * protein_kg(p) / std::max(1.0e-6, state.coefficients.volume_L);
  p.chlorine_kg *= std::exp(-0.003 * g_per_L * dt_s);
}

void follow_germs(const MachineSpec& spec, PlantState& state, const WashLiquid& wash, bool wet, double dt_s) {
  Soil& soil = state.soil;
  const double hidden = std::clamp(dry_kg(soil.film) / wetted_area_m2(spec) / shields_kg_per_m2, 0.0, 1.0);
  if (!wet) {
    soil.contact_s = 0.0;
    if (hidden > 0.01)
      soil.germs_log10 =
          std::min(most_germs_log10,
                   soil.germs_log10 + product::growth_log10_per_day(state.vat_wall_degC) * dt_s / 86400.0);
    return;
  }
  const double mg_per_L = chlorine_mg_per_L(state);
  const bool all_round = wash.reach_norm > 0.99;
  const bool met = all_round && met_line(spec.sanitiser, mg_per_L, wash.degC) != nullptr;
  soil.contact_s = met ? soil.contact_s + dt_s : 0.0;
  const double rate = wash.reach_norm * (kill_per_mg_L_s(spec.sanitiser, wash.degC) * mg_per_L +
                                         heat_kill_log10_per_s(wash.degC));
  if (!(rate > 0.0)) return;
  const double least = hidden > 0.0 ? germs_of_soil_log10 + std::log10(hidden) : -3.0;
  soil.germs_log10 = std::max(soil.germs_log10 - rate * dt_s, std::min(soil.germs_log10, least));
}

}  // namespace

double wetted_area_m2(const MachineSpec& spec) { return spec.vat.wall_area_m2 + spec.well.heated_area_m2; }

double clinging_kg(const MachineSpec& spec, double viscosity_Pa_s, double density_kg_per_m3) {
  const double area = 0.25 * std::numbers::pi * spec.vat.diameter_m * spec.vat.diameter_m;
  const double height_m = area > 0.0 ? 1.0e-3 * spec.vat.working_L / area : 0.0;
  const double film_m =
      2.0 / 3.0 * std::sqrt(viscosity_Pa_s * height_m / (density_kg_per_m3 * 9.81 * drain_s));
  return std::min(film_m, thickest_m) * density_kg_per_m3 * wetted_area_m2(spec);
}

double film_room_kg(const MachineSpec& spec, const PlantState& state, double left_kg) {
  const Coefficients& c = state.coefficients;
  const double bare =
      std::clamp(1.0 - 1000.0 * left_kg / (c.density_kg_per_m3 * spec.vat.working_L), 0.0, 1.0);
  return std::max(
      0.0, bare * clinging_kg(spec, c.viscosity_Pa_s, c.density_kg_per_m3) - state.soil.film.total_kg());
}

double film_share_norm(const MachineSpec& spec, const PlantState& state) {
  const Coefficients& c = state.coefficients;
  return clinging_kg(spec, c.viscosity_Pa_s, c.density_kg_per_m3) /
         (1.0e-3 * spec.vat.working_L * c.density_kg_per_m3);
}

void leave_film(PlantState& state, double room_kg, TakenLiquid& last) {
  if (!(room_kg > 0.0) || !(last.kg > 0.0)) return;
  const double share = std::min(1.0, room_kg / last.kg);
  const product::Product left = product::draw_share(last.product, share);
  const double left_kg = left.total_kg();
  const double left_J = share * last.enthalpy_J;
  last.kg -= left_kg;
  last.enthalpy_J -= left_J;
  state.ledger.material_J -= left_J;
  state.masses.clung_kg += left_kg;
  Soil& soil = state.soil;
  const bool food = solids_norm(left) > 0.01;
  const double set_kg = soil.set_norm * soil.film.total_kg() + (food ? sits_fast_norm * left_kg : 0.0);
  if (food) soil.germs_log10 = std::max(soil.germs_log10, germs_of_soil_log10);
  product::merge(soil.film, left);
  soil.set_norm = set_kg / soil.film.total_kg();
}

double solids_norm(const product::Product& product) {
  const double kg = product.total_kg();
  return kg > 0.0 ? dry_kg(product) / kg : 0.0;
}

WashLiquid wash_liquid(const MachineSpec& spec, const PlantState& state) {
  WashLiquid out;
  const double kg = state.product.total_kg();
  if (kg > 0.0) {
    // What meets its opposite is a salt and cleans nothing.
    const double acid_kg = state.product.acid_kg;
    const double alkaline_kg = state.product.alkaline_kg;
    out.alkaline_norm = std::max(0.0, alkaline_kg - acid_kg / neutral_kg_per_kg) / kg;
    out.acid_norm = std::max(0.0, acid_kg - neutral_kg_per_kg * alkaline_kg) / kg;
  }
  out.degC = kg > least_kg ? state.vat_degC : state.vat_wall_degC;
  const double rated = rated_agitator_rad_per_s(spec.drive);
  const bool turns = agitator_turns(state.assembly) && kg > least_kg;
  out.stir_norm = turns ? std::clamp(state.shaft_rad_per_s / rated, 0.0, 1.0) : 0.0;
  // At rest the liquid reaches the wall below its level; the turning agitator throws it over the rest; the
  // rinse gun reaches everything.
  out.reach_norm = std::clamp(fill_L(state) / spec.vat.working_L + 0.5 * out.stir_norm, 0.0, 1.0);
  if (state.fittings.rinse_on && state.fittings.lid_open) {
    out.degC = kg > least_kg ? 0.5 * (out.degC + spec.rinse.water_degC) : spec.rinse.water_degC;
    out.stir_norm = out.reach_norm = 1.0;
  }
  return out;
}

double loose_rate_per_s(const WashLiquid& wash) {
  return moved(wash) / 40.0 * arrhenius(wash.degC, 40.0, 25.0e3) * (1.0 + strength(wash));
}

double set_rate_per_s(const WashLiquid& wash) {
  return moved(wash) / 150.0 * arrhenius(wash.degC, 60.0, 50.0e3) * (0.02 + strength(wash));
}

double deposit_boost(const WashLiquid& wash) {
  return 1.0 + 9.0 * strength(wash) * arrhenius(wash.degC, 60.0, 50.0e3);
}

double arrhenius(double degC, double reference_degC, double J_per_mol) {
  return std::exp(J_per_mol / gas_J_per_molK * (1.0 / (reference_degC + 273.15) - 1.0 / (degC + 273.15)));
}

double film_removal_m_per_s(const WashLiquid& wash) {
  return 0.2e-6 * strength(wash) * arrhenius(wash.degC, 70.0, 50.0e3) * (0.3 + 0.7 * wash.stir_norm);
}

double stone_removal_m_per_s(const WashLiquid& wash) {
  return 0.1e-6 * std::min(1.0, wash.acid_norm / strong_norm) * arrhenius(wash.degC, 60.0, 30.0e3) *
         (0.3 + 0.7 * wash.stir_norm);
}

double setting_rate_per_s(bool wet, double degC, double alkaline_norm) {
  if (!wet) return degC > 50.0 ? 1.0 / 600.0 : 1.0 / 7200.0;
  if (alkaline_norm > 0.1 * strong_norm) return 0.0;
  return std::clamp((degC - 55.0) / 15.0, 0.0, 1.0) / 600.0;
}

double chlorine_mg_per_L(const PlantState& state) {
  const product::Product& p = state.product;
  const double kg = p.total_kg();
  if (!(p.chlorine_kg > 0.0) || !(kg > 0.0)) return 0.0;
  const double litres = 1000.0 * kg / std::max(500.0, state.coefficients.density_kg_per_m3);
  const double works = p.alkaline_kg / kg > 2.0e-4 ? 0.1 : 1.0;
  return works * 1.0e6 * p.chlorine_kg / litres;
}

double kill_per_mg_L_s(const std::vector<SanitiserLine>& lines, double degC) {
  if (lines.empty()) return 0.0;
  const auto ln_k = [](const SanitiserLine& line) {
    return std::log(sanitised_log10 / (line.from_mg_per_L * line.contact_s));
  };
  // Weakest first is warmest first.
  std::size_t i = 0;
  while (i + 1 < lines.size() && degC < lines[i + 1].least_degC) ++i;
  if (degC >= lines.front().least_degC || lines.size() == 1) return std::exp(ln_k(lines.front()));
  const std::size_t warm = std::min(i, lines.size() - 2);
  const SanitiserLine& a = lines[warm];
  const SanitiserLine& b = lines[warm + 1];
  return std::exp(ln_k(b) + (ln_k(a) - ln_k(b)) * (degC - b.least_degC) / (a.least_degC - b.least_degC));
}

double heat_kill_log10_per_s(double degC) {
  return degC > 50.0 ? sanitised_log10 / 30.0 * std::pow(10.0, (degC - 77.0) / 7.0) : 0.0;
}

const SanitiserLine* met_line(const std::vector<SanitiserLine>& lines, double mg_per_L, double degC) {
  for (auto line = lines.rbegin(); line != lines.rend(); ++line)
    if (mg_per_L >= line->from_mg_per_L) return degC >= line->least_degC ? &*line : nullptr;
  return nullptr;
}

void advance_washing(const MachineSpec& spec, PlantState& state, double dt_s) {
  const Soil& soil = state.soil;
  const bool chemicals = state.product.chlorine_kg > 0.0;
  if (!(soil.film.total_kg() > 0.0) && !chemicals && soil.germs_log10 <= -3.0 && soil.contact_s <= 0.0)
    return;
  const WashLiquid now = wash_liquid(spec, state);
  const bool wet =
      state.product.total_kg() > least_kg || (state.fittings.rinse_on && state.fittings.lid_open);
  wash_film(spec, state, now, wet, dt_s);
  use_up_chlorine(state, dt_s);
  follow_germs(spec, state, now, wet, dt_s);
}

void dose(const MachineSpec& spec, PlantState& state, double product::Product::*which, double kg,
          double active_kg) {
  if (!(kg > 0.0)) return;
  refresh(spec, state);
  product::Product added;
  added.mass_kg[Component::water] = kg;
  added.*which = active_kg;
  const double degC = state.environment.ambient_degC;
  const double added_J = product::enthalpy_J(added.mass_kg, degC);
  const Zones before = zones(state);
  product::merge(state.product, added);
  mix_in(spec, state, before, added_J, degC);
  state.masses.poured_kg += kg;
  state.ledger.material_J += added_J;
  state.pour_spill_L += spill_overflow(spec, state);
  refresh(spec, state);
  invalidate_pace(state);
}

void pass_valve(PlantState& state, const product::Product& passed) {
  const double kg = passed.total_kg();
  const bool food = solids_norm(passed) > 0.01;
  const bool cleaner = passed.alkaline_kg > 0.6 * strong_norm * kg;
  // Behind the rings nothing flows: three tenths stay with cleaner, half with water (choice).
  const double stays = cleaner ? 0.3 : 0.5;
  for (const PartId place : {PartId::valve_plunger, PartId::oring_front, PartId::oring_rear}) {
    const int item = item_at(state.assembly, place);
    if (item < 0) continue;
    double& soil_norm = state.assembly.items[static_cast<std::size_t>(item)].soil_norm;
    if (food) {
      soil_norm += (1.0 - soil_norm) * -std::expm1(-kg / 0.5);
    } else if (soil_norm > stays) {
      soil_norm = stays + (soil_norm - stays) * std::exp(-kg / 3.0);
    }
  }
}

double vat_soil_ug(const MachineSpec& spec, const PlantState& state) {
  return 1.0e7 * (dry_kg(state.soil.film) / wetted_area_m2(spec) + state.deposit_kg_per_m2 +
                  state.protein_film_kg_per_m2);
}

double valve_soil_ug(const PlantState& state) {
  double worst = 0.0;
  for (const PartId place : {PartId::valve_plunger, PartId::oring_front, PartId::oring_rear}) {
    const int item = item_at(state.assembly, place);
    const auto own = static_cast<std::size_t>(item < 0 ? static_cast<int>(place) : item);
    worst = std::max(worst, state.assembly.items[own].soil_norm);
  }
  return full_valve_ug * worst;
}

double germs_lead_log10(const PlantState& state) { return std::max(0.0, state.soil.germs_log10 - 2.9); }

double swab_reading_ug(double soil_ug) { return 10.0 * std::round(std::max(0.0, soil_ug) / 10.0); }

}  // namespace stirbench::plant
