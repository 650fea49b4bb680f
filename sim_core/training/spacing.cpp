#include "sim_core/training/spacing.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace stirbench::training {

namespace {

constexpr std::array<std::int64_t, 2> learning_steps_s{60, 600};
constexpr std::array<std::int64_t, 1> relearning_steps_s{600};
constexpr double least_stability_days = 0.001;

double grade_of(Recall recall) { return static_cast<double>(static_cast<int>(recall)); }

double factor(const MemoryModel& m) { return std::pow(0.9, -1.0 / m.w[20]) - 1.0; }

double clamp_difficulty(double value) { return std::clamp(value, 1.0, 10.0); }

double first_difficulty(const MemoryModel& m, double grade) {
  return m.w[4] - std::exp(m.w[5] * (grade - 1.0)) + 1.0;
}

double next_difficulty(const MemoryModel& m, double difficulty, double grade) {
  const double moved = difficulty + (10.0 - difficulty) / 9.0 * (-m.w[6] * (grade - 3.0));
  return clamp_difficulty(m.w[7] * first_difficulty(m, 4.0) + (1.0 - m.w[7]) * moved);
}

double same_day_stability(const MemoryModel& m, double s, double grade) {
  double gain = std::exp(m.w[17] * (grade - 3.0 + m.w[18])) * std::pow(s, -m.w[19]);
  if (grade >= 3.0) gain = std::max(gain, 1.0);
  return std::max(s * gain, least_stability_days);
}

double next_stability(const MemoryModel& m, const Memory& before, Recall recall, double recalled) {
  const double s = before.stability_days;
  const double d = before.difficulty;
  if (recall == Recall::again) {
    const double lapse = m.w[11] * std::pow(d, -m.w[12]) * (std::pow(s + 1.0, m.w[13]) - 1.0) *
                         std::exp(m.w[14] * (1.0 - recalled));
    return std::max(std::min(lapse, s / std::exp(m.w[17] * m.w[18])), least_stability_days);
  }
  const double hard = recall == Recall::hard ? m.w[15] : 1.0;
  const double easy = recall == Recall::easy ? m.w[16] : 1.0;
  return std::max(s * (1.0 + std::exp(m.w[8]) * (11.0 - d) * std::pow(s, -m.w[9]) *
                                 (std::exp(m.w[10] * (1.0 - recalled)) - 1.0) * hard * easy),
                  least_stability_days);
}

void to_review(const MemoryModel& m, Memory& memory) {
  memory.stage = MemoryStage::review;
  memory.step = 0;
  memory.due_s = day_s * interval_days(m, memory.stability_days);
}

// The same-day steps of learning and relearning.
void take_step(const MemoryModel& m, Memory& memory, Recall recall) {
  const bool learning = memory.stage == MemoryStage::learning;
  const std::int64_t* steps = learning ? learning_steps_s.data() : relearning_steps_s.data();
  const int count = static_cast<int>(learning ? learning_steps_s.size() : relearning_steps_s.size());
  if (recall == Recall::easy || (recall == Recall::good && memory.step + 1 >= count))
    return to_review(m, memory);
  if (recall == Recall::again) memory.step = 0;
  if (recall == Recall::good) ++memory.step;
  memory.due_s = steps[memory.step];
  if (recall == Recall::hard && memory.step == 0)
    memory.due_s = count == 1 ? steps[0] * 3 / 2 : (steps[0] + steps[1]) / 2;
}

}  // namespace

double recall_norm(const MemoryModel& model, double elapsed_days, double stability_days) {
  return std::pow(1.0 + factor(model) * elapsed_days / stability_days, -model.w[20]);
}

int interval_days(const MemoryModel& model, double stability_days) {
  const double days =
      stability_days / factor(model) * (std::pow(model.wished_recall_norm, -1.0 / model.w[20]) - 1.0);
  return static_cast<int>(std::clamp(std::nearbyint(days), 1.0, static_cast<double>(model.longest_days)));
}

Memory after_review(const MemoryModel& model, const Memory& before, Recall recall, std::int64_t elapsed_s) {
  const double grade = grade_of(recall);
  Memory memory = before;
  const double days =
      std::floor(static_cast<double>(std::max<std::int64_t>(elapsed_s, 0)) / static_cast<double>(day_s));
  if (!before.seen) {
    memory.seen = true;
    memory.stability_days = std::max(model.w[static_cast<std::size_t>(recall) - 1], least_stability_days);
    memory.difficulty = clamp_difficulty(first_difficulty(model, grade));
  } else {
    memory.stability_days =
        days < 1.0 ? same_day_stability(model, before.stability_days, grade)
                   : next_stability(model, before, recall, recall_norm(model, days, before.stability_days));
    memory.difficulty = next_difficulty(model, before.difficulty, grade);
  }
  if (memory.stage != MemoryStage::review) {
    take_step(model, memory, recall);
  } else if (recall == Recall::again) {
    memory.stage = MemoryStage::relearning;
    memory.step = 0;
    memory.due_s = relearning_steps_s[0];
  } else {
    to_review(model, memory);
  }
  return memory;
}

EasinessState after_grade(const EasinessState& before, int grade, bool easiness_on_fail) {
  if (grade < 0 || grade > 5) throw std::invalid_argument("grade: expected 0 .. 5");
  EasinessState next = before;
  if (grade < 3) {
    next.repetition = 0;
    next.interval_days = 1;
  } else {
    next.repetition = before.repetition + 1;
    if (next.repetition == 1)
      next.interval_days = 1;
    else if (next.repetition == 2)
      next.interval_days = 6;
    else
      next.interval_days = static_cast<int>(std::ceil(before.interval_days * before.easiness - 1e-9));
  }
  if (grade >= 3 || easiness_on_fail) {
    const double missing = 5.0 - grade;
    next.easiness = std::max(1.3, before.easiness + 0.1 - missing * (0.08 + missing * 0.02));
  }
  return next;
}

}  // namespace stirbench::training
