#include "app/library/food/recipe_check.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "app/library/reading/json.h"
#include "app/library/reading/shape.h"
#include "app/library/reading/suggest.h"
#include "sim_core/product/properties.h"

namespace stirbench::library {

namespace {

using control::Phase;
using control::PhaseKind;
using control::Recipe;

// Where problems go, with the path written at each.
struct Judge {
  const Library& library;
  const plant::MachineSpec& machine;
  const control::ControlSpec& control;
  const Recipe& recipe;
  const std::string& file;
  std::vector<Problem> problems;

  void say(const std::string& path, const std::string& expected, const std::string& found) {
    problems.push_back({file, path, expected, found});
  }

  void range(const std::string& path, double value, double low, double high, const std::string& unit) {
    if (!(value >= low && value <= high))
      say(path, "a number in " + number_text(low) + " .. " + number_text(high) + " " + unit,
          number_text(value));
  }

  void words(const std::string& path, const std::string& value, std::size_t most) {
    if (value.empty() || value.size() > 4 * most)
      say(path, "text of 1 to " + std::to_string(most) + " characters", in_quotes(value));
    for (const char c : value) {
      const auto byte = static_cast<unsigned char>(c);
      if (byte < 0x20U || byte == 0x7FU)
        return say(path, "text without control characters", in_quotes(value));
    }
  }

  void additions(const std::string& path, const std::vector<control::Addition>& list) {
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string here = path + "/" + std::to_string(i);
      if (library.ingredients.count(list[i].ingredient) == 0) {
        std::vector<std::string> known;
        for (const auto& [id, ingredient] : library.ingredients) known.push_back(id);
        say(here + "/ingredient", expect_name("a known ingredient", list[i].ingredient, known),
            in_quotes(list[i].ingredient));
      }
      range(here + "/kg", list[i].kg, 0.001, 1000.0, "kg");
    }
  }

  void phase(std::size_t i);
  void phases();
  void volumes();
  void claims(bool phases_good);
};

void Judge::phase(std::size_t i) {
  const Phase& one = recipe.phases[i];
  const std::string here = "/phases/" + std::to_string(i);
  if (!is_slug(one.id)) say(here + "/id", "an id of 2 to 40 characters a-z, 0-9, -", in_quotes(one.id));
  for (std::size_t j = 0; j < i; ++j) {
    if (recipe.phases[j].id == one.id) say(here + "/id", "an id that is not used yet", in_quotes(one.id));
  }
  words(here + "/title", one.title, 60);
  range(here + "/target_degC", one.target_degC, std::max(0.0, control.lowest_target_degC),
        std::min(95.0, control.highest_target_degC), "degC");
  const bool timed = one.kind == PhaseKind::hold || one.kind == PhaseKind::age;
  if (timed)
    range(here + "/duration_s", one.duration_s, 1.0, 172800.0, "s");
  else if (!(one.duration_s == 0.0))
    say(here + "/duration_s", "left out or 0 (only hold and age take time)", number_text(one.duration_s));
  if (one.kind != PhaseKind::add) {
    if (!one.additions.empty())
      say(here + "/additions", "none (only add has additions)", std::to_string(one.additions.size()));
    if (!one.instruction.empty())
      say(here + "/instruction", "left out or empty (only add asks for something)",
          in_quotes(one.instruction));
    return;
  }
  if (one.additions.empty()) say(here + "/additions", "at least one addition", "none");
  additions(here + "/additions", one.additions);
  words(here + "/instruction", one.instruction, 200);
}

void Judge::phases() {
  if (recipe.phases.empty()) return say("/phases", "at least one phase", "none");
  for (std::size_t i = 0; i < recipe.phases.size(); ++i) {
    phase(i);
    if (recipe.phases[i].kind == PhaseKind::keep && i + 1 < recipe.phases.size())
      say("/phases/" + std::to_string(i) + "/kind", "keep only as the last phase",
          "keep before " + in_quotes(recipe.phases[i + 1].id));
  }
  const std::size_t last = recipe.phases.size() - 1;
  if (recipe.phases[last].kind != PhaseKind::keep)
    say("/phases/" + std::to_string(last) + "/kind", "keep as the last phase", "another");
  for (std::size_t i = 1; i < recipe.phases.size(); ++i) {
    const Phase& one = recipe.phases[i];
    const Phase& before = recipe.phases[i - 1];
    const std::string here = "/phases/" + std::to_string(i) + "/target_degC";
    // A hold or an age phase starts its clock at its target: nothing else brings the product there.
    if (one.kind == PhaseKind::age && before.kind != PhaseKind::age &&
        before.target_degC > one.target_degC + 1.0)
      say(here, "at least the target of the phase before, less 1 K (chill first)",
          number_text(one.target_degC));
    if (one.kind == PhaseKind::keep && before.target_degC > one.target_degC + 1.0)
      say(here, "at least the target of the phase before, less 1 K (chill first)",
          number_text(one.target_degC));
  }
}

std::string litres(double value) { return number_text(std::round(value * 10.0) / 10.0) + " L"; }

void Judge::volumes() {
  product::PerComponent start;
  for (const auto& one : recipe.start) {
    const auto found = library.ingredients.find(one.ingredient);
    if (found == library.ingredients.end()) continue;
    for (std::size_t c = 0; c < product::component_count; ++c)
      start.value[c] += one.kg * found->second.fraction.value[c];
  }
  if (recipe.start.empty()) say("/start", "at least one ingredient in the vat before Run", "none");
  const double start_L =
      start.sum() > 0.0 ? 1000.0 * start.sum() / product::density_kg_per_m3(start, 5.0) : 0.0;
  if (!(start_L >= machine.vat.minimum_L))
    say("/start", "at least " + litres(machine.vat.minimum_L) + " in the vat before Run on " + machine.id,
        litres(start_L));
  const double hot_L = product::figures(whole_product(library, recipe)).volume_hot_L;
  if (!(hot_L <= machine.vat.working_L))
    say("/phases", "at most " + litres(machine.vat.working_L) + " when hot on " + machine.id, litres(hot_L));
}

// With bad phases only the claims' names are looked at: that they are not met would repeat what was said.
void Judge::claims(bool phases_good) {
  std::vector<std::string> known;
  for (const auto& row : library.rules.rows) known.push_back(row.id);
  std::set<std::string> seen;
  for (std::size_t i = 0; i < recipe.claims.size(); ++i) {
    const std::string& claim = recipe.claims[i];
    const std::string here = "/claims/" + std::to_string(i);
    const product::HeatRule* row = product::find_heat_rule(library.rules, claim);
    if (row == nullptr)
      say(here, expect_name("the id of a heat-treatment row", claim, known), in_quotes(claim));
    else if (phases_good && !meets_heat_rule(recipe, *row))
      say(here,
          "a hold at " + number_text(std::ceil(row->temperature_degC * 100.0) / 100.0) +
              " degC or above for " + number_text(row->hold_s) + " s with nothing added after it",
          "no such hold");
    if (!seen.insert(claim).second) say(here, "each claim once", in_quotes(claim) + " again");
  }
}

}  // namespace

