#pragma once

#include "sim_core/hands/hand.h"

// What instruments in the hand show of a machine and its state, and the work clock's own follow-up.
namespace stirbench::hands {

// The circuit as it stands at this moment, the wires that were taken off included, its relays at rest.
struct CircuitNow {
  plant::wiring::Conditions now;
  plant::wiring::Switchgear gear;
};
CircuitNow circuit_now(const Machine& machine, const State& state);

// Takes the reading anew. Does nothing to the machine; consequences are in instrument_hands.cpp.
machine::ToolReading reading_now(const Machine& machine, const State& state);
// "52.9 Ohm", "OL", "2.14 bar low, 9.80 bar high"; "-" before anything was read.
std::string reading_words(const machine::FaultWork& work);
bool probes_placed(const machine::FaultWork& work);
// Alternating voltage of a wire's ends against earth, the greater one [V].
double wire_V(const Machine& machine, const State& state, int wire);

// After the plant's step: the display follows, and what ran is counted for the proof.
void follow_fault_work(const Machine& machine, State& state);

}  // namespace stirbench::hands
