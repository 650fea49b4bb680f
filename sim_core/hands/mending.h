#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim_core/hands/hand.h"

// Repairs, whoever does them: the person, or a colleague to whom the fault was handed.
namespace stirbench::hands {

// Why nobody else works at the machine or its isolator while a colleague does.
inline constexpr std::string_view colleague_works =
    "Your colleague works on it, behind their own padlock. Wait until they give it back.";

// Whether the repair of `fault` would put something right.
bool would_help(const Machine& machine, const State& state, const faults::Fault& fault);
// Puts right what the repair puts right, and counts it; whether it helped or not, it has to be seen running.
void do_repair(const Machine& machine, State& state, const faults::Fault& fault);
// The cause counts as named.
void put_named(State& state, const std::string& cause_id);

// What keeps a machine from being handed to a colleague as it stands: it runs, or is not made safe as far as
// the person's trade goes. Everybody stops it, isolates it and hangs a tag on it; who may repair hangs their
// own padlock there too and pockets its key (29 CFR 1910.147(f)(3) and (4), from memory: each person is held
// safe by a lock of their own, and the machine is never without one at a change). Empty: it is safe.
std::string why_not_safe(const State& state);
// How the machine was left, for the report: "stopped, isolated, own padlock and tag on".
std::string left_words(const State& state);

// The colleague who was called comes, locks out, works and gives back, each at its time; after the hands of a
// tick.
void advance_hand_over(const Machine& machine, State& state, std::vector<Event>& events);

}  // namespace stirbench::hands
