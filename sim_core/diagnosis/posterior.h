#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "sim_core/diagnosis/model.h"

// Exact posterior over what is wrong, from any set of findings. Hypotheses: one cause (in one of its
// simulated kinds), two causes at once, or something that is not in the catalogue. Priors: rate of a cause;
// for a pair the product of the two rates times the shorter time that one of them stays unnoticed
// (Model::pair_years, Model::misuse_years): somebody who diagnoses one meets the other for rate x that time.
// Model::unknown_norm of all. Normalised by the log-sum-exp rule, so that many findings do not underflow.
namespace stirbench::diagnosis {

struct PairEntry {
  std::size_t first = 0;  // causes, first < second
  std::size_t second = 0;
  double p = 0.0;
};

struct Ranked {
  std::size_t cause = 0;
  double p = 0.0;  // that it is there, alone or with another
};

// How a finding sits with the others.
struct FindingFit {
  double p_given_rest = 1.0;  // P(this answer | the other findings)
  bool contradicts = false;  // hardly possible beside the rest, and dropping it explains the rest much better
  std::size_t against = Model::npos;  // index of an earlier finding that answered the same question otherwise
};

struct Posterior {
  std::vector<double> cause_p;    // by cause: P(it is there); with pairs the sum may exceed 1
  std::vector<double> single_p;   // by cause: P(it is there and nothing else)
  std::vector<double> profile_p;  // by profile: P(it alone)
  // By profile: P(it alone) and of each pair with it the share that it alone accounts for, L_a / (L_a + L_b)
  // by the likelihoods of the findings. With unknown_p they sum to 1: what a plan for one cause after the
  // other goes by. A bystander that explains nothing of what was found takes nothing.
  std::vector<double> explains_p;
  std::vector<PairEntry> pairs;  // the likeliest, falling, at most `most_pairs`
  double pair_p = 0.0;           // of all pairs
  double unknown_p = 0.0;        // nothing in the catalogue explains it
  double log_evidence = 0.0;     // ln P(findings)
  double conflict =
      0.0;  // ln (prod P(finding) / P(findings)): above 0 they speak against each other (Jensen et al. 1990)
  std::vector<FindingFit> fits;        // by finding, withdrawn ones included (they fit)
  bool contradictory = false;          // some finding contradicts
  std::vector<Ranked> ranked() const;  // causes by falling p, ties by index
};

struct PosteriorOptions {
  bool pairs = true;
  std::size_t most_pairs = 20;
};

// Throws std::invalid_argument for a finding outside the model.
Posterior posterior(const Model& model, const std::vector<Finding>& findings,
                    const PosteriorOptions& options = {});

// P(outcome | both causes): each brings about its own answer; a good machine's answer gives way to the
// other's, and of two bad ones either is as likely to be seen. For two-valued questions this is the noisy-OR.
double pair_likelihood(double p_first, double normal_first, double p_second, double normal_second,
                       bool normal);

// P(outcome) of a question when these findings hold; for what a check would tell, and for the next one's
// worth.
std::vector<double> predict(const Model& model, const Posterior& posterior, std::size_t question);

// Weight of each finding for one cause (Good 1950): log10 P(answer | cause) / P(answer | the other causes by
// their rates).
struct WeightOfEvidence {
  std::size_t finding = 0;
  double log10_ratio = 0.0;
};
// By falling absolute weight; withdrawn findings left out.
std::vector<WeightOfEvidence> weights_of_evidence(const Model& model, const std::vector<Finding>& findings,
                                                  std::size_t cause);

// Groups of causes that the checks (those that `may_ask` allows; empty = all) cannot tell apart: single
// linkage over pairs whose answers overlap. Overlap: product over questions of sum_k sqrt(P_k Q_k)
// (Bhattacharyya), at least `overlap` (0.5 bounds the chance of a right guess between the two at 93 %). Each
// with two members or more.
std::vector<std::vector<std::size_t>> ambiguity_groups(const Model& model,
                                                       const std::vector<bool>& may_ask = {},
                                                       double overlap = 0.5);

}  // namespace stirbench::diagnosis
