#pragma once

#include "sim_core/training/guidance/fault_access.h"

// How each check of a machine's fault guide is made by hands that a person has: a look, a key with the
// display in view, a spoon and a thermometer, gauges, or readings at named places one after another.
namespace stirbench::training {

class FaultChecks {
 public:
  FaultChecks(const Moment& moment, const Grounds& grounds)
      : moment_(moment), grounds_(grounds), access_(moment, grounds) {}

  // Whether the check can be made in this state at all, by hands.
  bool possible(std::size_t question) const;
  // The next hand of it; none when nothing of it is left to do.
  NextHand make(std::size_t question) const;

 private:
  const machine::State& state() const { return moment_.state; }
  bool can_tell(Spell wanted) const;
  NextHand by_sample() const;
  NextHand by_gauges() const;
  NextHand by_thermometer(const GroundsQuestion& how) const;
  NextHand by_meter(const GroundsQuestion& how, const diagnosis::Check& check) const;
  NextHand read(const machine::FaultWork& as, bool unplugged) const;
  NextHand read_wire(const machine::FaultWork& as) const;
  NextHand unplugged(const machine::FaultWork& as) const;
  NextHand take(machine::Instrument tool) const;

  const Moment& moment_;
  const Grounds& grounds_;
  FaultAccess access_;
};

}  // namespace stirbench::training
