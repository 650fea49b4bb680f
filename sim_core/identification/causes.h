#pragma once

#include <string>
#include <vector>

#include "sim_core/identification/fit.h"

// Which fault explains a bad batch: the log against the machine as it is with each fault of content in turn,
// with the lid left open, and against other machines. A log is a finding for the fault guide.
//
// Each hypothesis is fitted by the start temperature and, where a fault has grades, by its severity; what is
// left is judged by Schwarz's criterion (BIC), with N lessened for autocorrelated residuals,
// N (1 - rho) / (1 + rho), and with the model's own error beside the noise: a difference smaller than what
// the model itself may be off decides nothing.
namespace stirbench::identification {

enum class Explains { nothing_wrong, fault, lid_left_open, other_machine };

struct Explanation {
  Explains kind = Explains::fault;
  std::string id;     // of the fault or machine
  std::string title;  // for people
  double severity = 0.0;
  double rms_K = 0.0;
  double bic = 0.0;
  double weight = 0.0;  // exp(-(bic - least)/2), shared out to a sum of 1: without how often a fault comes
};

struct Hypotheses {
  const FitRequest* request = nullptr;  // its machine as it is thought to be
  std::vector<const machine::Machine*> others;
  std::size_t refined = 6;  // how many of the nearest are fitted; the others are seen at three severities
};

struct Explanations {
  std::vector<Explanation> ranked;    // best first
  std::vector<std::string> not_seen;  // ids of faults that a log of temperature cannot show here
};
Explanations explain(const Hypotheses& hypotheses);

}  // namespace stirbench::identification
