#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "sim_core/faults/fault.h"

// Why a machine stopped: causes, what people see, what they can check, and how likely each answer is under
// each cause. The likelihoods are counts of simulated broken machines (app/library/evidence), never typed in.
// Everything here is plain data, filled from content; posterior.h reasons about it. The common unit of cost
// is the minute.
namespace stirbench::diagnosis {

using faults::access_state_count;
using faults::access_state_title;
using faults::access_state_word;
using faults::may_do;
using faults::Who;
using faults::who_count;
using faults::who_title;
using faults::who_word;
using AccessState = faults::AccessState;

// What may be wrong is a fault of content, as it is; `per_year` is the rate that is reckoned with, content's
// or a workshop's own.
using Cause = faults::Fault;

// Where a simulated reading comes from: the run in which it is taken and the signal read, or meter leads on
// two terminals.
struct ReadingSpec {
  std::string
      protocol;        // run of the evidence maker: "heating", "chilling", "stirring", "drawing", "dead" ...
  double at_s = 0.0;   // moment in it; the run's end when 0
  std::string signal;  // what is read and how, by the grammar of reading.h
  double error_abs = 0.0;   // one standard deviation of the instrument or of the eye, in the signal's unit
  double error_norm = 0.0;  // the same, as a share of the reading
};

// An answer. Readings in [low, high) give it; of a list of outcomes the first that fits counts. Outcome 0 is
// what a good machine shows. "Could not be done" is no outcome: it says nothing about the cause.
struct Outcome {
  std::string id;
  std::string title;  // "One pair good, two open"
  double low = -1.0e300;
  double high = 1.0e300;
};

// What somebody sees, hears or feels and says in plain words. Outcome 0: not so; outcome 1: it is so.
struct Symptom {
  std::string id;
  std::string title;               // "Heats slowly"
  std::string display;             // what the panel's display shows, may be empty
  std::vector<std::string> words;  // other ways to say it, for the search
  std::string meaning;             // what counts as this symptom
  ReadingSpec reading;
  double low = 0.0;  // readings in [low, high) are the symptom
  double high = 1.0e300;
};

enum class CheckKind : std::uint8_t { look, listen, feel, panel, meter, gauge, mechanical, try_it, count };
inline constexpr std::size_t check_kind_count = static_cast<std::size_t>(CheckKind::count);
std::string_view check_kind_word(CheckKind kind);

struct Check {
  std::string id;
  std::string title;  // "Resistance across each element pair"
  CheckKind kind = CheckKind::look;
  double minutes = 1.0;  // hands-on, without isolating and covers
  AccessState needs = AccessState::running;
  Who who = Who::anyone;
  std::vector<std::string> cautions;  // keys of content/text/cautions
  std::string how;                    // what to do, step by step
  std::string expected;               // reading of a good machine: "each pair 52.9 Ω ± 5 %"
  std::string picture;  // part of the machine view, or "terminals:L1:L2" of the wiring diagram; may be empty
  ReadingSpec reading;
  std::vector<Outcome> outcomes;  // 2 to 6
};

// Symptoms and checks share one numbering in evidence and findings: symptoms first, then checks. This is a
// "question". Profiles are simulated kinds of one cause (mild, middling, severe): answers are independent
// given the profile, not given the cause alone, because a mild fault shows mildly everywhere. `machines` were
// simulated; counts[question][outcome] of them answered so.
struct Profile {
  std::size_t cause = 0;
  std::string label;                        // "mild", "middling", "severe"
  double share = 1.0;                       // of its cause; the shares of one cause sum to 1
  std::vector<std::vector<double>> counts;  // [question][outcome]
};

// Minutes that it takes to bring the machine from one condition into another, both ways of each elementary
// step. Isolating includes locking, tagging and proving dead; starting again includes looking round.
struct AccessCosts {
  double start_min = 0.5;
  double stop_min = 0.2;
  double isolate_min = 4.0;
  double restore_min = 2.0;
  double covers_off_min = 5.0;
  double covers_on_min = 5.0;
  double make_live_min = 3.0;  // covers off, supply back on: barrier, second person
};
using AccessMinutes = std::array<std::array<double, access_state_count>, access_state_count>;
// Cheapest way between any two conditions over the elementary steps, both covers and supply put back where
// needed (Floyd-Warshall).
AccessMinutes access_change_minutes(const AccessCosts& costs);

struct Model {
  std::string machine;
  std::vector<Cause> causes;
  std::vector<Symptom> symptoms;
  std::vector<Check> checks;
  std::vector<Profile> profiles;  // from the evidence, sorted by cause
  AccessCosts state_costs;
  double service_min = 240.0;  // calling somebody in who surely repairs it, as minutes
  double prove_min = 4.0;      // trying the machine after a repair
  double pair_years = 0.02;    // how long a second fault stays unnoticed: prior of a pair = rates times this
  double misuse_years =
      0.02;  // how long wrong use does: a pair with misuse in it lasts the shorter of the two
  double unknown_norm = 0.01;  // share of broken machines whose cause is not in the catalogue
  double smoothing =
      0.5;  // added to each count on average (Jeffreys); 0 for tables that are exact probabilities
  // [question][outcome]: how often an answer comes over all causes by their rates. What is added to the
  // counts is shared out nine parts like this and one part evenly; empty: evenly. An answer that hardly any
  // cause gives stays improbable for a cause that never gave it.
  std::vector<std::vector<double>> usual;
  std::string evidence_hash;  // content hash that the counts were made from

  std::size_t question_count() const { return symptoms.size() + checks.size(); }
  bool is_symptom(std::size_t question) const { return question < symptoms.size(); }
  const Check& check(std::size_t question) const { return checks[question - symptoms.size()]; }
  std::size_t outcome_count(std::size_t question) const {
    return is_symptom(question) ? 2 : check(question).outcomes.size();
  }
  std::string question_title(std::size_t question) const;
  std::string outcome_title(std::size_t question, std::size_t outcome) const;
  // Index of a symptom, check, outcome or cause by id; npos when there is none.
  static constexpr std::size_t npos = static_cast<std::size_t>(-1);
  std::size_t symptom_index(std::string_view id) const;  // also its question
  std::size_t check_question(std::string_view id) const;
  std::size_t outcome_index(std::size_t question, std::string_view id) const;
  std::size_t cause_index(std::string_view id) const;
  // P(outcome | profile): (count + smoothing x outcomes x share) / (machines + smoothing x outcomes), share
  // of `usual` or even; the same for every outcome when never simulated.
  double likelihood(std::size_t profile, std::size_t question, std::size_t outcome) const;
};

// Fills Model::usual from the counts and rates.
void fit_outcome_prior(Model& model);

// Throws std::invalid_argument naming what is inconsistent: a profile of an unknown cause, counts that do not
// fit the questions, shares that do not sum to 1 within 1e-9, a cause without profile, a negative rate.
void check_model(const Model& model);

// P(outcome | cause), its profiles mixed by their shares.
double cause_likelihood(const Model& model, std::size_t cause, std::size_t question, std::size_t outcome);

// P(outcome | a cause that is not in the catalogue): four parts what the known causes answer on average, one
// part anything.
double unknown_likelihood(const Model& model, std::size_t question, std::size_t outcome);

// One answer. `sure` in 0..1: 1 certain; 0 says nothing. A withdrawn finding stays in the list, so that undo
// and the report show it.
struct Finding {
  std::size_t question = 0;
  std::size_t outcome = 0;
  double sure = 1.0;
  bool withdrawn = false;
};

}  // namespace stirbench::diagnosis
