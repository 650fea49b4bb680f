#pragma once

#include "sim_core/electrics/solve.h"

// The branches of the network as contacts stand; used by solve.cpp and settle.cpp only.
namespace stirbench::electrics {

inline constexpr double broken_Ohm = 1.0e9;

struct Branch {
  std::uint16_t a = 0;
  std::uint16_t b = 0;
  Phasor S;                // admittance; not used when joined
  bool joined = false;     // without resistance
  std::int32_t wire = -1;  // index of the wire that it is
};
// I_a .. = stamp over several terminals: rows and columns in the order of `at`.
struct Stamp {
  std::array<std::uint16_t, 4> at{};
  int size = 0;
  std::array<std::array<Phasor, 4>, 4> S{};
};
struct Source {
  std::uint16_t at = 0;
  Phasor volt;
};
struct Injection {
  std::uint16_t at = 0;  // current that comes out of a part here
  double A = 0.0;
};
struct NetworkBranches {
  std::vector<Branch> branches;
  std::vector<Stamp> stamps;
  std::vector<Source> sources;
  std::vector<Injection> injections;
};

struct Solved {
  NetworkBranches assembly;
  Solution solution;
  std::vector<Phasor> joint_A;
};

Solved solve_all(const Network& network, const CircuitInputs& conditions, const Switchgear& gear,
                 Current current, bool sources, const InstrumentBranch* probe);

// The voltages alone, with sources and without an instrument.
std::vector<Phasor> solve_volts(const Network& network, const CircuitInputs& conditions,
                                const Switchgear& gear, Current current);

NetworkBranches assemble(const Network& network, const CircuitInputs& conditions, const Switchgear& gear,
                         Current current, bool sources);

// Factor by which a defect multiplies the resistance of `part` at `pole`; 1 when none does.
double resistance_factor(const Switchgear& gear, int part, int pole);
bool is_dead(const Switchgear& gear, int part);

// Inner numbers of the controller's inputs (choices; a common input circuit).
inline constexpr int controller_inputs = static_cast<int>(input_count);
inline constexpr double input_Ohm = 4700.0;
inline constexpr double probe_source_V = 2.5;
inline constexpr double probe_series_Ohm = 2400.0;
inline constexpr double thermistor_series_Ohm = 10000.0;
inline constexpr double sense_Ohm = 10.0e6;
inline constexpr double controller_V = 24.0;  // direct, on P

}  // namespace stirbench::electrics
