#include <algorithm>
#include <cmath>
#include <set>

#include "app/library/food/recipe_check.h"
#include "app/library/reading/json.h"
#include "sim_core/product/kinetics.h"

// What a good cook or a food-safety officer would say about a recipe that can be run.
namespace stirbench::library {

namespace {

using control::Phase;
using control::PhaseKind;
using control::Recipe;
using product::Component;

std::string tenths(double value) { return number_text(std::round(value * 10.0) / 10.0); }

// Highest temperature that the phases from `from` on reach, the controller's aim above a hold included.
double hottest_degC(const Recipe& recipe, std::size_t from = 0) {
  double out = 0.0;
  for (std::size_t i = from; i < recipe.phases.size(); ++i) {
    const Phase& phase = recipe.phases[i];
    const bool hot = phase.kind == PhaseKind::heat || phase.kind == PhaseKind::hold;
    out = std::max(out, phase.target_degC + (hot ? recipe.overshoot_K : 0.0));
  }
  return out;
}

// Each ingredient in the recipe with the phase after which it is in the vat (0: from the start on).
struct Use {
  const product::Ingredient* ingredient;
  std::size_t from_phase;
  bool at_start;
};

std::vector<Use> uses(const Library& library, const Recipe& recipe) {
  std::vector<Use> out;
  const auto take = [&](const std::vector<control::Addition>& list, std::size_t phase, bool at_start) {
    for (const auto& one : list) {
      const auto found = library.ingredients.find(one.ingredient);
      if (found != library.ingredients.end()) out.push_back({&found->second, phase, at_start});
    }
  };
  take(recipe.start, 0, true);
  for (std::size_t i = 0; i < recipe.phases.size(); ++i) take(recipe.phases[i].additions, i, false);
  return out;
}

// Legal rows for eggnog and custard mixes; household advice does not count here.
bool meets_egg_row(const Library& library, const Recipe& recipe) {
  const auto& rows = library.rules.rows;
  return std::any_of(rows.begin(), rows.end(), [&](const product::HeatRule& row) {
    return row.kind == product::ProductKind::egg_mix && row.sure == product::Surety::text_seen &&
           meets_heat_rule(recipe, row);
  });
}

// Rows for milk and mixes; those for egg by itself and advice for homes say nothing about a dairy batch.
bool meets_any_row(const Library& library, const Recipe& recipe) {
  const auto& rows = library.rules.rows;
  return std::any_of(rows.begin(), rows.end(), [&](const product::HeatRule& row) {
    const bool of_a_batch = row.kind == product::ProductKind::milk ||
                            row.kind == product::ProductKind::rich_milk ||
                            row.kind == product::ProductKind::mix;
    return of_a_batch && meets_heat_rule(recipe, row);
  });
}

void about_eggs(const Library& library, const Recipe& recipe, const product::Product& whole,
                std::vector<std::string>& out) {
  if (!(whole.mass_kg[Component::egg_protein] > 0.0)) return;
  // Set range 70-80 degC, starch-free working limit about 82-85 degC (process reference 1d).
  constexpr double curdles_degC = 83.0;
  const double hottest = hottest_degC(recipe);
  if (hottest > curdles_degC)
    out.push_back("Egg curdles above about 83 °C, and these phases go to " + tenths(hottest) + " °C.");
  if (!meets_egg_row(library, recipe))
    out.emplace_back(
        "Egg without a hold that the rows for eggnog ask for (for instance 80 °C for 25 s): use pasteurised "
        "egg, and do not hand it out as heat-treated.");
}

void about_heat(const Library& library, const Recipe& recipe, const product::Product& whole,
                std::vector<std::string>& out) {
  const bool dairy = whole.mass_kg[Component::milk_protein] > 0.0;
  if (!meets_any_row(library, recipe) && !meets_egg_row(library, recipe))
    out.emplace_back(
        dairy ? "No published heat-treatment row is met: milk that is not heat-treated can make people ill."
              : "No published heat-treatment row is met; keep it as cold and as short as raw food.");
  bool hot = false;
  for (const Phase& phase : recipe.phases) {
    hot = hot || phase.kind == PhaseKind::hold;
    if (hot && phase.kind == PhaseKind::add)
      out.push_back("What is added in \"" + phase.title + "\" comes after the hold and is not heat-treated.");
  }
}

void about_dissolving(const Library& library, const Recipe& recipe, std::vector<std::string>& out) {
  std::set<std::string> said;
  for (const Use& use : uses(library, recipe)) {
    const product::Ingredient& one = *use.ingredient;
    const double hottest = hottest_degC(recipe, use.from_phase);
    if (one.hydration_degC > 0.0 && hottest < one.hydration_degC && said.insert(one.id).second)
      out.push_back(one.title + " thickens only above " + tenths(one.hydration_degC) +
                    " °C; the phases go to " + tenths(hottest) + " °C.");
    if (use.at_start || one.form == product::Form::liquid) continue;
    constexpr double cold_degC = 30.0;  // common practice: sugars and powders go in near 40 degC
    const Phase& phase = recipe.phases[use.from_phase];
    if (phase.target_degC < cold_degC && said.insert(phase.id).second)
      out.push_back("In \"" + phase.title + "\" solids go in at " + tenths(phase.target_degC) +
                    " °C: they dissolve slowly and may lump or sink. Near 40 °C is usual.");
  }
}

void about_sugar(const Recipe& recipe, const product::Product& whole, const product::Figures& figures,
                 std::vector<std::string>& out) {
  const double keep_degC = recipe.phases.empty() ? 5.0 : recipe.phases.back().target_degC;
  const double sucrose = whole.mass_kg[Component::sucrose];
  const double water = whole.mass_kg[Component::water];
  const double limit_pct = product::sugar_solubility_pct(keep_degC);
  if (sucrose > 0.0 && 100.0 * sucrose / (sucrose + water) > limit_pct)
    out.push_back("More sugar than the water can hold at " + tenths(keep_degC) +
                  " °C: it comes out as crystals.");
  constexpr double thick_pct = 45.0;  // common practice
  if (figures.sugars_pct > thick_pct)
    out.push_back("With " + tenths(figures.sugars_pct) +
                  " % sugars it turns thick when cold: the agitator works hard and the pump slips.");
}

void about_cold(const Recipe& recipe, const product::Figures& figures, std::vector<std::string>& out) {
  // US retail cold holding 5 degC (Food Code 3-501.16, from memory); ageing at least 4 h (Goff, Ice Cream
  // Technology e-Book, ch. 6).
  constexpr double holding_degC = 5.0;
  constexpr double least_age_s = 4.0 * 3600.0;
  for (const Phase& phase : recipe.phases) {
    const bool cold =
        phase.kind == PhaseKind::keep || phase.kind == PhaseKind::age || phase.kind == PhaseKind::chill;
    if (cold && phase.target_degC < figures.freezing_point_degC + 0.5)
      out.push_back("\"" + phase.title + "\" aims at " + tenths(phase.target_degC) +
                    " °C, too near the freezing point (" + tenths(figures.freezing_point_degC) +
                    " °C): ice grows on the wall.");
    if (phase.kind == PhaseKind::keep && phase.target_degC > holding_degC)
      out.push_back("Kept at " + tenths(phase.target_degC) +
                    " °C; cold holding is usually 5 °C (41 °F) or below. Local codes come first.");
    if (phase.kind == PhaseKind::age && phase.duration_s < least_age_s)
      out.push_back("Ageing takes 4 h or more to let the fat crystallise; \"" + phase.title + "\" lasts " +
                    tenths(phase.duration_s / 3600.0) + " h.");
  }
}

void about_room(const plant::MachineSpec& machine, const product::Figures& figures,
                std::vector<std::string>& out) {
  constexpr double full_norm = 0.95;
  if (figures.volume_hot_L > full_norm * machine.vat.working_L &&
      figures.volume_hot_L <= machine.vat.working_L)
    out.push_back("Nearly full when hot (" + tenths(figures.volume_hot_L) + " of " +
                  tenths(machine.vat.working_L) + " L): little room for foam. Add slowly and watch it rise.");
}

void about_allergens(const Library& library, const Recipe& recipe, std::vector<std::string>& out) {
  std::set<std::string> all;
  for (const Use& use : uses(library, recipe))
    all.insert(use.ingredient->allergens.begin(), use.ingredient->allergens.end());
  if (all.empty()) return;
  std::string list;
  for (const std::string& one : all) list += (list.empty() ? "" : ", ") + one;
  out.push_back("Contains allergens: " + list + ".");
}

}  // namespace

std::vector<std::string> recipe_cautions(const Library& library, const plant::MachineSpec& machine,
                                         const Recipe& recipe) {
  const product::Product whole = whole_product(library, recipe);
  const product::Figures figures = product::figures(whole);
  std::vector<std::string> out;
  about_eggs(library, recipe, whole, out);
  about_heat(library, recipe, whole, out);
  about_dissolving(library, recipe, out);
  about_sugar(recipe, whole, figures, out);
  about_cold(recipe, figures, out);
  about_room(machine, figures, out);
  about_allergens(library, recipe, out);
  return out;
}

}  // namespace stirbench::library
