#include "app/desk/work/recipes/recipe_draft.h"

#include <utility>

#include "app/desk/kit/text/text.h"

namespace stirbench::desk::work {

using kit::tr;

void RecipeDraft::open(const Desk& desk, const std::string& id) {
  *this = RecipeDraft{.recipe = desk.library.recipes.at(id), .own = is_own_recipe(desk, id)};
  check(desk);
}

void RecipeDraft::check(const Desk& desk) {
  report = library::check_recipe(desk.library, desk.machine_id, recipe, recipe.id);
}

void RecipeDraft::copy(const Desk& desk) {
  std::string id = recipe.id;
  int number = 1;
  do {
    id = recipe.id.substr(0, 34) + "-" + std::to_string(++number);
  } while (desk.library.recipes.count(id) != 0);
  recipe.id = id;
  recipe.title += " " + std::to_string(number);
  own = true;
  changed = true;
  check(desk);
}

void RecipeDraft::drop(const Desk& desk) {
  const bool kept = desk.library.recipes.count(recipe.id) != 0;
  const std::string id = kept ? recipe.id : desk.library.recipes.begin()->first;
  open(desk, id);
}

std::string RecipeDraft::save(Desk& desk) {
  std::string problem = library::save_recipe(desk.library, desk.machine_id, recipe, desk.data_dir);
  if (!problem.empty()) return problem;
  desk.reload();
  changed = false;
  check(desk);
  return "";
}

std::string RecipeDraft::remove(Desk& desk) {
  std::string problem = library::delete_recipe(desk.library, recipe.id, desk.data_dir);
  if (!problem.empty()) return problem;
  desk.reload();
  open(desk, desk.library.recipes.begin()->first);
  return "";
}

std::string RecipeDraft::why_not_saved() const {
  if (!own) return tr("A shipped recipe stays as it is. Make a copy of your own to change it.");
  if (!report.problems.empty()) return problem_words(report.problems.front());
  if (!changed) return tr("Nothing has changed.");
  return "";
}

bool is_own_recipe(const Desk& desk, const std::string& id) {
  return desk.library.own_recipes.count(id) != 0;
}

std::string problem_words(const library::Problem& problem) {
  return tr("Expected {expected}; found {found}. (At {place}.)",
            {{"expected", with_degrees(problem.expected)},
             {"found", with_degrees(problem.found)},
             {"place", problem.path}});
}

std::string with_degrees(std::string words) {
  for (const auto& [plain, sign] : {std::pair<std::string, std::string>{"degC", "°C"}, {"degF", "°F"}}) {
    for (std::size_t found = words.find(plain); found != std::string::npos; found = words.find(plain)) {
      words.replace(found, plain.size(), sign);
    }
  }
  return words;
}

}  // namespace stirbench::desk::work
