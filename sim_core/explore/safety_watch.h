#pragma once

#include <memory>
#include <vector>

#include "sim_core/bench/step.h"
#include "sim_core/explore/invariants.h"

// A watch beside the step: judges each tick of a run by the invariants. Not part of the state; it can be made
// again from a journal.
namespace stirbench::explore {

using machine::Machine;
using machine::State;

struct Breach {
  Invariant invariant = Invariant::no_motion_with_guard_open;
  std::uint64_t tick = 0;   // of the first time
  std::uint64_t ticks = 0;  // how many in all
};

class SafetyWatch {
 public:
  // `wiring`: answers about this machine's wiring, to share between watches of one thread; made anew when
  // there is none.
  explicit SafetyWatch(const Machine& machine, std::shared_ptr<electrics::SwitchingTable> wiring = {});
  // After each step, with that tick's events.
  void see(const State& state, const std::vector<machine::Event>& events);
  // At the end of a run: tries on a copy whether the machine can be made to run again as people would do it:
  // remove the causes, clear, start. Takes up to an hour of simulated time for things to cool. Not tried
  // after an injury.
  void check_recovery(const State& state);
  const std::vector<Breach>& breaches() const {
    return breaches_;
  }  // each invariant once, in the order of the first time

 private:
  void note(InvariantSet broken, std::uint64_t tick);

  const Machine* machine_;
  std::shared_ptr<electrics::SwitchingTable> wiring_;
  GroundTruth before_;
  std::array<std::uint32_t, control::key_count> fingers_before_{};  // ticks left
  // Test buttons that were pushed and not reset: the cause as far as the part's own contact is concerned.
  bool tested_overload_ = false, tested_cutout_ = false, tested_pressure_ = false;
  std::vector<Breach> breaches_;
};

}  // namespace stirbench::explore
