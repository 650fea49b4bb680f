#include "sim_core/training/score_words.h"

#include <algorithm>
#include <cmath>

#include "sim_core/training/words.h"

namespace stirbench::training {

namespace {

bool is_amount(std::string_view signal) {
  // Amounts and counts are too much or short; "held_s" is how long something right lasted.
  return signal.empty() || signal == "held_s" || signal.ends_with("_kg") || signal.ends_with("_L") ||
         signal.ends_with("_g");
}

std::string percent(double norm, int decimals) { return fixed_text(100.0 * norm, decimals) + " %"; }

std::string margin_size(const CriterionResult& c) {
  if (c.margin_signal.empty()) return fixed_text(std::abs(c.margin), 0);
  if (c.margin_signal == "held_s") return duration_text(std::abs(c.margin));
  return difference_text(c.margin_signal, c.margin);
}

}  // namespace

bool has_margin_words(const CriterionResult& c) {
  if (!c.has_margin || !c.occasion || !std::isfinite(c.margin)) return false;
  // All of a count, or a miss exactly at its bound: nothing to say.
  return !(c.margin == 0.0 && (!c.met || c.margin_signal.empty()));
}

std::string_view margin_words(const CriterionResult& c) {
  if (c.met) return "To spare: {size}";
  if (is_amount(c.margin_signal)) return c.over ? "Too much by {size}" : "Short by {size}";
  if (c.margin_signal.ends_with("_s") && !c.margin_signal.ends_with("_Pa_s"))
    return c.over ? "Too long by {size}" : "Short by {size}";
  return c.over ? "Too high by {size}" : "Too low by {size}";
}

std::string margin_sentence(const CriterionResult& c) {
  if (!has_margin_words(c)) return {};
  std::string words(margin_words(c));
  words.replace(words.find("{size}"), 6, margin_size(c));
  if (!c.met && c.credit_norm > 0.0) words += ", so " + percent(c.credit_norm, 0) + " of the points";
  return "(" + words + ".)";
}

std::string score_text(const ScoreCard& card) {
  const bool below = card.score_norm < card.pass_norm;
  // Rounded to the mark it would read like a pass.
  const bool reads_like_mark = below && std::round(100.0 * card.score_norm) >= 100.0 * card.pass_norm;
  return percent(reads_like_mark ? std::floor(1000.0 * card.score_norm) / 1000.0 : card.score_norm,
                 reads_like_mark ? 1 : 0);
}

Decision decision_of(const ScoreCard& card) {
  Decision out;
  if (card.passed) return out;
  for (const bool reached : {true, false}) {
    for (const CriterionResult& c : card.criteria) {
      if (c.must_pass && !c.met && c.occasion == reached) out.criteria.push_back(&c);
    }
    out.by_must_pass = !out.criteria.empty();
    if (out.by_must_pass) return out;
  }
  std::vector<const CriterionResult*> lost;
  double all = 0.0;
  for (const CriterionResult& c : card.criteria) {
    all += c.of;
    if (c.points < c.of) lost.push_back(&c);
  }
  std::stable_sort(lost.begin(), lost.end(), [](const CriterionResult* a, const CriterionResult* b) {
    return a->of - a->points > b->of - b->points;
  });
  double left = all;
  for (const CriterionResult* c : lost) {
    out.criteria.push_back(c);
    left -= c->of - c->points;
    if (left < card.pass_norm * all) break;
  }
  return out;
}

std::string verdict_sentence(const ScoreCard& card) {
  std::string words = (card.passed ? "Passed: " : "Not passed: ") + score_text(card) + ", the pass mark is " +
                      percent(card.pass_norm, 0) + ".";
  const Decision decision = decision_of(card);
  if (decision.criteria.empty()) return words;
  words += decision.by_must_pass ? " Decided by must-pass items: " : " What cost most: ";
  for (std::size_t i = 0; i < decision.criteria.size(); ++i)
    words += (i == 0 ? "" : "; ") + decision.criteria[i]->title;
  return words + ".";
}

}  // namespace stirbench::training
