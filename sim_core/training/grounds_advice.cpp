#include <algorithm>
#include <cmath>
#include <iterator>

#include "sim_core/diagnosis/next_check.h"
#include "sim_core/hands/parameter.h"
#include "sim_core/training/condition.h"
#include "sim_core/training/grounds.h"
#include "sim_core/training/words.h"

// The guide's next check on what a person has found; checks out of order; reports for a colleague.
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

double entropy_bits(const std::vector<double>& p) {
  double sum = 0.0;
  for (const double one : p) sum -= one > 0.0 ? one * std::log2(one) : 0.0;
  return sum;
}

// What the answer is expected to tell about the kind of cause: H(answer) - sum p(kind) H(answer | kind)
// [bit].
double information_bits(const Model& model, const diagnosis::Posterior& known, std::size_t question) {
  const std::size_t outcomes = model.outcome_count(question);
  std::vector<double> expected(outcomes, 0.0);
  double given_bits = 0.0;
  const auto add = [&](double weight, auto likelihood) {
    std::vector<double> answers;
    for (std::size_t o = 0; o < outcomes; ++o) answers.push_back(likelihood(o));
    for (std::size_t o = 0; o < outcomes; ++o) expected[o] += weight * answers[o];
    given_bits += weight * entropy_bits(answers);
  };
  for (std::size_t k = 0; k < model.profiles.size(); ++k)
    add(known.explains_p[k], [&](std::size_t o) { return model.likelihood(k, question, o); });
  add(known.unknown_p, [&](std::size_t o) { return diagnosis::unknown_likelihood(model, question, o); });
  return entropy_bits(expected) - given_bits;
}

bool is_load(electrics::CircuitPartKind kind) {
  using K = electrics::CircuitPartKind;
  return kind == K::element || kind == K::motor || kind == K::fan;
}

// Switched on and without a lit display.
bool is_dark(const machine::State& state) {
  return state.plant.fittings.isolator_on && state.control.mode == control::Mode::off;
}

}  // namespace

// An answer that the other findings leave hardly open tells nothing for its minutes.
void Grounds::mark_idle(const Moment& moment, std::size_t question) {
  const auto answers = [question](const Found& one) { return one.question == question; };
  if (std::any_of(findings_.begin(), findings_.end(), answers)) return;  // made again: checks_repeated
  const Model known = model();
  const diagnosis::Posterior posterior = diagnosis::posterior(known, as_findings());
  if (information_bits(known, posterior, question) >= idle_bits) return;
  marks_.push_back({false, known.question_title(question),
                    "What you had found left only one answer likely: it told nothing more.",
                    moment.state.tick});
}

// What comes first in the trade (common practice, from memory): supply before load, looking before measuring,
// and no running value of a machine that is dead.
void Grounds::mark_dead(const Moment& moment, const std::string& check) {
  const bool dead = !moment.state.plant.fittings.isolator_on || is_dark(moment.state);
  if (!dead) return;
  marks_.push_back({true, check, "Nothing runs on a dead machine: find out first why it has no supply.",
                    moment.state.tick});
}

// Gauges let gas out and air in: air flow, fan and sounds are looked at before.
void Grounds::mark_gauges(const Moment& moment, const std::string& check) {
  const bool looked = std::any_of(findings_.begin(), findings_.end(), [this](const Found& one) {
    return one.tick > 0 && one.question < guide_->questions().size() &&
           guide_->questions()[one.question].taking != Taking::gauges &&
           guide_->questions()[one.question].spell == Spell::chilling;
  });
  if (looked) return;
  marks_.push_back(
      {true, check, "Look, listen and feel at the chiller before gauges go on.", moment.state.tick});
}

void Grounds::mark_reading(const Moment& moment, const std::string& check) {
  const machine::FaultWork& work = moment.state.work;
  const bool looked = std::any_of(findings_.begin(), findings_.end(),
                                  [this](const Found& one) { return is_looked_for(one); });
  const bool tried = std::any_of(work.ran_ticks.begin(), work.ran_ticks.end(),
                                 [](std::uint32_t ticks) { return ticks > 0; });
  // After a repair the place is known, and measuring there again proves it.
  if (!looked && !tried && work.repairs == 0) {
    marks_.push_back({true, check, "Look, listen and try it before the first reading.", moment.state.tick});
    return;
  }
  const electrics::Network& network = moment.machine.plant.circuit;
  const auto at_load = [&](std::int32_t terminal) {
    return terminal >= 0 &&
           is_load(network.parts[network.terminals[static_cast<std::size_t>(terminal)].part].kind);
  };
  const bool measured = !odds_.empty();
  if (!is_dark(moment.state) || measured || !(at_load(work.red) || at_load(work.black))) return;
  marks_.push_back({true, check, "Supply before load: the display is dark.", moment.state.tick});
}

// A lit display in passing is no finding that anybody made.
bool Grounds::is_looked_for(const Found& finding) const {
  const auto& questions = guide_->questions();
  const bool passing = finding.question < questions.size() &&
                       questions[finding.question].taking == Taking::display &&
                       questions[finding.question].spell == Spell::rest;
  return finding.tick > 0 && !passing;
}

bool Grounds::left_out(const Found& finding) const {
  return std::find(left_out_.begin(), left_out_.end(), finding.title) != left_out_.end();
}

std::vector<Found> Grounds::draft() const {
  std::vector<Found> out;
  std::copy_if(findings_.begin(), findings_.end(), std::back_inserter(out),
               [this](const Found& one) { return !left_out(one); });
  return out;
}

void Grounds::include(const std::string& finding, bool in) {
  left_out_.erase(std::remove(left_out_.begin(), left_out_.end(), finding), left_out_.end());
  if (!in) left_out_.push_back(finding);
}

void Grounds::take_back(const std::string& cause) {
  for (Naming& one : namings_) one.taken_back = one.taken_back || one.cause == cause;
}

// What a colleague can go by: a suspicion that the reported findings bear out, or findings and the plain word
// that no cause is known.
void Grounds::report(const Moment& moment, const std::string& suspected) {
  const bool known = suspected != hands::not_known;
  const bool named = std::any_of(namings_.begin(), namings_.end(), [&](const Naming& one) {
    return one.cause == suspected && !one.taken_back;
  });
  if (known && !named) name(moment, suspected);
  Report out{.suspected = known ? suspected : std::string(), .reported = draft(), .tick = moment.state.tick};
  std::vector<diagnosis::Finding> told;
  for (const Found& one : out.reported) {
    told.push_back({one.question, one.outcome, one.sure, false});
    out.own_findings += is_looked_for(one) ? 1U : 0U;
  }
  const std::size_t cause = known ? guide_->model().cause_index(suspected) : Model::npos;
  if (cause != Model::npos && out.own_findings > 0)
    out.p = p_of(cause, diagnosis::posterior(model(), told), moment.state.lockout.situation.trade);
  if (out.own_findings == 0)
    out.why = "It told nothing that you had found yourself.";
  else if (known && out.p < earned_norm)
    out.why = "What it told did not make the suspected cause nine tenths sure.";
  out.good = out.why.empty();
  reports_.push_back(std::move(out));
}

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
  const std::size_t look = guide_->look_for(first);
  const bool can_look = std::find(left_out.begin(), left_out.end(), look) == left_out.end();
  if (p_of(first, posterior, trade) >= earned_norm && !has_looked(first) && can_look) {
    out.question = look;
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
