#pragma once

#include <string>
#include <vector>

#include "sim_core/identification/fit.h"

// What a fit says, in words.
namespace stirbench::identification {

std::string spells_words(SpellsFrom from);
// What this log cannot tell, and what measurement would: one sentence each.
std::vector<std::string> identifiability_words(const FitRequest& request, const Fit& fit);

}  // namespace stirbench::identification
