#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// A recipe as the machine's controller runs it: a list of phases (ISA-88's word), each with its end.
namespace stirbench::control {

enum class PhaseKind : unsigned char {
  heat,   // heat with stirring until the probe shows target_degC
  add,    // keep target_degC, prompt for an addition, wait for the confirmation
  hold,   // keep at or above target_degC without a break for duration_s; restarts when it falls below
  chill,  // cool with stirring until the probe shows target_degC
  age,    // keep at target_degC, stirring from time to time, for duration_s
  keep    // keep cold and draw off until stopped; the recipe's normal end
};

struct Addition {
  std::string ingredient;  // id
  double kg = 0.0;         // for the whole recipe at its own batch size
};

struct Phase {
  std::string id;  // "warm", unique in its recipe
  PhaseKind kind = PhaseKind::heat;
  std::string title;  // "warm"
  double target_degC = 0.0;
  double duration_s = 0.0;          // hold, age
  std::vector<Addition> additions;  // add; for the first phase: what must be in the vat at the start
  std::string instruction;          // add: the prompt on the display
};

struct Recipe {
  std::string id;
  std::string title;
  std::string note;             // one line of what it is
  std::vector<Addition> start;  // in the vat before Run
  std::vector<Phase> phases;
  std::vector<std::string> claims;  // ids of product::HeatRule it claims to meet
  double overshoot_K = 1.0;         // how far the controller aims above a hold's target
};

// Hash of a recipe's id: 64-bit FNV-1a, never 0. It stands for the recipe in the state hash, because the
// index in a machine's list changes when a person adds a recipe.
std::uint64_t recipe_id_hash(std::string_view id);

}  // namespace stirbench::control
