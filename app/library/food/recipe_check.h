#pragma once

#include <string>
#include <vector>

#include "app/library/food/recipe_store.h"
#include "app/library/library.h"

// The parts of check_recipe that the loader uses too.
namespace stirbench::library {

// The whole recipe as one product with everything dissolved (unknown ingredients left out).
product::Product whole_product(const Library& library, const control::Recipe& recipe);

// Whether the phases as written meet a heat-treatment rule: consecutive holds (heating in between does not
// count as a break) at or above its temperature that last long enough together, with no addition after them.
bool meets_heat_rule(const control::Recipe& recipe, const product::HeatRule& row);

// Why the recipe cannot be saved or run on the machine; the problems name `file`.
std::vector<Problem> recipe_problems(const Library& library, const plant::MachineSpec& machine,
                                     const control::ControlSpec& control, const control::Recipe& recipe,
                                     const std::string& file);

// Advice that forbids nothing, in whole sentences and stable order.
std::vector<std::string> recipe_cautions(const Library& library, const plant::MachineSpec& machine,
                                         const control::Recipe& recipe);

}  // namespace stirbench::library
