#include "sim_core/training/prospect.h"

#include <algorithm>

#include "sim_core/training/words.h"

namespace stirbench::training {

namespace {

std::string percent(double share) { return fixed_text(100.0 * share, 0) + " %"; }

}  // namespace

Prospect prospect_of(const Lesson& lesson, const ScoreCard& now, const std::vector<int>& missed,
                     const Moment& moment) {
  Prospect out;
  double all = 0.0;
  for (const Criterion& one : lesson.criteria) all += one.points;
  double best = all;
  double dearest = -1.0;
  bool must_missed = false;
  for (const int index : missed) {
    const auto i = static_cast<std::size_t>(index);
    const CriterionResult& result = now.criteria[i];
    const double loss = result.of - result.points;
    best -= loss;
    const bool must = lesson.criteria[i].must_pass;
    if ((must && !must_missed) || (must == must_missed && loss > dearest)) {
      out.criterion = index;
      dearest = loss;
    }
    must_missed = must_missed || must;
  }
  out.best_norm = all > 0.0 ? best / all : 1.0;
  if (moment.state.injured) {
    out.can_pass = false;
    out.why = machine::harm_text(moment.state.injury);
  } else if (must_missed) {
    out.can_pass = false;
    out.why = now.criteria[static_cast<std::size_t>(out.criterion)].why;
  } else if (best < lesson.pass_norm * all - 1.0e-9) {
    out.can_pass = false;
    out.why = "At best " + percent(out.best_norm) + " of the points can be had now; " +
              percent(lesson.pass_norm) +
              " pass. Dearest: " + now.criteria[static_cast<std::size_t>(out.criterion)].why;
  }
  if (!out.can_pass) return out;
  for (const Loss& loss : lesson.lost) {
    const auto met = [&loss](const CriterionResult& one) { return one.id == loss.unmet && one.met; };
    if (!holds(loss.when, moment) || std::any_of(now.criteria.begin(), now.criteria.end(), met)) continue;
    out.can_pass = false;
    out.why = loss.text;
    return out;
  }
  return out;
}

}  // namespace stirbench::training
