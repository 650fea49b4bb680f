#pragma once

#include <string>

#include "app/desk/kit/text/units.h"
#include "sim_core/training/lesson.h"

namespace stirbench::desk::work {

// A criterion's reason with its numbers in the person's units. Quantities without a choice of unit stay as
// the core wrote them.
std::string why_in_units(const training::CriterionResult& result, const kit::UnitChoice& units);

// "(To spare: 0.8 K.)" or "(Short by 0.3 K, so 70 % of the points.)"; empty where no number decided.
std::string margin_in_units(const training::CriterionResult& result, const kit::UnitChoice& units);

}  // namespace stirbench::desk::work
