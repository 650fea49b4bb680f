#pragma once

#include <span>
#include <string>
#include <string_view>

#include "sim_core/plant/state.h"

// Faults of the safety parts: each changes one part of plant::SafetyParts, and the machine's wiring does the
// rest.
namespace stirbench::faults {

struct SafetyFault {
  std::string_view id;      // "lid_magnet_taped"
  std::string_view title;   // "Magnet taped to the lid's reed"
  std::string_view wiring;  // its effect through the wiring
  bool defeat = false;      // done on purpose
  bool graded = false;      // its severity 0..1 matters; else it is present or not
  void (*apply)(plant::SafetyParts& parts, double severity) = nullptr;
};

std::span<const SafetyFault> safety_faults();
const SafetyFault* find_safety_fault(std::string_view id);  // nullptr when there is none

// Applies a fault. Returns empty, or why it cannot: unknown id, severity not above 0 and at most 1.
std::string inject_safety_fault(plant::PlantState& state, std::string_view id, double severity);

}  // namespace stirbench::faults
