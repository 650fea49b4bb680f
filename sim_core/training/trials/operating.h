#pragma once

#include "sim_core/training/sequential.h"

// The operating characteristic of a certificate's rule: what becomes of a person whose chances in one test
// are known.
//
// Exact by recursion over (tests taken, tests passed), no simulation: the sequential rule's answer after a
// test depends on these two numbers alone. Tests are taken as independent.
namespace stirbench::training {

// Of one test of a skill, 0 .. 1; passed + failed_must <= 1 (std::invalid_argument else).
struct TestChances {
  double passed = 0.0;
  double failed_must =
      0.0;  // failed with a must-pass item missed; ends a series at once where the demand says
};

struct Operating {
  double competent = 0.0;   // probability that one series ends with "competent"
  double mean_tests = 0.0;  // expected number of tests until the series ends
};

// One series under `plan`, which must be truncated (most > 0; std::invalid_argument else). `must_pass_all`:
// a missed must-pass item ends it with "not yet". `least_passes`: "competent" is held back until so many
// tests were passed.
Operating operating(const SequentialPlan& plan, const TestChances& chances, bool must_pass_all,
                    int least_passes = 0);

}  // namespace stirbench::training
