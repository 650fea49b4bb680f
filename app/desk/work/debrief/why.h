#pragma once

#include <string>

#include "app/desk/kit/text/units.h"
#include "sim_core/training/lesson.h"

namespace stirbench::desk::work {

// A criterion's reason with its numbers in the person's units. Quantities without a choice of unit stay as
// the core wrote them.
std::string why_in_units(const training::CriterionResult& result, const kit::UnitChoice& units);

// "(To spare: 0.8 K.)", "(Too much by 1.20 kg.)" or "(Short by 0.3 kg, so 70 % of the points.)"; empty where
// no number decided.
std::string margin_in_units(const training::CriterionResult& result, const kit::UnitChoice& units);

// What stands beside the score: "The pass mark is 85 %. Decided by must-pass items, whatever the points: ..."
std::string verdict_words(const training::ScoreCard& card);

// For the moment in which it is missed, to be read in two seconds: "You missed: Right amount of milk. Too
// much by 1.20 kg."; without an amount the first sentence of what was found.
std::string missed_in_brief(const training::CriterionResult& result, const kit::UnitChoice& units);

// A sentence that was written with degrees Celsius, kilograms or litres in the person's units, with as many
// decimals as it has: "The room was at 24 °C." -> "The room was at 75 °F."; "20 to 25 °C" counts as two.
// Nothing else is touched, and nothing at all in units that are the text's own.
std::string words_in_units(const std::string& text, const kit::UnitChoice& units);

}  // namespace stirbench::desk::work
