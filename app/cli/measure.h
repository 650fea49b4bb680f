#pragma once

#include <string>
#include <vector>

#include "app/cli/common.h"

namespace stirbench::cli {

struct MeasureOptions {
  std::string machine;
  std::string meter;                 // V~, V=, Ohm, continuity, clamp, insulation, gauges, contact
  std::vector<std::string> between;  // two terminals
  std::vector<int> wires;            // of the clamp
  std::string at;                    // point of the contact thermometer
  std::vector<std::string> demand;   // heat, drive, chill: what the controller's program wants
  std::vector<std::string> faults;   // ID or ID=SEVERITY
  std::string actions;               // played before, until until_s
  double until_s = 0.0;
  double ambient_degC = 22.0;
  double supply_norm = 1.0;
  double probe_degC = -1000.0;  // below -999: as simulated
  double range = 0.0;
  double error = 0.0;
  double test_V = 500.0;
  bool isolated = false;
  bool lid_open = false;
  bool cover_open = false;
  bool unlicensed = false;
  bool list = false;
};

// `stirbench measure`: one reading on the simulated machine.
int measure(const CommonOptions& common, const MeasureOptions& options);

}  // namespace stirbench::cli