product::Product whole_product(const Library& library, const Recipe& recipe) {
  product::Product out;
  const auto take = [&](const control::Addition& one) {
    const auto found = library.ingredients.find(one.ingredient);
    if (found == library.ingredients.end() || !(one.kg > 0.0)) return;
    for (std::size_t c = 0; c < product::component_count; ++c)
      out.mass_kg.value[c] += one.kg * found->second.fraction.value[c];
    out.yolk_solids_kg += one.kg * found->second.yolk_solids_norm;
  };
  for (const auto& one : recipe.start) take(one);
  for (const Phase& phase : recipe.phases) {
    for (const auto& one : phase.additions) take(one);
  }
  return out;
}

bool meets_heat_rule(const Recipe& recipe, const product::HeatRule& row) {
  constexpr double close_K = 1e-9;
  bool met = false;
  double held_s = 0.0;
  for (const Phase& phase : recipe.phases) {
    switch (phase.kind) {
      case PhaseKind::add:
        // What is poured in has not been heat-treated, and a batch with it neither.
        met = false;
        held_s = 0.0;
        break;
      case PhaseKind::hold:
        held_s = phase.target_degC + close_K >= row.temperature_degC ? held_s + phase.duration_s : 0.0;
        met = met || (held_s > 0.0 && held_s + close_K >= row.hold_s);
        break;
      case PhaseKind::heat:
        if (phase.target_degC + close_K < row.temperature_degC) held_s = 0.0;
        break;
      case PhaseKind::chill:
      case PhaseKind::age:
      case PhaseKind::keep: held_s = 0.0; break;
    }
  }
  return met;
}

std::vector<Problem> recipe_problems(const Library& library, const plant::MachineSpec& machine,
                                     const control::ControlSpec& control, const Recipe& recipe,
                                     const std::string& file) {
  Judge judge{library, machine, control, recipe, file, {}};
  if (!is_slug(recipe.id)) judge.say("/id", "an id of 2 to 40 characters a-z, 0-9, -", in_quotes(recipe.id));
  judge.words("/title", recipe.title, 60);
  judge.range("/overshoot_K", recipe.overshoot_K, 0.1, 5.0, "K");
  judge.additions("/start", recipe.start);
  judge.phases();
  const bool good = judge.problems.empty();
  if (good) judge.volumes();
  judge.claims(good);
  return std::move(judge.problems);
}

}  // namespace stirbench::library
