#pragma once

#include <vector>

#include "sim_core/training/guidance/fault_checks.h"

// The advice of a fault lesson: the fault guide's own way as hands. The check that the guide proposes on what
// the person found (Grounds::advice), brought about hand by hand; once one cause is earned it is named,
// mended by who may, and what had failed is run for a minute. Made anew in any state.
//
//   phase   from                                 to
//   find    the start; a machine that was        an earned cause is named
//           mended and still does not work
//   mend    an earned cause that is still in     it was repaired, put right by hand, or a colleague has done
//           the machine                          it
//   prove   something was repaired or put right  the person says that it works
//
// The guide keeps to a proposed check until something was found: changing the access state alone does not
// change its mind.
namespace stirbench::training {

class FaultGuidance {
 public:
  // For a lesson with steps of fault work, and its grounds. What a lesson's step says in its own words stands
  // on its card; this says what to do.
  Advice advise(const Lesson& lesson, const Goals& goals, const Grounds& grounds, const Moment& moment);

 private:
  NextHand find(const Grounds& grounds, const Moment& moment);
  const ProposedCheck& proposal(const Grounds& grounds, const Moment& moment,
                                const std::vector<std::size_t>& left_out);

  struct Kept {
    std::vector<std::size_t> left_out;
    ProposedCheck proposed;
  };
  std::vector<Kept> kept_;
  std::uint64_t version_ = 0;  // of the findings that they were made on
};

// Towards a fault's repair by this person or, where the trade forbids it, by a colleague.
NextHand next_to_mend(const Moment& moment, const Grounds& grounds, const faults::Fault& fault);
// Gives the machine back and lets run what had failed, for a minute and more; then says so.
NextHand next_to_prove(const Moment& moment, const Grounds& grounds);
// The key whose run shows that it works again, while that is asked for; empty: nothing is.
std::string_view key_to_prove(const machine::State& state);

}  // namespace stirbench::training
