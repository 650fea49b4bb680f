#pragma once

#include "sim_core/hands/hand.h"

// Hands on draw valve and agitator, part by part: what the desk shows of them. The rules are the machine's
// (plant/assembly.h); guards and the turning shaft are looked at in part_hands.cpp.
namespace stirbench::hands {

// Everything that hands could do to the parts now, in the order of places and things; none of it is refused.
std::vector<Action> possible_part_work(const Machine& machine, const State& state);

// How a part comes off, in words: "Unscrew it clockwise: a left-hand thread. You need a spanner."
std::string how_off(const plant::PartRule& rule);
// And how it goes on.
std::string how_on(const plant::PartRule& rule);

}  // namespace stirbench::hands
