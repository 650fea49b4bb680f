#pragma once

#include <span>
#include <string>
#include <string_view>

#include "sim_core/plant/state.h"

// Faults of the safety parts: each changes one part of plant::SafetyParts, and the machine's wiring does the rest.
namespace stirbench::faults {

struct SafetyFault {
  std::string_view id;        // "lid_magnet_taped"
  std::string_view title;     // "Magnet taped to the lid's reed"
  std::string_view wiring;    // what it does, as it is wired
  bool defeat = false;        // done by somebody, on purpose
  bool graded = false;        // its severity 0..1 counts; else it is there or not
  void (*apply)(plant::SafetyParts& parts, double severity) = nullptr;
};

std::span<const SafetyFault> safety_faults();
const SafetyFault* find_safety_fault(std::string_view id);  // nullptr when there is none

// Sets a fault in; empty, or why it cannot: an unknown id, a severity outside 0 .. 1 (0 and not a number included).
std::string set_safety_fault(plant::PlantState& state, std::string_view id, double severity);

}  // namespace stirbench::faults
