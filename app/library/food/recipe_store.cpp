#include "app/library/food/recipe_store.h"

#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <filesystem>
#include <system_error>

#include "app/library/food/recipe_check.h"
#include "app/library/reading/json.h"
#include "app/library/reading/paths.h"
#include "app/library/tables.h"

namespace stirbench::library {

namespace {

Json additions_json(const std::vector<control::Addition>& list) {
  Json out = Json::array();
  for (const auto& one : list) out.push_back(Json{{"ingredient", one.ingredient}, {"kg", one.kg}});
  return out;
}

std::string own_folder(const std::string& own_dir) { return own_dir + "/recipes"; }

// What is written must be taken by the strict reader, whatever the words in it are; the first problem, or "".
std::string why_not_readable(const Library& library, const control::Recipe& recipe, const std::string& file) {
  std::vector<std::string> words = {recipe.title, recipe.note};
  for (const auto& phase : recipe.phases) words.insert(words.end(), {phase.title, phase.instruction});
  for (const std::string& one : words) {
    if (!is_utf8(one)) return Problem{file, "", "text in UTF-8", in_quotes(one)}.text();
  }
  std::vector<Problem> problems;
  Names names;
  for (const auto& [id, ingredient] : library.ingredients) names.ingredients.push_back(id);
  const std::optional<Json> json = parse_json(recipe_text(recipe), file, problems);
  control::Recipe back;
  Reader reader(file, problems, names);
  if (json) recipe_table().read(reader, *json, back);
  return problems.empty() ? "" : problems.front().text();
}

}  // namespace

RecipeReport check_recipe(const Library& library, const std::string& machine_id,
                          const control::Recipe& recipe, const std::string& file) {
  RecipeReport out;
  out.figures = product::figures(whole_product(library, recipe));
  for (const product::HeatRule& row : library.rules.rows) {
    const bool claimed = std::find(recipe.claims.begin(), recipe.claims.end(), row.id) != recipe.claims.end();
    // Rows for egg by itself say nothing about a batch with egg in it.
    if (row.kind == product::ProductKind::liquid_egg && !claimed) continue;
    out.rows.push_back({row, meets_heat_rule(recipe, row), claimed});
  }
  const auto machine = library.machines.find(machine_id);
  if (machine == library.machines.end()) {
    out.problems.push_back({file, "", "a known machine", in_quotes(machine_id)});
    return out;
  }
  out.problems = recipe_problems(library, machine->second, library.controls.at(machine_id), recipe, file);
  out.cautions = recipe_cautions(library, machine->second, recipe);
  return out;
}

control::Recipe scaled(const control::Recipe& recipe, double mass_kg) {
  double present_kg = 0.0;
  for (const auto& one : recipe.start) present_kg += one.kg;
  for (const auto& phase : recipe.phases) {
    for (const auto& one : phase.additions) present_kg += one.kg;
  }
  control::Recipe out = recipe;
  if (!(present_kg > 0.0) || !(mass_kg > 0.0)) return out;
  const double factor = mass_kg / present_kg;
  for (auto& one : out.start) one.kg *= factor;
  for (auto& phase : out.phases) {
    for (auto& one : phase.additions) one.kg *= factor;
  }
  return out;
}

std::string recipe_text(const control::Recipe& recipe) {
  Json phases = Json::array();
  for (const control::Phase& phase : recipe.phases) {
    Json one{{"id", phase.id},
             {"kind", phase_word(phase.kind)},
             {"title", phase.title},
             {"target_degC", phase.target_degC}};
    if (phase.duration_s != 0.0) one["duration_s"] = phase.duration_s;
    if (!phase.additions.empty()) one["additions"] = additions_json(phase.additions);
    if (!phase.instruction.empty()) one["instruction"] = phase.instruction;
    phases.push_back(std::move(one));
  }
  return pretty(Json{{"format", 1},
                     {"id", recipe.id},
                     {"title", recipe.title},
                     {"note", recipe.note},
                     {"start", additions_json(recipe.start)},
                     {"phases", std::move(phases)},
                     {"claims", recipe.claims},
                     {"overshoot_K", recipe.overshoot_K}});
}

std::string save_recipe(const Library& library, const std::string& machine_id, const control::Recipe& recipe,
                        const std::string& own_dir) {
  // The id becomes a file's name: nothing but a slug gets that far, so no path can be smuggled in.
  if (!is_slug(recipe.id))
    return "A recipe's id has 2 to 40 characters a-z, 0-9, -; found " + in_quotes(recipe.id) + ".";
  if (library.recipes.count(recipe.id) != 0 && library.own_recipes.count(recipe.id) == 0)
    return "The id " + in_quotes(recipe.id) + " belongs to a shipped recipe. Give yours another.";
  const std::string file = own_folder(own_dir) + "/" + recipe.id + ".json";
  const RecipeReport report = check_recipe(library, machine_id, recipe, file);
  if (!report.problems.empty()) return report.problems.front().text();

  std::string unreadable = why_not_readable(library, recipe, file);
  if (!unreadable.empty()) return unreadable;
  std::string unwritable = make_writable(own_folder(own_dir));
  if (!unwritable.empty()) return unwritable;
  return write_atomically(file, recipe_text(recipe));
}

std::string delete_recipe(const Library& library, const std::string& id, const std::string& own_dir) {
  if (!is_slug(id) || library.recipes.count(id) == 0) return "There is no recipe " + in_quotes(id) + ".";
  if (library.own_recipes.count(id) == 0)
    return "The recipe " + in_quotes(id) + " is a shipped one and stays.";
  const std::string file = own_folder(own_dir) + "/" + id + ".json";
  if (::unlink(file.c_str()) != 0)
    return "cannot remove " + file + ": " + std::generic_category().message(errno);
  return "";
}

}  // namespace stirbench::library
