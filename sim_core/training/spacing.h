#pragma once

#include <array>
#include <cstdint>

// When to practise again. Two published rules. Both were made for facts learned by heart, not for manual
// skills, so a due date is a HEURISTIC, and a site's own limit (at most a year for a safety skill) takes
// precedence.
namespace stirbench::training {

constexpr std::int64_t day_s = 86400;

enum class Recall : unsigned char { again = 1, hard = 2, good = 3, easy = 4 };

// Memory by stability and difficulty, "FSRS-6". Source: py-fsrs 6.3.1 (MIT), its equations and default
// weights.
//   d = -w20; F = 0.9^(1/d) - 1;  R(t, S) = (1 + F t / S)^d        chance to recall after t days
//   interval(S) = clamp(round(S / F (r^(1/d) - 1)), 1, most) days  for the wanted probability r
struct MemoryModel {
  std::array<double, 21> w{0.212,  1.2931, 2.3065, 8.2956, 6.4133, 0.8334, 3.0194,
                           0.001,  1.8722, 0.1666, 0.796,  1.4835, 0.0614, 0.2629,
                           1.6483, 0.6014, 1.8729, 0.5425, 0.0912, 0.0658, 0.1542};
  double wished_recall_norm = 0.9;  // 0 .. 1, both excluded
  int longest_days = 36500;         // 1 ..
};

// Learning and relearning repeat on the same day: after 1 and 10 minutes, after 10 minutes.
enum class MemoryStage : unsigned char { learning, review, relearning };

struct Memory {
  MemoryStage stage = MemoryStage::learning;
  int step = 0;
  bool seen = false;
  double stability_days = 0.0;  // chance to recall is 0.9 after so long
  double difficulty = 0.0;      // 1 .. 10
  std::int64_t due_s = 0;       // from this review on, s
};

// Chance to recall after whole days. stability_days > 0.
double recall_norm(const MemoryModel& model, double elapsed_days, double stability_days);
// Days until the chance of recall falls to the wanted one, rounded, 1 .. longest_days.
int interval_days(const MemoryModel& model, double stability_days);
// One review `elapsed_s` after the one before (ignored at the first). Pure.
Memory after_review(const MemoryModel& model, const Memory& before, Recall recall, std::int64_t elapsed_s);

// The older rule, "SM-2" (P. A. Wozniak 1990): intervals 1, 6, then multiplied by the easiness, rounded up.
// Grades 0 .. 5; below 3 it starts again. After a grade below 3 the published description keeps the easiness,
// while the published program changes it: `easiness_on_fail` chooses; false, the description, is the default.
struct EasinessState {
  int repetition = 0;
  double easiness = 2.5;  // 1.3 ..
  int interval_days = 0;
};
EasinessState after_grade(const EasinessState& before, int grade, bool easiness_on_fail = false);

}  // namespace stirbench::training
