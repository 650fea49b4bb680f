#include "app/desk/work/fault/fault_search.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/text/units.h"

namespace stirbench::desk::work {

using kit::tr;

using namespace diagnosis;

FaultSearch::FaultSearch(library::GuideModel guide) : guide_(std::move(guide)) {
  for (const Cause& cause : model().causes) rates_.push_back(cause.per_year);
  if (guide_.simulated) groups_ = ambiguity_groups(model());
  situation_.condition = AccessState::standing;
  recompute();
}

void FaultSearch::see(std::size_t symptom) {
  const auto found = std::find_if(way_.begin(), way_.end(), [symptom](const Step& s) {
    return s.kind == StepKind::saw && s.question == symptom;
  });
  if (found != way_.end())
    way_.erase(found);
  else
    way_.push_back({StepKind::saw, symptom, 1});
  recompute();
}

bool FaultSearch::sees(std::size_t symptom) const {
  return std::any_of(way_.begin(), way_.end(),
                     [symptom](const Step& s) { return s.kind == StepKind::saw && s.question == symptom; });
}

double FaultSearch::spent_on(std::size_t question) {
  const Check& check = model().check(question);
  const AccessMinutes change = access_change_minutes(model().state_costs);
  return change[static_cast<std::size_t>(situation_.condition)][static_cast<std::size_t>(check.needs)] +
         check.minutes;
}

void FaultSearch::answer(std::size_t question, std::size_t outcome, double sure) {
  way_.push_back({StepKind::checked, question, outcome, sure, 0, spent_on(question)});
  recompute();
}

void FaultSearch::could_not(std::size_t question) {
  way_.push_back({StepKind::could_not, question});
  recompute();
}

void FaultSearch::take_log(const fitting::LogFinding& finding) {
  std::erase_if(way_, [](const Step& step) { return step.kind == StepKind::logged; });
  way_.push_back({StepKind::logged, fitting::add_log_question(guide_.model, finding), 1});
  recompute();
}

void FaultSearch::repair(std::size_t cause, bool works) {
  double minutes = model().causes[cause].repair_min + model().prove_min;
  for (const RepairAdvice& one : next_.repairs) {
    if (one.cause == cause) minutes = one.minutes;
  }
  way_.push_back({works ? StepKind::repaired : StepKind::repaired_in_vain, 0, 0, 1.0, cause, minutes});
  recompute();
}

void FaultSearch::undo() {
  if (!way_.empty()) way_.pop_back();
  recompute();
}

void FaultSearch::clear() {
  way_.clear();
  recompute();
}

void FaultSearch::set_who(Who who) {
  situation_.who = who;
  recompute();
}

void FaultSearch::recompute() {
  findings_.clear();
  // Without its finding the question of the log is none.
  if (std::none_of(way_.begin(), way_.end(), [](const Step& s) { return s.kind == StepKind::logged; }))
    fitting::remove_log_question(guide_.model);
  situation_.impossible.assign(model().question_count(), false);
  situation_.condition = AccessState::standing;
  for (std::size_t c = 0; c < rates_.size(); ++c) guide_.model.causes[c].per_year = rates_[c];
  for (const Step& step : way_) {
    switch (step.kind) {
      case StepKind::saw:
      case StepKind::logged: findings_.push_back({step.question, 1}); break;
      case StepKind::checked:
        findings_.push_back({step.question, step.outcome, step.sure});
        situation_.condition = model().check(step.question).needs;
        break;
      case StepKind::could_not: situation_.impossible[step.question] = true; break;
      case StepKind::repaired_in_vain:
        guide_.model.causes[step.cause].per_year = 0.0;
        situation_.condition = AccessState::running;
        break;
      case StepKind::repaired: break;
    }
  }
  chosen_check_ = Model::npos;
  chosen_cause_ = Model::npos;
  known_ = posterior(model(), findings_);
  next_ = findings_.empty() ? NextSteps{} : next_checks(model(), findings_, situation_);
  if (next_.repair_now && !next_.repairs.empty()) chosen_cause_ = next_.repairs.front().cause;
}

std::size_t FaultSearch::check() const {
  if (chosen_check_ != Model::npos) return chosen_check_;
  return next_.checks.empty() ? Model::npos : next_.checks.front().question;
}

std::string FaultSearch::why(std::size_t cause) const {
  for (const WeightOfEvidence& reason : weights_of_evidence(model(), findings_, cause)) {
    if (reason.log10_ratio <= 0.1) continue;
    const Finding& finding = findings_[reason.finding];
    if (model().is_symptom(finding.question)) return tr(model().question_title(finding.question));
    return tr(model().question_title(finding.question)) + ": " +
           tr(model().outcome_title(finding.question, finding.outcome));
  }
  return "";
}

std::vector<FaultSearch::Leads> FaultSearch::leads(std::size_t question) const {
  const std::vector<double> p = predict(model(), known_, question);
  std::vector<Leads> out;
  for (std::size_t o = 0; o < p.size(); ++o) {
    std::vector<Finding> then = findings_;
    then.push_back({question, o});
    const Ranked first = posterior(model(), then, {false, 0}).ranked().front();
    out.push_back({p[o], first.cause, first.p});
  }
  return out;
}

double FaultSearch::minutes_used() const {
  double sum = 0.0;
  for (const Step& step : way_) sum += step.minutes;
  return sum;
}

std::vector<std::size_t> FaultSearch::ruled_out() const {
  constexpr double out_below = 0.005;
  constexpr double could_be = 0.01;
  std::vector<Finding> seen;
  for (const Finding& finding : findings_) {
    if (model().is_symptom(finding.question)) seen.push_back(finding);
  }
  std::vector<std::size_t> out;
  if (seen.size() == findings_.size()) return out;
  const Posterior before = posterior(model(), seen, {false, 0});
  for (const Ranked& one : before.ranked()) {
    if (one.p >= could_be && known_.cause_p[one.cause] < out_below) out.push_back(one.cause);
  }
  return out;
}

std::vector<std::size_t> FaultSearch::like(std::size_t cause) const {
  for (const auto& group : groups_) {
    if (std::find(group.begin(), group.end(), cause) == group.end()) continue;
    std::vector<std::size_t> out = group;
    std::erase(out, cause);
    return out;
  }
  return {};
}

std::string FaultSearch::hand_off() const {
  const auto percent = [](double p) { return kit::plain_number(100.0 * p, p < 0.1 ? 1 : 0) + " %"; };
  std::string out = tr("Fault search, machine {machine}", {{"machine", model().machine}}) + "\n\n" +
                    tr("The way so far") + "\n";
  for (const Step& step : way_) {
    const std::string minutes = step.minutes > 0.0 ? " (" + kit::plain_number(step.minutes, 0) + " min)" : "";
    switch (step.kind) {
      case StepKind::saw: out += "- " + tr("seen") + ": " + tr(model().question_title(step.question)); break;
      case StepKind::checked:
        out += "- " + tr(model().question_title(step.question)) + ": " +
               tr(model().outcome_title(step.question, step.outcome));
        if (step.sure < 1.0) out += " (" + tr("not sure") + ")";
        break;
      case StepKind::logged:
        out += "- " + tr(model().question_title(step.question)) + ": " +
               tr(model().outcome_title(step.question, 1));
        break;
      case StepKind::could_not:
        out += "- " + tr(model().question_title(step.question)) + ": " + tr("could not be done");
        break;
      case StepKind::repaired_in_vain:
        out += "- " + tr("repaired, did not help") + ": " + tr(model().causes[step.cause].title);
        break;
      case StepKind::repaired:
        out += "- " + tr("repaired, works") + ": " + tr(model().causes[step.cause].title);
        break;
    }
    out += minutes + "\n";
  }
  out += "\n" + tr("Probable causes") + "\n";
  for (const Ranked& one : known_.ranked()) {
    if (one.p < 0.02) break;
    out += "- " + percent(one.p) + " " + tr(model().causes[one.cause].title) + "\n";
  }
  if (known_.unknown_p >= 0.02)
    out += "- " + percent(known_.unknown_p) + " " + tr("something that is not in this guide") + "\n";
  if (!solved() && !next_.checks.empty() && !next_.repair_now)
    out += "\n" + tr("Next check") + ": " + tr(model().check(next_.checks.front().question).title) + "\n";
  if (!next_.repairs.empty() && (next_.repair_now || solved())) {
    const Cause& cause = model().causes[solved() ? way_.back().cause : next_.repairs.front().cause];
    out +=
        "\n" + tr("Repair") + ": " + tr(cause.repair) + "\n" + tr("Proof") + ": " + tr(cause.verify) + "\n";
  }
  return out + "\n" +
         tr("Isolate, lock and prove dead before covers come off. Electrical and refrigerant work is for "
            "licensed people; local codes come first.") +
         "\n";
}

}  // namespace stirbench::desk::work
