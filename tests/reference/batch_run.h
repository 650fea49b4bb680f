#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "sim_core/control/controller.h"
#include "tests/reference/machine_ode.h"

// One run of the machine with its controller, by our step and by CVODE: the same right-hand side, the same
// scans each 0.1 s, the same relays and hands.
namespace stirbench::tests {

struct RunPlan {
  std::string name;
  plant::MachineSpec spec;
  plant::PlantState start;
  double seconds = 0.0;
  // Relays that stand all the time; without them the controller runs the recipe, and where that asks for an
  // addition somebody opens the lid, pours, closes, clears the alarm, runs on and confirms.
  std::optional<plant::Actuators> forced;
  std::vector<control::Recipe> recipes;
  product::Ingredient addition;
  double addition_kg = 0.0;
  double addition_degC = 5.0;
};

// Something that is switched or poured at the beginning of a tick.
struct Change {
  std::uint64_t tick = 0;
  plant::Actuators relays;
  bool compressor_on = false;
  bool lid_open = false;
  bool pours = false;
};

// The variables at the beginning of each second, and at the end.
struct Samples {
  std::vector<Variables> each_second;
  std::vector<Change> changes;
  std::uint64_t scans_apart = 0;  // ticks on which the controller would have switched otherwise
  long evaluations = 0;
};

// Our step; `parts` plant steps to a scan. The controller decides; with `given`, its decisions are those.
Samples run_by_step(const RunPlan& plan, int parts = 1, const std::vector<Change>* given = nullptr);
// CVODE: scans read its interpolation, switchings are those of `changes` and begin it anew.
Samples run_by_cvode(const RunPlan& plan, const std::vector<Change>& changes, double tolerance);

// The three runs: a whole batch (8 degC, addition at 40 degC, 85 degC for 30 s, down to 3 degC, kept cold: 4
// h), full heat with the agitator at rest (5 min), a chill from 85 degC from the compressor's start on (1 h).
std::vector<RunPlan> reference_runs();

// Largest difference of any node's temperature, and of the product's mass as a share of it, over all samples.
struct Difference {
  double worst_K = 0.0;
  std::size_t node = 0;
  std::size_t at_s = 0;
  double mass_norm = 0.0;
};
Difference difference(const Samples& a, const Samples& b);

}  // namespace stirbench::tests
