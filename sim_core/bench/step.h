#pragma once

#include <string>
#include <vector>

#include "sim_core/hands/action.h"
#include "sim_core/machine/event.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/start.h"
#include "sim_core/machine/state.h"

namespace stirbench::bench {

using machine::Machine;
using machine::StartSetup;
using machine::State;

// All actions at the beginning of this tick, in order.
struct Inputs {
  std::vector<hands::Action> actions;
};

// Picks the faults that `setup.drawn` describes by `setup.seed`, adds them to `setup.faults` and empties
// `drawn`, so that the journal holds the result.
void pick_random_faults(const Machine& machine, StartSetup& setup);

// initial_state without an exception; the answer is empty, or what is wrong with the start.
std::string build_start(const Machine& machine, const StartSetup& setup, State& state);

// Throws std::invalid_argument naming the offending value (unknown ingredient or recipe, over the brim).
State initial_state(const Machine& machine, const StartSetup& setup);

// One tick: hands -> read sensors -> controller scan -> relays -> plant -> wear and harms -> events.
// The order's reasons are written in step.cpp. `events` is appended to; no allocation when nothing happens.
void step(const Machine& machine, State& state, const Inputs& inputs, std::vector<machine::Event>& events);

}  // namespace stirbench::bench
