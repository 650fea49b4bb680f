#pragma once

#include <string>
#include <vector>

#include "sim_core/bench/hands.h"

// What lock-out, chemicals and wet floors add to the bench's hands and ticks.
namespace stirbench::bench {

// lockout_steps.cpp: a step is done now; done anew when it was out of order before.
void mark(State& state, LockoutStep step);
void unmark(State& state, LockoutStep step);
void isolator_turned_off(State& state);
void isolator_turned_on(State& state);

// lockout_hands.cpp: the actions from read_energies on; why_not has checked ranges already.
bool is_safe_work(ActionKind kind);
std::string why_not_safe_work(const Machine& machine, const State& state, const Action& action);
// What these things add to the reasons against the other actions; empty when nothing.
std::string why_not_beside(const State& state, const Action& action);
// Returns what hands and eyes learn by it, in words.
std::string do_safe_work(const Machine& machine, State& state, const Action& action);
// What an action of the older kind means for the procedure; called after it was done.
void note_action(State& state, const Action& action);

// proving.cpp: a voltage reading on a source known to be live (returns whether the meter works, in words), and at all supply terminals.
std::string note_source_reading(State& state, bool live);
void note_terminals_reading(State& state, bool live);

// spill_hands.cpp: floor, bucket and what people wear.
bool is_spill_work(ActionKind kind);
std::string why_not_spill_work(const Machine& machine, const State& state, const Action& action);
std::string do_spill_work(const Machine& machine, State& state, const Action& action);

// other_people.cpp: after hands, before the sensors.
void other_people(const Machine& machine, State& state, std::vector<Event>& events);
// Capacitor and hose, after the plant's step.
void stored_energies(const Machine& machine, State& state);

}  // namespace stirbench::bench
