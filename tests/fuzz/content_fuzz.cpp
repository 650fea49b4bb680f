#include <cstddef>
#include <cstdint>
#include <string>

#include "app/library/food/recipe_store.h"
#include "app/library/reading/json.h"
#include "app/library/reading/shape.h"
#include "app/library/tables.h"
#include "tests/support/replay/fuzz_target.h"

// Content files and actions files from arbitrary bytes: each reader looks at them. What is read without
// problem must be written and read back as the same.
namespace {

using namespace stirbench;

const library::Library& shipped() {
  static const library::LoadResult loaded = library::load(std::string(STIRBENCH_SOURCE_DIR) + "/content", "");
  return loaded.library;
}

template <class T>
bool read(const library::Object<T>& table, const library::Json& json, T& out) {
  std::vector<library::Problem> problems;
  library::Names names;
  for (const auto& [id, one] : shipped().ingredients) names.ingredients.push_back(id);
  for (const auto& [id, one] : shipped().recipes) names.recipes.push_back(id);
  for (const auto& [id, one] : shipped().machines) names.machines.push_back(id);
  for (const auto& [id, one] : shipped().cautions) names.cautions.push_back(id);
  library::Reader reader("fuzz", problems, names);
  table.read(reader, json, out);
  for (const auto& problem : problems) {
    if (problem.text().empty()) __builtin_trap();
  }
  return problems.empty();
}

void read_all(const library::Json& json) {
  library::MachineFile machine;
  read(library::machine_table(), json, machine);
  product::Ingredient ingredient;
  read(library::ingredient_table(), json, ingredient);
  training::Lesson lesson;
  read(library::lesson_table(), json, lesson);
  library::CautionFile cautions;
  read(library::caution_table(), json, cautions);
  library::HeatRuleFile rows;
  read(library::heat_rule_table(), json, rows);
  library::CoolingFile cooling;
  read(library::cooling_table(), json, cooling);
  library::OrganismFile organisms;
  read(library::organism_table(), json, organisms);
  control::Recipe recipe;
  if (!read(library::recipe_table(), json, recipe)) return;
  library::check_recipe(shipped(), "hm-45", recipe, "fuzz");
  std::vector<library::Problem> problems;
  const std::string text = library::recipe_text(recipe);
  const auto again = library::parse_json(text, "fuzz", problems);
  control::Recipe back;
  if (!again || !read(library::recipe_table(), *again, back) || library::recipe_text(back) != text)
    __builtin_trap();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const machine::Machine machine = shipped().machine("hm-45");
  const std::string text(reinterpret_cast<const char*>(data), size);
  std::vector<library::Problem> problems;
  if (const auto json = library::parse_json(text, "fuzz", problems)) read_all(*json);
  const auto actions = library::parse_actions(text, "fuzz", machine);
  if (!actions.problems.empty() && !actions.actions.empty()) __builtin_trap();
  return 0;
}
