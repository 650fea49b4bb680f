#pragma once

#include <string>

#include "app/desk/work/desk.h"
#include "app/library/food/recipe_store.h"

namespace stirbench::desk::work {

// The recipe under the pen: opened from the library, checked against the desk's machine, saved among one's
// own.
struct RecipeDraft {
  control::Recipe recipe;
  bool own = false;              // may be changed and saved; shipped recipes are read only
  bool changed = false;          // since it was opened or saved
  library::RecipeReport report;  // what check() found

  void open(const Desk& desk, const std::string& id);
  void check(const Desk& desk);
  // Goes on as a recipe of one's own under the next free id and title; not yet saved.
  void copy(const Desk& desk);
  // As it was before the changes; the first recipe when it was never saved.
  void drop(const Desk& desk);
  // Writes it and loads the content again. Empty, or what went wrong.
  std::string save(Desk& desk);
  // Deletes it from disk and opens the first recipe. Empty, or what went wrong.
  std::string remove(Desk& desk);

  // Empty, or why it cannot be saved.
  std::string why_not_saved() const;
};

bool is_own_recipe(const Desk& desk, const std::string& id);

// A problem in a person's words, with its place in the recipe.
std::string problem_words(const library::Problem& problem);

// The core writes plain ASCII ("degC"); people read degree signs.
std::string with_degrees(std::string words);

}  // namespace stirbench::desk::work
