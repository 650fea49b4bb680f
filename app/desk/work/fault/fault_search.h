#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/fitting/log_finding.h"
#include "app/library/guide/guide.h"
#include "sim_core/diagnosis/next_check.h"

// One search for a fault: what was seen, checked, repaired, in order; and what follows from it. No drawing.
namespace stirbench::desk::work {

class FaultSearch {
 public:
  enum class StepKind : std::uint8_t { saw, checked, could_not, repaired_in_vain, repaired, logged };
  struct Step {
    StepKind kind = StepKind::saw;
    std::size_t question = 0;  // saw, checked, could_not, logged
    std::size_t outcome = 0;
    double sure = 1.0;
    std::size_t cause = 0;  // repairs
    double minutes = 0.0;   // spent on it, change of condition included
  };
  // What an answer would leave as the likeliest.
  struct Leads {
    double p = 0.0;  // of this answer
    std::size_t cause = 0;
    double cause_p = 0.0;
  };

  explicit FaultSearch(library::GuideModel guide);

  const diagnosis::Model& model() const { return guide_.model; }
  const library::GuideModel& guide() const { return guide_; }
  const std::vector<Step>& way() const { return way_; }
  bool started() const { return !way_.empty(); }
  bool solved() const { return !way_.empty() && way_.back().kind == StepKind::repaired; }

  // A symptom is there; seeing it again takes it back.
  void see(std::size_t symptom);
  bool sees(std::size_t symptom) const;
  void answer(std::size_t question, std::size_t outcome, double sure = 1.0);
  void could_not(std::size_t question);
  // A log of the batch as a finding; another one takes its place.
  void take_log(const fitting::LogFinding& finding);
  // A repair was made and the machine tried: it works, or the cause is out.
  void repair(std::size_t cause, bool works);
  void undo();
  void clear();
  void set_who(diagnosis::Who who);
  diagnosis::Who who() const { return situation_.who; }

  // The check looked at: the advised one, or one that the person chose. npos: none.
  std::size_t check() const;
  void choose_check(std::size_t question) { chosen_check_ = question; }
  // The cause whose repair is looked at; npos: none.
  std::size_t cause() const { return chosen_cause_; }
  void choose_cause(std::size_t cause) { chosen_cause_ = cause; }

  const diagnosis::Posterior& known() const { return known_; }
  const diagnosis::NextSteps& next() const { return next_; }
  const std::vector<diagnosis::Finding>& findings() const { return findings_; }
  // The strongest finding for a cause in words; empty when nothing speaks for it.
  std::string why(std::size_t cause) const;
  std::vector<Leads> leads(std::size_t question) const;
  double minutes_used() const;
  // Causes that the way so far has made very unlikely (below 0.5 %) though they could have shown the
  // symptoms.
  std::vector<std::size_t> ruled_out() const;
  // Others that no check tells from this one.
  std::vector<std::size_t> like(std::size_t cause) const;
  // Plain text to hand on: machine, symptoms, checks with answers, probable causes, what is advised.
  std::string hand_off() const;

 private:
  void recompute();
  double spent_on(std::size_t question);

  library::GuideModel guide_;
  std::vector<std::vector<std::size_t>> groups_;
  std::vector<double> rates_;  // as in the guide
  diagnosis::Constraints situation_;
  std::vector<Step> way_;
  std::vector<diagnosis::Finding> findings_;
  diagnosis::Posterior known_;
  diagnosis::NextSteps next_;
  std::size_t chosen_check_ = diagnosis::Model::npos;
  std::size_t chosen_cause_ = diagnosis::Model::npos;
};

}  // namespace stirbench::desk::work
