#pragma once

#include <string>
#include <vector>

#include "sim_core/training/lesson.h"

// Which of a lesson's goals are reached.
//
// A step is a goal. It is reached in the moment in which its `done` is true, or has been so for `for_s`
// without a break, while no goal before it is left, and stays reached until its `undone` is true. One event
// serves one goal. Three things are looked at ahead:
//   - Neighbouring goals that wait for pourings form a group, in any order.
//   - A pouring whose amount is the rest of what was poured is reached when 95 % of its kg (a choice; the
//     lessons' criteria allow 4 to 10 %) were poured of its ingredient, whenever that was. Several such goals
//     of one ingredient are served in their order.
//   - A skippable goal is only a means to what comes after it: it is passed over when the first goal after it
//     that is not skippable is reached or, being a state, true.
namespace stirbench::training {

inline constexpr double enough_of_amount_norm = 0.95;

class Goals {
 public:
  explicit Goals(const std::vector<LessonStep>& steps);

  void see(const std::vector<LessonStep>& steps, const Moment& moment);
  // Index of the first goal that is not reached; the number of goals when all are.
  std::size_t next() const { return next_; }
  bool reached(std::size_t goal) const { return reached_[goal] != 0; }
  // What was poured of an ingredient since the start [kg].
  double poured_kg(std::string_view ingredient) const;

 private:
  void count_pourings(const Moment& moment);
  void settle_amounts(const std::vector<LessonStep>& steps);
  void take_back(const std::vector<LessonStep>& steps, const Moment& moment);
  bool reach(const std::vector<LessonStep>& steps, std::size_t goal, const Moment& moment, EventSpan& span);
  bool held_long(const LessonStep& step, std::size_t goal, const Moment& moment, bool holds_now);
  bool pass_over(const std::vector<LessonStep>& steps, const Moment& moment, EventSpan& span);
  void remember_group(const std::vector<LessonStep>& steps, const Moment& moment, const EventSpan& span);
  void advance();

  std::vector<unsigned char> reached_;
  std::vector<std::size_t> group_end_;  // one past the last goal of its group; own index + 1 without one
  std::size_t next_ = 0;
  std::size_t held_goal_ = 0;  // the goal whose `done` has been true since held_tick_, for `for_s`
  std::uint64_t held_tick_ = never;
  static constexpr std::uint64_t never = ~std::uint64_t{0};
  struct Poured {
    std::string ingredient;
    double kg = 0.0;
  };
  std::vector<Poured> poured_;
};

}  // namespace stirbench::training
