#pragma once

#include <string>

#include "app/desk/text/units.h"
#include "sim_core/training/lesson.h"

namespace stirbench::desk {

// A criterion's reason with its numbers in the person's units. Quantities without a choice of unit stay as the core wrote them.
std::string why_in_units(const training::CriterionResult& result, const UnitChoice& units);

}  // namespace stirbench::desk
