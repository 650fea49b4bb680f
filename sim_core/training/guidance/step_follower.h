#pragma once

#include <vector>

#include "sim_core/training/lesson.h"

// Which step of a lesson the learner is at.
//
// The current step ends in the moment in which its `done` is true. Several steps may end in one moment, but
// one event ends one step only. Learners do not always keep to the order, so:
//   - Consecutive steps that wait for events of the same kind of action (pour sugar, pour dextrose, ...) form
//     a group and may be done in any order: while one of them is current, events for the later ones are
//     remembered.
//   - A skippable step also ends when a later step is done first. The steps considered are those after its
//     own group, up to and including the first that is not skippable. Their condition must become true while
//     the skippable step is current; one that has been true all along does not count.
namespace stirbench::training {

class StepFollower {
 public:
  explicit StepFollower(const std::vector<LessonStep>& steps);

  void see(const std::vector<LessonStep>& steps, const Moment& moment);
  // Index of the current step; the number of steps when all are done.
  int current() const { return static_cast<int>(current_); }

 private:
  bool done_now(const std::vector<LessonStep>& steps, const Moment& moment, EventSpan& span);
  bool skip_ahead(const std::vector<LessonStep>& steps, const Moment& moment, EventSpan& span);
  void remember_row(const std::vector<LessonStep>& steps, const Moment& moment, const EventSpan& span);
  void go_to(std::size_t step);

  std::size_t current_ = 0;
  std::vector<std::size_t>
      row_end_;  // one past the last step of its group; own index + 1 for a step without a group
  std::vector<unsigned char> needs_event_;  // `done` cannot be true in a quiet tick
  std::vector<unsigned char> remembered_;   // its event came while an earlier step of its group was current
  std::vector<unsigned char> was_false_;    // has been false since the current step began
};

}  // namespace stirbench::training
