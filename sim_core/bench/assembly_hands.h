#pragma once

#include <string>
#include <vector>

#include "sim_core/bench/hands.h"

// Hands on draw valve and agitator, part by part. The rules are the machine's (plant/assembly.h); guards and the turning shaft are looked at here.
namespace stirbench::bench {

bool is_part_work(ActionKind kind);
std::string why_not_part_work(const Machine& machine, const State& state, const Action& action);
// Returns what eyes and hands learn by it, in words.
std::string do_part_work(const Machine& machine, State& state, const Action& action);

// Everything that hands could do to the parts now, in the order of places and things; none of it is refused.
std::vector<Action> possible_part_work(const Machine& machine, const State& state);

// How a part comes off, in words: "Unscrew it clockwise: a left-hand thread. You need a spanner."
std::string how_off(const plant::PartRule& rule);
// And how it goes on.
std::string how_on(const plant::PartRule& rule);

}  // namespace stirbench::bench
