#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim_core/training/lesson.h"

// The words of a score: how far off a miss was, and what decided. English; screens translate them part by
// part.
namespace stirbench::training {

// On which side of its bound a miss lies, with {size} for how far: "Too much by {size}" for a pail that holds
// too much, "Short by {size}" for one that holds too little; "Too high by", "Too low by" for temperatures and
// other levels; "Too long by" for times. "To spare: {size}" when it was met.
std::string_view margin_words(const CriterionResult& result);
// Whether there is a margin to speak of.
bool has_margin_words(const CriterionResult& result);
// "(Too much by 16.27 kg.)", "(Short by 0.3 K, so 70 % of the points.)", "(To spare: 0.8 K.)"; empty without
// a margin. Numbers in SI.
std::string margin_sentence(const CriterionResult& result);

// Points and pass mark so that a score below the mark never reads like it: 0.846 against 0.85 -> "84.6 %".
std::string score_text(const ScoreCard& card);

// What decided that a run was not passed: must-pass items that were missed, else those that were not even
// reached, else the criteria that cost most, as many as it took to fall below the mark. Empty for a pass.
struct Decision {
  bool by_must_pass = false;
  std::vector<const CriterionResult*> criteria;  // of the card, which must outlive it
};
Decision decision_of(const ScoreCard& card);
// "Passed: 96 %, the pass mark is 85 %." or "Not passed: 84.6 %, the pass mark is 85 %. Decided by a
// must-pass item: Hold not interrupted."
std::string verdict_sentence(const ScoreCard& card);

}  // namespace stirbench::training
