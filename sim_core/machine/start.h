#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim_core/machine/lockout.h"
#include "sim_core/plant/state.h"

namespace stirbench::machine {

// How a run begins.
struct StartSetup {
  plant::Environment environment;
  std::uint64_t seed = 1;
  // Contents at the start: ingredient id, kg, degC.
  struct Load {
    std::string ingredient;
    double kg = 0.0;
    double degC = 5.0;
  };
  std::vector<Load> loaded;
  // What is broken or defeated from the start: id of a fault of content (at most four) or of the safety parts
  // (faults/safety.h), severity above 0, at most 1.
  struct Fault {
    std::string id;
    double severity = 1.0;
  };
  std::vector<Fault> faults;
  // Faults of content to be drawn by the seed, each at a severity of its own range; pick_random_faults() puts
  // them into `faults`.
  struct Drawn {
    std::vector<std::string> from;
    int count = 1;
  };
  Drawn drawn;
  std::string recipe;  // chosen already, may be empty
  // Parts that somebody left in a bad state: place (or "hose_gasket") and how it is (service_hands.h:
  // part_states).
  struct Part {
    std::string part;
    std::string state;
  };
  std::vector<Part> parts;
  Scenario situation;  // other people, a stuck isolator, a broken meter
};

}  // namespace stirbench::machine
