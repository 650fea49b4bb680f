#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

#include "app/library/guide/guide.h"

// Simulates every fault of a guide at random severities, room temperatures, supplies, loads and instrument
// errors and counts the answers. Rows are independent: any number of threads gives the same file, and a run
// that was stopped can be resumed.
namespace stirbench::library {

struct LikelihoodPlan {
  int machines_each = 120;  // for each cause and severity
  std::uint64_t seed = 1;
  unsigned threads = 0;   // 0: as many as the computer has
  std::string kept_file;  // finished rows are kept here, one per line; empty: not kept
};

struct LikelihoodProgress {
  std::size_t done = 0;  // rows, including those taken over from a stopped run
  std::size_t all = 0;
  std::size_t taken_over = 0;
};
// Called from the working threads, one at a time.
using ReportProgress = std::function<void(const LikelihoodProgress&)>;

// Throws std::runtime_error when kept_file cannot be written, std::invalid_argument when the machine has no
// guide.
LikelihoodTable simulate_likelihoods(const Library& library, const FaultGuides& shelf,
                                     const std::string& machine, const LikelihoodPlan& plan,
                                     const ReportProgress& tell = {});

// What no longer fits, one line each; empty when the evidence agrees with this program and content. The first
// machine of every row is simulated again. Causes that no symptom shows and checks that distinguish nothing
// are reported too.
std::vector<std::string> verify_likelihoods(const Library& library, const FaultGuides& shelf,
                                            const std::string& machine, unsigned threads = 0,
                                            const ReportProgress& tell = {});

}  // namespace stirbench::library
