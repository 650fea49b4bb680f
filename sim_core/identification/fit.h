#pragma once

#include <functional>
#include <string>
#include <vector>

#include "sim_core/identification/batch_log.h"
#include "sim_core/identification/least_squares.h"
#include "sim_core/identification/quantities.h"

// One machine fitted to the log of one batch: what it estimates, how sure, what it cannot tell, and whether
// the log is one of this machine at all.
namespace stirbench::identification {

// Where the model itself may be off [K], beyond noise: a log whose residuals are larger does not fit (choice:
// a third of the 0.8 .. 3.7 K that a wrong structure leaves, see the tests' worked example).
inline constexpr double model_error_K = 0.3;

inline constexpr std::size_t least_samples = 30;

struct FitRequest {
  machine::Machine machine;
  Course course;  // start and room; actions, or none: then the spells of the log are used
  BatchLog log;
  bool mass_known = false;   // weighed
  bool power_known = false;  // measured: course's machine has that power already
  bool clock_unknown = false;
  bool profiles = true;
  std::vector<Quantity> held;  // not to be searched although the log could tell
  std::function<bool()>
      watch;  // called before each run of the machine; false ends the fit, which is not done
};

struct Found {
  Quantity quantity = Quantity::count;
  double before = 0.0;  // as the machine's file or the course says
  double value = 0.0;
  double low = 0.0;  // 95 %
  double high = 0.0;
  bool profiled = false;  // limits by profile likelihood
  bool plausible = true;  // some of the interval is within what a sound machine of this kind has
  bool at_bound = false;
};

struct NotFound {
  Quantity quantity = Quantity::count;
  std::string why;
};

// Two quantities that the log hardly tells apart.
struct Tied {
  Quantity one = Quantity::count;
  Quantity other = Quantity::count;
  double correlation = 0.0;
};

struct ResidualReport {
  double rms_K = 0.0;
  double most_K = 0.0;
  double most_at_s = 0.0;
  double noise_K = 0.0;      // from the log's own second differences
  double structure_K = 0.0;  // what noise does not explain: sqrt(rms^2 - noise^2)
  double rho = 0.0;          // lag one
  double runs_z = 0.0;       // Wald and Wolfowitz; far below 0: residuals keep their sign too long
  // After which switching the residuals are largest, and their mean there.
  double worst_switching_s = -1.0;
  double worst_mean_K = 0.0;
};
ResidualReport report_of(const std::vector<LogSample>& samples, const std::vector<double>& residuals,
                         const std::vector<Spell>& spells, double noise_K);

enum class Misfit { second_batch, residuals, implausible, at_bound };
struct Objection {
  Misfit misfit = Misfit::residuals;
  std::string words;
};

struct Fit {
  bool done = false;
  std::string trouble;  // why nothing could be estimated
  Trial trial;          // machine and batch with the estimates
  BatchLog log;         // the part that was used: without the filling when the actions tell of it
  Spells spells;
  std::vector<Found> found;
  std::vector<NotFound> not_found;
  std::vector<Tied> tied;
  std::vector<double> simulated_degC;  // at the samples of `log`
  std::vector<double> residuals_K;     // simulated - measured
  ResidualReport residuals;
  double condition = 0.0;
  int evaluations = 0;
  std::vector<Objection> objections;  // empty: the log fits this machine
};

Fit fit(const FitRequest& request);

// A log that begins while the probe comes to the product's temperature begins with a stretch that is no
// spell: it is taken out, and a minute more.
void leave_out_settling(const std::vector<Spell>& spells, BatchLog& log);

// How the machine's own ratings let spells be read from a log.
Thresholds thresholds_of(const machine::Machine& machine, double mass_kg);

}  // namespace stirbench::identification
