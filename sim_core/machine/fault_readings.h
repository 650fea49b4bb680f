#pragma once

#include <string>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// What fault work reads off the machine as it stands: minutes, readings, what is still wrong.
namespace stirbench::machine {

inline constexpr double prove_s = 60.0;  // choice: long enough to see contactors, current and sound
inline constexpr double licensed_comes_min = 20.0;  // until a colleague who was called comes (invented)
// What a colleague searches who was told no cause, or one that it is not (choice).
inline constexpr double colleague_search_min = 45.0;

// Minutes of the work clock: the run's own time and what hands took beyond it.
double work_min(const State& state);

// The circuit as it stands at this moment, the wires that were taken off included, its relays at rest.
struct CircuitNow {
  electrics::CircuitInputs now;
  electrics::Switchgear gear;
};
CircuitNow circuit_now(const Machine& machine, const State& state);

// Takes the reading anew. Does nothing to the machine; consequences are in hands/instrument_hands.cpp.
InstrumentReading reading_now(const Machine& machine, const State& state);
// "52.9 Ohm", "OL", "2.14 bar low, 9.80 bar high"; "-" before anything was read.
std::string reading_words(const FaultWork& work);
bool probes_placed(const FaultWork& work);
// Alternating voltage of a wire's ends against earth, the greater one [V].
double wire_V(const Machine& machine, const State& state, int wire);
// After the plant's step: the display follows, and what ran is counted for the proof.
void advance_fault_work(const Machine& machine, State& state);

// How many faults are still in the machine; a misuse counts as gone once the hands' own positions are right
// again.
int faults_left(const Machine& machine, const State& state);
// Whether this one is.
bool is_left(const State& state, const faults::Fault& fault);
// Causes named that were (or are) in the machine, that were not, and those in it that nobody named.
int causes_found(const State& state);
int causes_wrong(const State& state);
int causes_missed(const State& state);

}  // namespace stirbench::machine
