#pragma once

#include "sim_core/training/lesson.h"

// Whether a criterion was at stake in a run: nobody earns points for a mistake that could not yet be made.
//
//   kind                     at stake from the first moment in which
//   -----------------------  ---------------------------------------------------------------------------
//   any, `chance` given      `chance` is true
//   after; always with when  `when` is true
//   never                    a part of `what` that is an act is true by itself ({"all": [the act, the wrong
//                            about it]}: the act is the occasion); without such a part, a hand has acted
//   always without when,     a hand has acted
//   final_state,
//   total with low <= 0
//   the other kinds          the start: they are earned by doing
//
// "A hand has acted" is the weakest occasion: a lesson says by `chance` what it really takes.
namespace stirbench::training {

class Occasion {
 public:
  explicit Occasion(const Criterion& criterion);
  // Every moment in order. Allocates nothing.
  void see(const Moment& moment);
  bool came() const { return came_; }

 private:
  Condition chance_;
  bool came_ = false;
  bool quiet_ = false;  // cannot come in a tick without events
};

}  // namespace stirbench::training
