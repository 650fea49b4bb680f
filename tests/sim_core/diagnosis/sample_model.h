#pragma once

#include <cstdint>
#include <string>

#include "sim_core/diagnosis/model.h"
#include "sim_core/machine/random.h"

// A small made-up machine whose tables are exact probabilities (smoothing 0), and a stream of random numbers.
namespace stirbench::tests {

struct Stream : machine::Random {
  explicit Stream(std::uint64_t seed = 1) : machine::Random{seed} {}
};

// `causes` x (one symptom and `checks` two- or three-valued checks), random likelihoods, all rows positive.
diagnosis::Model random_model(Stream& stream, std::size_t causes, std::size_t checks);

// Four causes (element, contactor, fuse, and "lid not shut": used wrong), symptom "heats slowly", three
// checks. The contactor and the fuse answer every check alike.
diagnosis::Model heater_model();

}  // namespace stirbench::tests
