#include "sim_core/training/guidance/prospect.h"

#include <algorithm>

#include "sim_core/training/batch_judge.h"
#include "sim_core/training/words.h"

namespace stirbench::training {

namespace {

std::string percent(double share) { return fixed_text(100.0 * share, 0) + " %"; }

// A cooling rule that was missed stays missed; only a vat that was emptied forgets it, with its batch
// (product/cooling_watch.h).
bool cooling_missed(const Monitor& m, const Moment& moment) {
  return m.kind == MonitorKind::final_state && m.what.op == Op::cooling_is && m.what.of == "kept" &&
         moment.judge != nullptr && moment.judge->cooling_state(m.what.text) == "missed";
}

// Whether the lesson says that this criterion can be met no more.
bool out_of_reach(const Lesson& lesson, const std::string& criterion, const Moment& moment) {
  return std::any_of(lesson.lost.begin(), lesson.lost.end(), [&](const Loss& loss) {
    return loss.text.empty() && loss.unmet == criterion && holds(loss.when, moment);
  });
}

// What is missed for good: by the monitors' verdicts, and what nothing can bring any more.
std::vector<int> gone(const Lesson& lesson, const ScoreCard& now, std::vector<int> missed,
                      const Moment& moment) {
  for (std::size_t i = 0; i < lesson.criteria.size() && i < now.criteria.size(); ++i) {
    if (now.criteria[i].met || std::find(missed.begin(), missed.end(), static_cast<int>(i)) != missed.end())
      continue;
    const Criterion& one = lesson.criteria[i];
    if (cooling_missed(one.monitor, moment) || out_of_reach(lesson, one.id, moment))
      missed.push_back(static_cast<int>(i));
  }
  return missed;
}

}  // namespace

Prospect prospect_of(const Lesson& lesson, const ScoreCard& now, const std::vector<int>& missed,
                     const Moment& moment) {
  Prospect out;
  double all = 0.0;
  for (const Criterion& one : lesson.criteria) all += one.points;
  double best = all;
  double dearest = -1.0;
  bool must_missed = false;
  for (const int index : gone(lesson, now, missed, moment)) {
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
    if (loss.text.empty() || !holds(loss.when, moment) ||
        std::any_of(now.criteria.begin(), now.criteria.end(), met))
      continue;
    out.can_pass = false;
    out.why = loss.text;
    return out;
  }
  return out;
}

}  // namespace stirbench::training
