#pragma once

#include <cstddef>
#include <vector>

#include "sim_core/diagnosis/model.h"
#include "sim_core/diagnosis/testability.h"
#include "sim_core/diagnosis/tree.h"

// A machine's guide as a whole: how well its faults can be seen and told apart.
namespace stirbench::diagnosis {

// Every cause answers every question with its likeliest outcome (all kinds of it mixed); rates are the
// weights.
Testability testability_of(const Model& model);

// Causes that no symptom shows in one machine of three, even when severe.
std::vector<std::size_t> symptomless_causes(const Model& model);
// Checks whose likeliest answer is the same for every cause.
std::vector<std::size_t> uninformative_checks(const Model& model);

// What the trees of all symptoms make of the checks, for every person that may stand at the machine, and for
// a machine that stands closed or isolated with its covers off, and with twice as many checks weighed at each
// step: which of two nearly equal checks is asked hangs on that.
struct TreeCoverage {
  std::vector<std::size_t> unused;  // checks that no tree asks
  std::vector<std::string>
      problems;  // a tree that runs back, an answer that leads nowhere, an end without repair or call
  std::size_t trees = 0;
  std::size_t nodes = 0;
};
TreeCoverage tree_coverage(const Model& model);
// What is wrong with one tree, in words; empty when it can be followed.
std::vector<std::string> tree_problems(const Model& model, const Tree& tree);

}  // namespace stirbench::diagnosis
