#pragma once

#include <string>
#include <vector>

#include "app/cli/common.h"

namespace stirbench::cli {

struct SimulateOptions {
  std::string machine;
  std::string recipe;
  std::string actions;
  std::vector<std::string> faults;
  double ambient_degC = 22.0;
  double humidity_norm = 0.5;
  double supply_norm = 1.0;
  double frequency_Hz = 50.0;
  std::uint64_t seed = 1;
  double until_s = 0.0;
  std::string trace;
  double every_s = 1.0;
  std::string journal;
  int spread = 0;  // runs with drawn constants, 0: none
  std::string spread_file;
};

// `stirbench simulate`: runs the machine for until_s simulated seconds. Files are written only when the whole
// run succeeded.
int simulate(const CommonOptions& common, const SimulateOptions& options);

// JSON of the machine's state as `simulate --json` prints it (without the run's own times).
nlohmann::json state_json(const machine::Machine& machine, const machine::State& state,
                          const std::vector<machine::Event>& history);

}  // namespace stirbench::cli
