#pragma once

#include <string>
#include <vector>

#include "sim_core/control/controller.h"
#include "sim_core/control/recipe.h"
#include "sim_core/faults/fault.h"
#include "sim_core/machine/spills.h"
#include "sim_core/plant/spec.h"
#include "sim_core/product/composition.h"
#include "sim_core/product/rules.h"

// The constant model of one simulated machine: what content describes, resolved and checked by the library.
namespace stirbench::machine {

inline constexpr double tick_s = 0.1;
inline constexpr unsigned ticks_per_second = 10;

// A check of the fault guide that eyes, ears, hands or simple tools do: no reading of an instrument that a
// run has in hand. What it tells is judged beside the run (training/grounds.h).
struct SenseCheck {
  std::string id;
  std::string title;
  double minutes = 0.0;
  faults::AccessState needs = faults::AccessState::standing;
  faults::Who who = faults::Who::anyone;
};

struct Machine {
  plant::MachineSpec plant;
  control::ControlSpec control;
  std::vector<product::Ingredient> ingredients;  // sorted by id
  std::vector<control::Recipe> recipes;  // shipped ones sorted by id, then the user's own sorted by id
  product::Rules rules;                  // what a batch is judged by; they do not affect the run
  std::vector<Chemical> chemicals;       // sorted by id
  std::vector<faults::Fault> faults;     // what can be wrong with it, sorted by id
  std::vector<SenseCheck> checks;        // of its fault guide, in the guide's order
  std::vector<std::string> body_parts;   // ids of what can be pointed at; they do not affect the run
  std::string content_hash;              // 64-bit hex of all content that made this model

  int ingredient_index(const std::string& id) const;  // -1 when unknown
  int chemical_index(const std::string& id) const;
  int recipe_index(const std::string& id) const;
  int fault_index(const std::string& id) const;
  int check_index(const std::string& id) const;
};

}  // namespace stirbench::machine
