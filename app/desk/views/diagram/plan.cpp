#include "app/desk/views/diagram/plan.h"

#include <algorithm>
#include <cmath>

namespace stirbench::desk::views {

namespace {

namespace w = electrics;

constexpr float same = 0.01F;

// The point of a terminal that is nearest to x.
DiagramPoint towards(const PlannedTerminal& one, float x) {
  return one.bar ? DiagramPoint{std::clamp(x, one.at.x, one.to_x), one.at.y} : one.at;
}

float apart(const PlannedTerminal& a, const PlannedTerminal& b) {
  const DiagramPoint from = towards(a, b.at.x);
  const DiagramPoint to = towards(b, from.x);
  return std::abs(from.x - to.x) + std::abs(from.y - to.y);
}

// Straight where it can be, else down, across and down again.
std::vector<DiagramPoint> route(DiagramPoint from, DiagramPoint to, float turn) {
  if (std::abs(from.x - to.x) < same || std::abs(from.y - to.y) < same) return {from, to};
  const float y = turn >= 0.0F ? turn : 0.5F * (from.y + to.y);
  return {from, {from.x, y}, {to.x, y}, to};
}

PlannedWire plan_wire(const SheetPlan& plan, int wire, int number, int from, int to) {
  const PlannedTerminal* a = nullptr;
  const PlannedTerminal* b = nullptr;
  float least = 1.0e9F;
  for (const PlannedTerminal& one : plan.terminals) {
    if (one.terminal != from) continue;
    for (const PlannedTerminal& other : plan.terminals) {
      if (other.terminal != to || apart(one, other) >= least) continue;
      least = apart(one, other);
      a = &one;
      b = &other;
    }
  }
  if (a == nullptr) return {};
  const DiagramPoint end = towards(*b, towards(*a, b->at.x).x);
  const DiagramPoint begin = towards(*a, end.x);
  float turn = -1.0F;
  for (const library::DiagramTurn& one : plan.sheet->turns) {
    if (one.wire == number) turn = static_cast<float>(one.y);
  }
  return {wire, route(begin, end, turn), a->bar, b->bar};
}

}  // namespace

SheetPlan plan_sheet(const w::Network& network, const library::DiagramSheet& sheet) {
  SheetPlan plan;
  plan.sheet = &sheet;
  for (const library::DiagramSymbol& symbol : sheet.symbols) {
    PlannedSymbol placed{&symbol, network.part(symbol.part), {}};
    for (const library::DiagramPin& pin : symbol.pins) {
      const int terminal = network.terminal(symbol.part + "." + pin.terminal);
      placed.terminals.push_back(terminal);
      const DiagramPoint at{static_cast<float>(pin.x), static_cast<float>(pin.y)};
      plan.terminals.push_back({terminal, at, at.x, false});
    }
    plan.symbols.push_back(std::move(placed));
  }
  for (const library::DiagramBar& bar : sheet.bars) {
    plan.terminals.push_back({network.terminal(bar.terminal),
                              {static_cast<float>(bar.x), static_cast<float>(bar.y)},
                              static_cast<float>(bar.to),
                              true});
  }
  for (std::size_t i = 0; i < network.joins.size(); ++i) {
    PlannedWire wire = plan_wire(plan, static_cast<int>(i), network.wires[i].number, network.joins[i].from,
                                 network.joins[i].to);
    if (wire.wire >= 0) plan.wires.push_back(std::move(wire));
  }
  return plan;
}

int sheet_with(const w::Network& network, const std::vector<library::DiagramSheet>& sheets,
               const std::vector<int>& terminals) {
  int best = -1;
  std::size_t most = 0;
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const SheetPlan plan = plan_sheet(network, sheets[i]);
    std::size_t here = 0;
    for (const int wanted : terminals) {
      const bool shown = std::any_of(plan.terminals.begin(), plan.terminals.end(),
                                     [wanted](const PlannedTerminal& one) { return one.terminal == wanted; });
      if (shown) ++here;
    }
    if (here <= most) continue;
    most = here;
    best = static_cast<int>(i);
  }
  return best;
}

std::vector<int> pictured_terminals(const w::Network& network, const std::string& picture) {
  constexpr std::string_view mark = "terminals:";
  std::vector<int> out;
  if (!picture.starts_with(mark)) return out;
  for (std::size_t at = mark.size(); at <= picture.size();) {
    const std::size_t colon = std::min(picture.find(':', at), picture.size());
    const std::string name = picture.substr(at, colon - at);
    at = colon + 1;
    const int terminal = network.terminal(name);
    if (terminal >= 0) out.push_back(terminal);
    const int part = network.part(name);
    for (std::size_t i = 0; part >= 0 && i < network.terminals.size(); ++i) {
      if (network.terminals[i].part == part) out.push_back(static_cast<int>(i));
    }
  }
  return out;
}

}  // namespace stirbench::desk::views
