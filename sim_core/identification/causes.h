#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim_core/identification/fit.h"

// Which fault explains a bad batch: the log against the machine as it is with each fault of content in turn,
// with the lid left open, and against other machines. A log is a finding for the fault guide.
//
// Each hypothesis is fitted by the start temperature and, where a fault has grades, by its severity; what is
// left is judged by Schwarz's criterion (BIC),
//
//   bic = n ln(rms^2 + model_error_K^2) + free ln n
//
// with the model's own error beside the noise: a difference smaller than what the model itself may be off
// decides nothing. That error lasts: it is one thing for as long as metal, product and refrigerant keep their
// state. So n is not the number of samples but that of independent pieces, one in model_error_lasts_s, and
// no more than N (1 - rho) / (1 + rho) for autocorrelated residuals. Something that nobody has thought of
// might follow the log to its noise, for as many free numbers as a curve of heating and chilling has bends.
namespace stirbench::identification {

// Choice: the time constant of a vat's metal and of the refrigerant's circuit behind it.
inline constexpr double model_error_lasts_s = 600.0;
// Choice: a level, three slopes and three bends.
inline constexpr double unexplained_free = 7.0;

enum class Explains { nothing_wrong, fault, lid_left_open, other_machine };

struct Explanation {
  Explains kind = Explains::fault;
  std::string id;     // of the fault or machine
  std::string title;  // for people
  double severity = 0.0;
  double rms_K = 0.0;
  double bic = 0.0;
  double weight = 0.0;  // exp(-(bic - least)/2), shared out to a sum of 1: without how often a fault comes
  // What was tried on the way: a grade of the fault and the bic there.
  struct Grade {
    double severity = 0.0;
    double bic = 0.0;
  };
  std::vector<Grade> grades;
};

struct Hypotheses {
  const FitRequest* request = nullptr;  // its machine as it is thought to be
  std::vector<const machine::Machine*> others;
  std::size_t refined = 6;  // how many of the nearest are fitted; the others are seen at three severities
  // Called before each hypothesis with the share that is done; false ends the search with nothing ranked.
  std::function<bool(double share)> watch;
};

struct Explanations {
  std::vector<Explanation> ranked;    // best first
  std::vector<std::string> not_seen;  // ids of faults that a log of temperature cannot show here
  double sound_bic = 0.0;             // of a machine in order; of what is not seen, too
  double unexplained_bic = 0.0;       // of something that nobody has thought of
};
Explanations explain(const Hypotheses& hypotheses);

}  // namespace stirbench::identification
