#include "tests/reference/wiring_fixture.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "app/library/library.h"
#include "tests/support/files.h"

namespace stirbench::tests {

namespace w = electrics;

w::Diagram shipped_diagram() {
  static const library::LoadResult loaded =
      library::load((test_support::source_root() / "content").string(), "");
  REQUIRE(loaded.problems.empty());
  return loaded.library.circuits.at("hm-45");
}

w::Diagram star_diagram(bool neutral, double rated_V, double rated_W) {
  w::Diagram d = shipped_diagram();
  for (w::CircuitPart& part : d.parts) {
    if (part.kind != w::CircuitPartKind::element) continue;
    part.rated_V = rated_V;
    part.rated_W = rated_W;
  }
  for (w::Wire& wire : d.wires) {
    for (const char* element : {"E1.2", "E2.2", "E3.2"}) {
      if (wire.from == element) wire.to = "X9.1";
    }
  }
  w::CircuitPart point;
  point.id = "X9";
  point.kind = w::CircuitPartKind::strip;
  point.poles = 1;
  d.parts.push_back(point);
  if (neutral) d.wires.push_back({900, "X9.1", "X1.4"});
  return d;
}

WiredMachine::WiredMachine() : WiredMachine(shipped_diagram()) {}

WiredMachine::WiredMachine(const w::Diagram& diagram) : network(w::make_network(diagram, 400.0, 50.0)) {
  conditions.switches.set(w::Switch::heat_wanted, true);
  conditions.switches.set(w::Switch::drive_wanted, true);
  conditions.drive_motor = {{0.004, -0.004}, {0.03, -0.04}};
  settle();
}

void WiredMachine::isolate() {
  conditions.switches.set(w::Switch::isolator_on, false);
  settle();
}

std::uint16_t WiredMachine::terminal(const std::string& name) const {
  const int found = network.terminal(name);
  REQUIRE_MESSAGE(found >= 0, name);
  return static_cast<std::uint16_t>(found);
}

int WiredMachine::wire(const std::string& from, const std::string& to) const {
  for (std::size_t i = 0; i < network.wires.size(); ++i) {
    if (network.wires[i].from == from && network.wires[i].to == to) return static_cast<int>(i);
  }
  FAIL("no wire from " << from << " to " << to);
  return -1;
}

void WiredMachine::part_factor(const std::string& part, int pole, double factor) {
  const int found = network.part(part);
  REQUIRE(found >= 0);
  REQUIRE(gear.add({w::DefectKind::resistance_factor, static_cast<std::uint16_t>(found),
                    static_cast<std::uint16_t>(pole), factor}));
  settle();
}

void WiredMachine::wire_Ohm(const std::string& from, const std::string& to, double Ohm) {
  REQUIRE(gear.add({w::DefectKind::wire_Ohm, static_cast<std::uint16_t>(wire(from, to)), 0, Ohm}));
  settle();
}

w::MeterReading WiredMachine::read(w::MeterFunction function, const std::string& a,
                                   const std::string& b) const {
  w::Meter meter;
  return w::multimeter(network, conditions, gear, function, meter, terminal(a), terminal(b));
}

double WiredMachine::amps(const std::string& from, const std::string& to) const {
  const int one = wire(from, to);
  return w::clamp_meter(network, conditions, gear, {}, {&one, 1}).exact;
}

}  // namespace stirbench::tests
