#pragma once

#include <array>
#include <string>
#include <vector>

#include "sim_core/hands/action.h"
#include "sim_core/hands/part_states.h"
#include "sim_core/machine/event.h"

namespace stirbench::bench {

// Everything hands do at the beginning of this tick, in order.
struct Inputs {
  std::vector<hands::Action> actions;
};

struct StartSetup {
  plant::Environment environment;
  std::uint64_t seed = 1;
  // Contents at the start: ingredient id, kg, degC.
  struct Load { std::string ingredient; double kg = 0.0; double degC = 5.0; };
  std::vector<Load> loaded;
  // What is broken or defeated from the start: id of a fault of content (at most four) or of the safety parts (faults/safety.h), severity above
  // 0, at most 1.
  struct Fault { std::string id; double severity = 1.0; };
  std::vector<Fault> faults;
  // Faults of content to be drawn by the seed, each at a severity of its own range; draw_faults() puts them into `faults`.
  struct Drawn { std::vector<std::string> from; int count = 1; };
  Drawn drawn;
  std::string recipe;          // chosen already, may be empty
  std::vector<hands::PartLeft> parts;  // parts that somebody left in a bad state
  Situation situation;         // other people, a stuck isolator, a broken meter
};

// Draws what `setup.drawn` asks for by `setup.seed`, adds it to `setup.faults` and empties `drawn`: the journal then holds what came of it.
void draw_faults(const Machine& machine, StartSetup& setup);

// Throws std::invalid_argument naming the offending value (unknown ingredient or recipe, over the brim).
State initial_state(const Machine& machine, const StartSetup& setup);

// One tick: hands -> read sensors -> controller scan -> relays -> plant -> wear and harms -> events.
// The order's reasons are written in step.cpp. `events` is appended to; no allocation when nothing happens.
void step(const Machine& machine, State& state, const Inputs& inputs, std::vector<Event>& events);

// initial_state without an exception; the answer is empty, or what is wrong with the start.
std::string build_start(const Machine& machine, const StartSetup& setup, State& state);

}  // namespace stirbench::bench
