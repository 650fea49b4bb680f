#include "app/library/lessons/prove_conduct.h"

#include <algorithm>

#include "app/library/share_out.h"
#include "sim_core/hands/hands.h"
#include "sim_core/training/trials/players.h"

namespace stirbench::library {

namespace {

using training::Lesson;
using training::LessonRun;

constexpr int ticks_between = 20;
constexpr double moments[] = {0.0, 0.5, 0.9};  // of the guide's hands

struct Habit {
  std::string id;
  const std::vector<hands::Action>* hands = nullptr;
  const std::vector<Conduct::Exception>* except = nullptr;
  const Conduct* conduct = nullptr;  // null: a careful habit
};

void pass_time(LessonRun& run, double seconds) {
  const auto ticks = static_cast<int>(seconds * machine::ticks_per_second);
  for (int i = 0; i < ticks && !run.over(); ++i) run.step();
}

// Whether any of the hands could be done.
bool do_habit(LessonRun& run, const Habit& habit) {
  bool done = false;
  for (const hands::Action& one : *habit.hands) {
    if (run.over() || !hands::why_not(run.session().machine(), run.state(), one).empty()) continue;
    run.act(one);
    done = true;
    for (int i = 0; i < ticks_between && !run.over(); ++i) run.step();
  }
  if (habit.conduct != nullptr) pass_time(run, habit.conduct->criterion.monitor.grace_s + 2.0);
  return done;
}

bool was_missed(const LessonRun& run, const std::string& criterion) {
  const training::ScoreCard card = run.card();
  return std::any_of(card.criteria.begin(), card.criteria.end(), [&criterion](const auto& one) {
    return one.id == criterion && training::is_missed(one);
  });
}

void play_once(HabitCell& cell, const machine::Machine& machine, const Lesson& lesson, const Habit& habit,
               std::size_t before) {
  LessonRun run = training::trial_run(machine, lesson);
  std::size_t hand = 0;
  bool done = false;
  const training::Followed end = training::follow(run, [&](const machine::State&, const training::Advice&) {
    if (hand++ == before) done = do_habit(run, habit);
  });
  ++cell.tried;
  const bool occurred = habit.conduct == nullptr ? done : was_missed(run, habit.id);
  if (!occurred) return;
  ++cell.occurred;
  cell.passed += end.card.passed ? 1 : 0;
  if (end.card.passed != cell.careful) cell.why = end.card.passed ? "passed" : end.why;
}

std::vector<HabitCell> play_lesson(const Library& library, const Lesson& lesson) {
  std::vector<HabitCell> out;
  if (!training::can_follow(lesson)) return out;
  const machine::Machine machine = library.machine(lesson.machine);
  LessonRun first = training::trial_run(machine, lesson);
  std::vector<training::GuidedHand> hands;
  training::record_follower(first, hands);
  const std::size_t count = hands.size();
  std::vector<Habit> habits;
  for (const Conduct& one : library.conduct)
    habits.push_back({one.criterion.id, &one.tried_by, &one.except, &one});
  for (const CarefulHabit& one : library.careful)
    habits.push_back({one.id, &one.hands, &one.except, nullptr});
  for (const Habit& habit : habits) {
    HabitCell cell{lesson.id, habit.id, habit.conduct == nullptr};
    cell.excepted = std::any_of(habit.except->begin(), habit.except->end(),
                                [&lesson](const auto& one) { return one.lesson == lesson.id; });
    if (!cell.excepted)
      for (const double moment : moments)
        play_once(cell, machine, lesson, habit,
                  static_cast<std::size_t>(moment * static_cast<double>(count)));
    out.push_back(std::move(cell));
  }
  return out;
}

}  // namespace

std::vector<HabitCell> play_habits(const Library& library, unsigned threads) {
  std::vector<const Lesson*> lessons;
  for (const auto& [id, lesson] : library.lessons) lessons.push_back(&lesson);
  std::vector<std::vector<HabitCell>> rows(lessons.size());
  share_out(lessons.size(), threads, [&](std::size_t i) { rows[i] = play_lesson(library, *lessons[i]); });
  std::vector<HabitCell> out;
  for (auto& row : rows) std::move(row.begin(), row.end(), std::back_inserter(out));
  return out;
}

bool is_wrong(const HabitCell& cell) { return cell.careful ? cell.passed < cell.occurred : cell.passed > 0; }

}  // namespace stirbench::library
