#pragma once

#include "sim_core/hands/hand.h"

// What hands do means for the lock-out procedure: which step is done now, and whether what must come before
// it was.
namespace stirbench::hands {

// A step is done now; done anew when it was out of order before.
void mark(State& state, machine::LockoutStep step);
void unmark(State& state, machine::LockoutStep step);

// Work on the machine begins: the clock of the second person runs from here.
void work_began(State& state);
void isolator_turned_off(State& state);
void isolator_turned_on(State& state);
// A key was pressed: an orderly stop, or a start that was tried.
void note_key(State& state, control::Key key);

// A voltage reading on a source known to be live (returns whether the meter works, in words), and at all
// supply terminals (proving.cpp).
std::string note_source_reading(State& state, bool live);
void note_terminals_reading(State& state, bool live);
// What a reading of the multimeter, probe by probe, says about the procedure of proving dead; words, or
// empty.
std::string note_proving(const Machine& machine, State& state);
// The site's own side, before the machine's isolator: reached without taking the machine's panel off.
bool is_site_side(const electrics::Network& network, int part);

// What was left out when hands or probes go into the open panel.
void note_lapses_in_panel(State& state, bool work);
void count_lapse(State& state, machine::Lapse lapse);

}  // namespace stirbench::hands
