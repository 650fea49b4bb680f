#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/views/diagram/plan.h"
#include "sim_core/electrics/solve.h"
#include "sim_core/machine/fault_readings.h"
#include "sim_core/machine/fault_work.h"

// One sheet of a circuit diagram, drawn from content: symbols, wires, terminals that can be pressed, probes
// where they are.
namespace stirbench::desk::views {

// Voltages and currents for the picture; kept as long as nothing in the circuit has moved.
struct LiveCircuit {
  machine::CircuitNow circuit;
  electrics::Solution alternating;
  electrics::Solution direct;
  std::vector<std::uint64_t> key;
  bool known = false;
};
// Solves again only when switches, breakers, defects or demands have changed since.
void follow(LiveCircuit& live, const machine::Machine& machine, const machine::State& state);

struct DiagramViewInput {
  const electrics::Network& network;
  const library::DiagramSheet& sheet;
  const machine::FaultWork* work = nullptr;  // probes and wires taken off; nullptr: none
  const LiveCircuit* live = nullptr;         // nullptr: at rest, nothing coloured
  std::vector<int> marked{};                 // terminals to look at
  bool terminals = true;                     // can be pressed
  bool wires = false;                        // wires show their numbers and can be pressed
  float zoom = 1.0F;
  std::string id = "diagram";
};

struct DiagramPress {
  int terminal = -1;
  int wire = -1;
};

// Draws inside `rect`, which scrolls when the sheet is larger.
DiagramPress draw_diagram(kit::Ui& ui, const DiagramViewInput& input, const kit::Rect& rect);

}  // namespace stirbench::desk::views
