#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sim_core/journal/journal.h"
#include "sim_core/training/scorer.h"

namespace stirbench::desk::work {

// A finished session, replayed once: snapshots to scrub through, events, score. Made from the journal alone,
// so that a kept attempt and one that has just ended are looked at with the same eyes.
struct DebriefModel {
  journal::Journal journal;
  std::vector<machine::State> snapshots;  // one each `every_s` from 0, and the last moment
  double every_s = 1.0;
  std::vector<machine::Event> history;
  std::vector<double>
      step_began_s;  // when the lesson's steps 1, 2, ... became the present one; as many as were reached
  std::vector<std::string> drawn;  // what the lesson had drawn for this run, a sentence each
  double ended_s = 0.0;            // of the run
  std::optional<training::ScoreCard> card;
  std::optional<training::BatchJudge>
      judge;  // of the whole run; looks at the machine, which must outlive the model
  bool verified = false;
  std::string problem;  // why it does not verify; snapshots up to there are still shown

  double end_s() const { return snapshots.empty() ? 0.0 : machine::time_s(snapshots.back()); }
  const machine::State& at(double time_s) const;  // nearest snapshot at or before; needs a non-empty model
};

// `lesson` may be null (free run). Never throws on a damaged journal: `problem` says what is wrong with it.
DebriefModel build_debrief(const machine::Machine& machine, const training::Lesson* lesson,
                           const std::string& journal_text);

}  // namespace stirbench::desk::work
