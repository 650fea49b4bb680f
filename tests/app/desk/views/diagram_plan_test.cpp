#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <string>

#include "app/desk/views/diagram/plan.h"
#include "app/desk/views/diagram/symbols.h"
#include "app/library/library.h"
#include "tests/support/files.h"

// Where symbols and wires of the shipped diagrams stand: everything of the circuit is drawn, and no line lies
// through what it does not join.
namespace {

using namespace stirbench;
using desk::views::DiagramPoint;
using desk::views::PlannedTerminal;
using desk::views::PlannedWire;

const library::Library& content() {
  static const library::Library loaded = [] {
    library::LoadResult result = library::load((test_support::source_root() / "content").string(), "");
    for (const auto& problem : result.problems) FAIL(problem.text());
    return std::move(result.library);
  }();
  return loaded;
}

bool on_line(const PlannedWire& wire, DiagramPoint p) {
  for (std::size_t i = 0; i + 1 < wire.line.size(); ++i) {
    const DiagramPoint a = wire.line[i], b = wire.line[i + 1];
    const bool x_in = p.x >= std::min(a.x, b.x) - 0.05F && p.x <= std::max(a.x, b.x) + 0.05F;
    const bool y_in = p.y >= std::min(a.y, b.y) - 0.05F && p.y <= std::max(a.y, b.y) + 0.05F;
    if (x_in && y_in) return true;
  }
  return false;
}

}  // namespace

TEST_CASE(
    "each wire of each circuit is drawn, with straight pieces along the axes, from its own terminal to its "
    "own terminal") {
  REQUIRE(content().diagrams.size() == content().machines.size());
  for (const auto& [id, sheets] : content().diagrams) {
    const auto& network = content().network(id);
    std::set<int> drawn;
    for (const auto& sheet : sheets) {
      const desk::views::SheetPlan plan = desk::views::plan_sheet(network, sheet);
      for (const PlannedWire& wire : plan.wires) {
        drawn.insert(wire.wire);
        REQUIRE(wire.line.size() >= 2);
        for (std::size_t i = 0; i + 1 < wire.line.size(); ++i) {
          const bool along = std::abs(wire.line[i].x - wire.line[i + 1].x) < 0.02F ||
                             std::abs(wire.line[i].y - wire.line[i + 1].y) < 0.02F;
          CHECK_MESSAGE(along,
                        sheet.id << ": wire " << network.wires[static_cast<std::size_t>(wire.wire)].number);
        }
      }
    }
    CHECK(drawn.size() == network.wires.size());
  }
}

TEST_CASE(
    "no wire lies across a terminal that is not its own, and none lies upon another that it is not joined "
    "to") {
  for (const auto& [id, sheets] : content().diagrams) {
    const auto& network = content().network(id);
    for (const auto& sheet : sheets) {
      const desk::views::SheetPlan plan = desk::views::plan_sheet(network, sheet);
      for (const PlannedWire& wire : plan.wires) {
        const auto& join = network.joins[static_cast<std::size_t>(wire.wire)];
        const int number = network.wires[static_cast<std::size_t>(wire.wire)].number;
        for (const PlannedTerminal& one : plan.terminals) {
          if (one.bar || one.terminal == join.from || one.terminal == join.to) continue;
          CHECK_MESSAGE(!on_line(wire, one.at),
                        id << ", " << sheet.id << ": wire " << number << " over "
                           << network.terminals[static_cast<std::size_t>(one.terminal)].name);
        }
        for (const DiagramPoint& point : wire.line) {
          CHECK(point.x >= 0.0F);
          CHECK(point.x <= static_cast<float>(sheet.width));
          CHECK(point.y <= static_cast<float>(sheet.height));
        }
      }
    }
  }
}

TEST_CASE("a check's picture names terminals, and the sheet that shows them is found") {
  const auto& network = content().network("hm-45");
  const auto& sheets = content().diagrams.at("hm-45");
  const auto strip = desk::views::pictured_terminals(network, "terminals:X2");
  CHECK(strip.size() == 3);
  CHECK(sheets[static_cast<std::size_t>(desk::views::sheet_with(network, sheets, strip))].id == "loads");
  const auto two = desk::views::pictured_terminals(network, "terminals:K3.A1:K3.A2");
  REQUIRE(two.size() == 2);
  CHECK(sheets[static_cast<std::size_t>(desk::views::sheet_with(network, sheets, two))].id == "control");
  CHECK(desk::views::pictured_terminals(network, "agitator").empty());
  CHECK(desk::views::pictured_terminals(network, "terminals:NO.1").empty());
  CHECK(desk::views::sheet_with(network, sheets, {}) == -1);
}

TEST_CASE("contacts are drawn as they are in the machine") {
  // EN 50005 and IEC 60617 (from memory): diagrams show contacts at rest; 95-96 breaks and 97-98 makes when
  // an overload relay trips.
  const auto& network = content().network("hm-45");
  const auto terminal = [&](const char* name) { return network.terminal(name); };
  desk::views::DiagramCanvas rest;
  CHECK_FALSE(desk::views::pole_closed(rest, network, network.part("K1"), terminal("K1.1")));
  CHECK(desk::views::pole_closed(rest, network, network.part("F5"), terminal("F5.95")));
  CHECK_FALSE(desk::views::pole_closed(rest, network, network.part("F5"), terminal("F5.97")));
  electrics::Switchgear gear;
  electrics::CircuitInputs now;
  gear.pulled_in = std::uint64_t{1} << static_cast<unsigned>(network.part("K1"));
  gear.tripped = std::uint64_t{1} << static_cast<unsigned>(network.part("F2"));
  now.switches.set(electrics::Switch::overload_tripped, true);
  now.switches.set(electrics::Switch::lid_closed, false);
  desk::views::DiagramCanvas live;
  live.gear = &gear;
  live.now = &now;
  CHECK(desk::views::pole_closed(live, network, network.part("K1"), terminal("K1.1")));
  CHECK_FALSE(desk::views::pole_closed(live, network, network.part("K2"), terminal("K2.1")));
  CHECK_FALSE(desk::views::pole_closed(live, network, network.part("F2"), terminal("F2.1")));
  CHECK(desk::views::pole_closed(live, network, network.part("F1"), terminal("F1.1")));
  CHECK_FALSE(desk::views::pole_closed(live, network, network.part("F5"), terminal("F5.95")));
  CHECK(desk::views::pole_closed(live, network, network.part("F5"), terminal("F5.97")));
  CHECK_FALSE(desk::views::pole_closed(live, network, network.part("S1"), terminal("S1.11")));
  CHECK(desk::views::pole_closed(live, network, network.part("S2"), terminal("S2.11")));
}
