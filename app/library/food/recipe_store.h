#pragma once

#include <string>
#include <vector>

#include "app/library/library.h"
#include "sim_core/hands/action.h"
#include "sim_core/product/figures.h"
#include "sim_core/product/rules.h"

// What the recipe editor works with: check, figures, scaling, saving.
namespace stirbench::library {

struct HeatRuleCheck {
  product::HeatRule row;
  bool met = false;
  bool claimed = false;
};

struct RecipeReport {
  product::Figures figures;
  std::vector<HeatRuleCheck> rows;  // judged by the phases as written: an unbroken hold that is long enough
  double finish_s =
      0.0;  // simulated on the machine with prompt additions; 0 when it could not finish in 12 h
  std::vector<Problem> problems;      // why it cannot be saved or run on this machine
  std::vector<std::string> cautions;  // advice; does not prevent saving
};

// All but finish_s: fast enough for each keystroke (< 1 ms).
RecipeReport check_recipe(const Library& library, const std::string& machine_id,
                          const control::Recipe& recipe, const std::string& file);

// What an operator without delays does to run the recipe from an empty machine: open, pour the first
// ingredients, close, choose, Run; at each addition open, pour, close, Stop, Run, confirm. Used by
// estimate_finish_s and by `stirbench simulate --recipe`.
std::vector<hands::TimedAction> prompt_operator(const Library& library, const std::string& machine_id,
                                                const control::Recipe& recipe);

// Runs the recipe on the simulated machine as an ideal operator would; returns seconds until its keep phase,
// or a negative value.
double estimate_finish_s(const Library& library, const std::string& machine_id,
                         const control::Recipe& recipe);

// All amounts times (mass_kg / present mass).
control::Recipe scaled(const control::Recipe& recipe, double mass_kg);

// JSON text of a recipe; load(save(x)) == x, and the text is byte-stable.
std::string recipe_text(const control::Recipe& recipe);

// Saves under own_dir/recipes/ID.json, never into content. Empty = saved, else why not (a bad recipe is
// refused with its first problem).
std::string save_recipe(const Library& library, const std::string& machine_id, const control::Recipe& recipe,
                        const std::string& own_dir);
std::string delete_recipe(const Library& library, const std::string& id, const std::string& own_dir);

}  // namespace stirbench::library
