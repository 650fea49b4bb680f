#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/library/recipe_store.h"

// The recipe bench's two halves: what is edited, and what follows from it. No files, no navigation: the screen does those.
namespace stirbench::desk::screens {

// The recipe under the pen.
struct RecipeDraft {
  control::Recipe recipe;
  bool own = false;         // may be changed and saved; shipped recipes are read only
  bool changed = false;     // since it was opened or saved
  library::RecipeReport report;
  std::string batch_problem;
};

// Draws the editable half; true when something changed in this frame (the caller checks the recipe again).
bool draw_recipe_editor(kit::Ui& ui, RecipeDraft& draft, const library::Library& library, const kit::Rect& rect);

// Draws figures, heat-treatment rows, problems and cautions.
void draw_recipe_report(kit::Ui& ui, const RecipeDraft& draft, const plant::MachineSpec& machine,
                        const std::optional<double>& finish_s, bool estimating, const kit::Rect& rect);

// A problem in a person's words, with its place in the recipe.
std::string problem_words(const library::Problem& problem);

}  // namespace stirbench::desk::screens
