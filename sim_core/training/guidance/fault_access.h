#pragma once

#include <optional>
#include <string>

#include "sim_core/training/grounds.h"
#include "sim_core/training/guidance/advice.h"

// The next hand towards a machine that is as a check or a repair needs it: locked out, proved dead and open;
// open and live with face covered; closed and told to run. Made anew in any state, as advice.h does, by the
// precautions that are judged (machine/fault_work.h, Lapse).
namespace stirbench::training {

// A hand or a wait; none: it is so already.
using NextHand = std::optional<Advice>;

NextHand do_hand(hands::Action hand, std::string now, std::string why, std::string point_at);
NextHand wait_until(std::string now, std::string why);

class FaultAccess {
 public:
  FaultAccess(const Moment& moment, const Grounds& grounds) : moment_(moment), grounds_(grounds) {}

  NextHand at(faults::AccessState wanted) const;
  NextHand closed_up() const;  // panel on, own locks off, supply on; an isolator found off stays off
  NextHand locked_out() const;
  NextHand open_dead() const;  // locked out, panel off, proved dead
  NextHand open_live() const;  // panel off, supply on, face covered
  // Probes and instruments out of hand.
  NextHand hands_empty() const;
  // Told to do this, for so long at least [s].
  NextHand told(Spell wanted, double ripe_s) const;
  // Pressed, once guards, breakers, relays and alarms that the person can put right are.
  NextHand press(std::string_view key) const;
  NextHand breakers_on() const;
  NextHand site_breaker() const;  // the site's own, which is reached with the panel on
  // Wires that were taken off, but for these (index + 1 each; 0: none).
  using Wires = std::array<std::int32_t, machine::most_wires_off>;
  NextHand wires_back(const Wires& but = {}) const;
  // Whether the machine has no supply because somebody left the isolator off before.
  bool found_isolated() const;

 private:
  const machine::State& state() const { return moment_.state; }
  bool isolated() const { return !state().plant.fittings.isolator_on; }
  bool own_lock_holds() const;
  NextHand proved_dead() const;
  NextHand panel_closed() const;
  NextHand tidy() const;
  NextHand relays_back() const;
  NextHand warmed() const;

  const Moment& moment_;
  const Grounds& grounds_;
};

}  // namespace stirbench::training
