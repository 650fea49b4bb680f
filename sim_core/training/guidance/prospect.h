#pragma once

#include <string>
#include <vector>

#include "sim_core/training/lesson.h"

// Whether a run can still pass: an upper bound from what is decided already. A criterion that is missed for
// good keeps at most the credit that it has at this moment (credits of a miss only fall), every other one is
// counted in full. So "cannot pass" is certain, "can pass" is a hope.
namespace stirbench::training {

struct Prospect {
  bool can_pass = true;
  double best_norm = 1.0;  // the best score that is still possible
  int criterion = -1;      // what decided it: the must-pass item that was missed, else the dearest loss
  std::string why;         // one sentence or two, for the person; empty while it can pass
};

// `now`: the card as if the lesson ended at this moment. `missed`: criteria that are missed for good.
Prospect prospect_of(const Lesson& lesson, const ScoreCard& now, const std::vector<int>& missed,
                     const Moment& moment);

}  // namespace stirbench::training
