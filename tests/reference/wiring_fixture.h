#pragma once

#include <string>
#include <vector>

#include "sim_core/electrics/meter.h"
#include "sim_core/electrics/solve.h"

// A circuit on the test's table: content's diagram, changed where a test wants it, and instruments that know
// terminals by name.
namespace stirbench::tests {

struct WiredMachine {
  electrics::Network network;
  electrics::CircuitInputs conditions;
  electrics::Switchgear gear;
  electrics::CircuitOutputs supplied;

  // The circuit of content/circuits/hm-45.json.
  WiredMachine();
  explicit WiredMachine(const electrics::Diagram& diagram);

  void settle() { supplied = electrics::settle_relays(network, conditions, gear); }
  void isolate();
  // Defects by name.
  void part_factor(const std::string& part, int pole, double factor);
  void wire_Ohm(const std::string& from, const std::string& to, double Ohm);
  int wire(const std::string& from, const std::string& to) const;
  std::uint16_t terminal(const std::string& name) const;

  // Through the instruments, with no error of their own; `exact` is what the test compares.
  electrics::MeterReading read(electrics::MeterFunction function, const std::string& a,
                               const std::string& b) const;
  double volts(const std::string& a, const std::string& b) const {
    return read(electrics::MeterFunction::alternating_V, a, b).exact;
  }
  double direct_volts(const std::string& a, const std::string& b) const {
    return read(electrics::MeterFunction::direct_V, a, b).exact;
  }
  electrics::MeterReading ohms(const std::string& a, const std::string& b) const {
    return read(electrics::MeterFunction::Ohm, a, b);
  }
  double amps(const std::string& from, const std::string& to) const;
};

// The shipped diagram, and one whose three elements are in star, the star point on terminal X9.1; `neutral`:
// joined to X1.4.
electrics::Diagram shipped_diagram();
electrics::Diagram star_diagram(bool neutral, double rated_V, double rated_W);

}  // namespace stirbench::tests
