#pragma once

#include <cstddef>
#include <vector>

#include "sim_core/diagnosis/model.h"
#include "sim_core/diagnosis/testability.h"

// A machine's guide as a whole: how well its faults can be seen and told apart.
namespace stirbench::diagnosis {

// Every cause answers every question with its likeliest outcome (all kinds of it mixed); rates are the weights.
Testability testability_of(const Model& model);

// Causes that no symptom shows in one machine of three, even when severe.
std::vector<std::size_t> unseen_causes(const Model& model);
// Checks whose likeliest answer is the same for every cause.
std::vector<std::size_t> idle_checks(const Model& model);

}  // namespace stirbench::diagnosis
