#include <algorithm>
#include <cmath>

#include "sim_core/diagnosis/next_check.h"
#include "sim_core/training/grounds.h"
#include "sim_core/training/words.h"

// The guide's next check on what a person has found.
namespace stirbench::training {

namespace {

using diagnosis::AccessState;
using diagnosis::CheckAdvice;
using diagnosis::Model;

constexpr double least_bits = 0.02;  // less is no news (choice; faults.md counts below 0.01 as redundant)

AccessState access_of(const machine::State& state) {
  const bool supplied = state.plant.fittings.isolator_on;
  if (state.lockout.panel_off) return supplied ? AccessState::open_live : AccessState::open_isolated;
  if (!supplied) return AccessState::isolated;
  return control::mode_moves(state.control.mode) ? AccessState::running : AccessState::standing;
}

// "2 min; on what you found: silent 60 %, clacks 40 %."
std::string worth_of(const Model& model, const CheckAdvice& one) {
  std::vector<std::size_t> order;
  for (std::size_t o = 0; o < one.outcome_p.size(); ++o) order.push_back(o);
  std::stable_sort(order.begin(), order.end(),
                   [&one](std::size_t a, std::size_t b) { return one.outcome_p[a] > one.outcome_p[b]; });
  std::string answers;
  for (std::size_t i = 0; i < order.size() && i < 3; ++i) {
    const double share = one.outcome_p[order[i]];
    if (share < 0.02) break;
    answers += (answers.empty() ? "" : ", ") + model.outcome_title(one.question, order[i]) + " " +
               fixed_text(100.0 * share, 0) + " %";
  }
  return "It tells most for its " + fixed_text(std::max(1.0, one.minutes), 0) +
         " min. Expected on what you found: " + answers + ".";
}

}  // namespace

ProposedCheck Grounds::advice(const machine::State& state, const std::vector<std::size_t>& left_out) const {
  ProposedCheck out;
  const Model known = model();
  const std::vector<diagnosis::Finding> found = as_findings();
  const diagnosis::Posterior posterior = diagnosis::posterior(known, found);
  const faults::Who trade = state.lockout.situation.trade;
  const std::size_t first = posterior.ranked().front().cause;
  if (own_findings() > 0 && p_of(first, posterior, trade) >= earned_norm && has_looked(first)) {
    out.earned = known.causes[first].id;
    out.why = "What you found leaves one cause that is nine tenths sure: name it.";
    return out;
  }
  if (p_of(first, posterior, trade) >= earned_norm && !has_looked(first)) {
    out.question = guide_->look_for(first);
    out.check = known.question_title(out.question);
    out.why = "What you found points there: look before you say so.";
    return out;
  }
  diagnosis::Constraints here{trade, access_of(state), std::vector<bool>(known.question_count(), false)};
  for (const std::size_t one : left_out) here.impossible[one] = true;
  const diagnosis::NextSteps next = diagnosis::next_checks(known, found, here);
  const auto tells = [](const CheckAdvice& one) { return one.information_bits >= least_bits; };
  const auto best = std::find_if(next.checks.begin(), next.checks.end(), tells);
  if (best == next.checks.end()) {
    out.why = "No check that you may make tells more. Hand it off with what you found.";
    return out;
  }
  out.question = best->question;
  out.check = known.question_title(best->question);
  out.why = worth_of(known, *best);
  return out;
}

}  // namespace stirbench::training
