#pragma once

#include <cstdint>
#include <string>

#include "sim_core/diagnosis/model.h"

// A small made-up machine whose tables are exact probabilities (smoothing 0), and a stream of random numbers.
namespace stirbench::tests {

struct Stream {
  std::uint64_t word = 1;
  double uniform() {
    word += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = word;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return static_cast<double>((z ^ (z >> 31)) >> 11) * 0x1.0p-53;
  }
};

// `causes` x (one symptom and `checks` two- or three-valued checks), random likelihoods, all rows positive.
diagnosis::Model random_model(Stream& stream, std::size_t causes, std::size_t checks);

// Four causes (element, contactor, fuse, and "lid not shut": used wrong), symptom "heats slowly", three checks. The contactor and the
// fuse answer every check alike.
diagnosis::Model heater_model();

}  // namespace stirbench::tests
