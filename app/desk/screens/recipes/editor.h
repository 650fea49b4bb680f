#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/work/recipes/recipe_draft.h"

// The recipe bench's two halves: what is edited, and what follows from it. No files, no navigation: the
// screen does those.
namespace stirbench::desk::screens {

// Draws the editable half; true when something changed in this frame (the caller checks the recipe again).
bool draw_recipe_editor(kit::Ui& ui, work::RecipeDraft& draft, const library::Library& library,
                        const kit::Rect& rect);

// Draws figures, heat-treatment rows, problems and cautions.
void draw_recipe_report(kit::Ui& ui, const work::RecipeDraft& draft, const plant::MachineSpec& machine,
                        const std::optional<double>& finish_s, bool estimating, const kit::Rect& rect);

}  // namespace stirbench::desk::screens
