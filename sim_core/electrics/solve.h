#pragma once

#include "sim_core/electrics/circuit_state.h"

// The circuit as a nodal network. Wires and closed contacts without resistance join terminals to nodes;
// admittances between the nodes give Y V = I (modified nodal analysis without extra unknowns: the sources are
// stiff, so their nodes are given). Alternating: phasors of effective values at the supply's frequency.
// Direct: the controller's 24 V, and what an ohmmeter drives. Every node leaks 1e-12 S to earth, so that a
// part nobody feeds has a voltage too: none.
namespace stirbench::electrics {

enum class Current : std::uint8_t { alternating, direct };

// An instrument's own branch: a resistor, or (EMF and inner resistance) a source.
struct InstrumentBranch {
  std::uint16_t a = 0;
  std::uint16_t b = 0;
  double S = 0.0;        // conductance between them
  double drive_A = 0.0;  // driven into a and out of b
};

// Solves with contacts as they are in `gear`. `sources` false: the supply and the controller's own sources
// give nothing (what an ohmmeter sees by superposition). Currents in loops of resistance-free wires share as
// equal resistances would.
Solution solve(const Network& network, const CircuitInputs& conditions, const Switchgear& gear,
               Current current, bool sources = true, const InstrumentBranch* probe = nullptr);

// Lets the relays come to rest: coils, breakers, controller; at most 12 rounds, after which whatever still
// chatters counts as open. A coil pulls in from 0.80 of its voltage on and holds down to 0.50 (IEC 60947-4-1
// asks for 0.85 and allows 0.20 .. 0.75; from memory). `gear` is changed. Returns what plant and controller
// get; `alternating`, when given, receives the last solution.
CircuitOutputs settle_relays(const Network& network, const CircuitInputs& conditions, Switchgear& gear,
                             Solution* alternating = nullptr);

// Voltages over the terminals of motor `part`: positive- and negative-sequence phasors (V).
struct Sequence {
  Phasor forward;
  Phasor backward;
};
Sequence sequence_V(const Network& network, const Solution& solution, int part);

}  // namespace stirbench::electrics
