#pragma once

#include <vector>

#include "sim_core/identification/least_squares.h"
#include "sim_core/identification/quantities.h"

// From a machine, a batch and a log to a problem of least squares. Internal to this folder.
namespace stirbench::identification {

// What is searched: quantities, and the moments of switchings that a log only brackets.
struct Unknowns {
  std::vector<Quantity> quantities;
  std::vector<std::size_t> switchings;  // indices into the course's spells
  double doubt_s = 0.0;                 // how far each may be from where it stands
};

// The trial with theta put in: logarithms of factors or the unit's own, then seconds of the switchings.
Trial moved(const Trial& from, const Unknowns& unknowns, const std::vector<double>& theta);

// Simulates the trial and reads it where the log has samples: product, then wall, elements, condensing side.
// False when the start is impossible.
bool predict(const Trial& trial, const BatchLog& log, std::vector<double>& predicted);

LeastSquaresProblem problem_of(const Trial& from, const Unknowns& unknowns, const BatchLog& log);

// theta of a quantity's value.
double theta_of(const Trial& from, Quantity quantity, double value);
double value_of(const Trial& from, Quantity quantity, double theta);

// Switchings worth searching: heating or chilling that begins or ends within the log, at most six.
std::vector<std::size_t> uncertain_switchings(const std::vector<Spell>& spells);

}  // namespace stirbench::identification
