#pragma once

#include <vector>

#include "sim_core/training/lesson.h"

// Which step of a lesson the learner is at.
//
// The present step ends in the moment its `done` is true; several may end in one moment, but one event ends
// one step only. Learners do not always keep the order, so:
//   - A row of steps that wait for events of one kind of action (pour sugar, pour dextrose, ...) may be done
//   in any order: while
//     one of them is present, the events of the later ones are remembered.
//   - A skippable step also ends when a later step is done first: looked at are the steps after it up to and
//   including the
//     first that is not skippable, without the step's own row. Their condition must become true while the
//     skippable step is present; one that has been true all along does not count.
namespace stirbench::training {

class Guide {
 public:
  explicit Guide(const std::vector<LessonStep>& steps);

  void see(const std::vector<LessonStep>& steps, const Moment& moment);
  // Index of the present step; the number of steps when all are done.
  int current() const { return static_cast<int>(current_); }

 private:
  bool done_now(const std::vector<LessonStep>& steps, const Moment& moment, EventSpan& span);
  bool skip_ahead(const std::vector<LessonStep>& steps, const Moment& moment, EventSpan& span);
  void remember_row(const std::vector<LessonStep>& steps, const Moment& moment, const EventSpan& span);
  void go_to(std::size_t step);

  std::size_t current_ = 0;
  std::vector<std::size_t>
      row_end_;  // one past the last step of the row of like event steps; own index + 1 without
  std::vector<unsigned char> needs_event_;  // `done` cannot be true in a quiet tick
  std::vector<unsigned char> remembered_;   // its event came while an earlier event step was present
  std::vector<unsigned char> was_false_;    // seen false since the present step began
};

}  // namespace stirbench::training
