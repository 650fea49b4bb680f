#pragma once

#include <string>
#include <vector>

#include "sim_core/bench/hands.h"

// What finding and mending faults add to the bench's hands and ticks.
namespace stirbench::bench {

// fault_work_hands.cpp: the actions from take_tool on; why_not has checked ranges already.
bool is_fault_work(ActionKind kind);
std::string why_not_fault_work(const Machine& machine, const State& state, const Action& action);
// Harms that the action itself causes; called with the state before it.
void harms_of_fault_work(const Machine& machine, State& state, const Action& action, std::vector<Event>& events);
// Returns what is seen or noted by it, in words.
std::string do_fault_work(const Machine& machine, State& state, const Action& action);

// fault_mending.cpp: resets, causes, repairs, proof.
bool is_mending(ActionKind kind);
std::string why_not_mending(const Machine& machine, const State& state, const Action& action);
std::string do_mending(const Machine& machine, State& state, const Action& action);

// What was left out when hands or probes go into the open panel.
void note_lapses_in_panel(State& state, bool work);
void count_lapse(State& state, Lapse lapse);
// Alternating voltage of a wire's ends against earth, the greater one [V].
double wire_V(const Machine& machine, const State& state, int wire);

// What a reading of the multimeter, probe by probe, says about the procedure of proving dead; words, or empty.
std::string note_proving(const Machine& machine, State& state);
// The site's own side, before the machine's isolator: reached without taking the machine's panel off.
bool is_site_side(const plant::wiring::Network& network, int part);

// After the plant's step: the display follows, and what ran is counted for the proof.
void follow_fault_work(const Machine& machine, State& state);
// Names that a parameter of these actions takes on this machine; empty for parameters of others.
std::vector<std::string> fault_work_names(const Machine& machine, std::string_view parameter);

}  // namespace stirbench::bench
