#pragma once

#include <cstddef>
#include <string>
#include <vector>

#include "sim_core/diagnosis/model.h"
#include "sim_core/identification/causes.h"

// A log of a batch as a finding of the fault guide: one more question of its model, "what does the log show",
// whose answer "this curve" has a likelihood under each kind of each cause.
namespace stirbench::fitting {

inline constexpr const char* log_check_id = "batch-log";
// No cause is put off further by a log than this, nor is any other made surer: what the guide's own simulated
// answers go down to, half a machine of 120 of a kind.
inline constexpr double least_likelihood = 1.0 / 240.0;

struct LogFinding {
  std::vector<double> profile_p;  // by the model's profiles: of this curve, the likeliest 1
  double unknown_p = 0.1;         // of something that is not in the guide
  std::string words;              // the answer: "like: Heating element 1 open"
  bool as_in_order = false;       // a machine in order writes such a log
};

// Likelihoods exp(-(bic - least) / 2), the best grade of a kind's third of severities; a fault that does not
// move the curve is as likely as a machine in order. What the guide does not know as a cause (a lid left
// open, another machine) speaks for "something else". Empty ranking: nothing is told, all are 1.
LogFinding log_finding(const diagnosis::Model& model, const identification::Explanations& explanations);

// Adds the question as the model's last check; its outcome 1 is the finding's answer. Returns it.
std::size_t add_log_question(diagnosis::Model& model, const LogFinding& finding);
// Takes it out again.
void remove_log_question(diagnosis::Model& model);

}  // namespace stirbench::fitting
