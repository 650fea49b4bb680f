#include "sim_core/electrics/diagram.h"

#include <array>
#include <map>
#include <numeric>
#include <set>
#include <stdexcept>

namespace stirbench::electrics {
namespace {

constexpr std::array<std::string_view, static_cast<std::size_t>(CircuitPartKind::count)> kind_words = {
    "supply", "isolator", "breaker",     "contactor",  "overload", "guard", "element",
    "motor",  "fan",      "transformer", "controller", "pt100",    "ntc",   "strip"};
constexpr std::array<std::string_view, static_cast<std::size_t>(CircuitRole::count)> role_words = {
    "none",           "heat",   "drive",    "chill", "lid",       "shaft_cover",
    "emergency_stop", "cutout", "pressure", "probe", "evaporator"};

void add_poles(std::vector<std::string>& names, int poles) {
  for (int i = 1; i <= 2 * poles; ++i) names.push_back(std::to_string(i));
}

using Index = std::map<std::string, int, std::less<>>;

int root(std::vector<int>& parent, int i) {
  while (parent[static_cast<std::size_t>(i)] != i) i = parent[static_cast<std::size_t>(i)];
  return i;
}

// Contacts of any part count as a path, whatever their position now.
struct Reach {
  std::vector<int> parent;
  explicit Reach(std::size_t count) : parent(count) { std::iota(parent.begin(), parent.end(), 0); }
  void join(int a, int b) { parent[static_cast<std::size_t>(root(parent, a))] = root(parent, b); }
};

struct Need {
  CircuitPartKind kind;
  std::string_view key;
  double CircuitPart::*member;
};
constexpr std::array<Need, 24> needs = {
    Need{CircuitPartKind::breaker, "rated_A", &CircuitPart::rated_A},
    Need{CircuitPartKind::breaker, "trip_times", &CircuitPart::trip_times},
    Need{CircuitPartKind::contactor, "rated_V", &CircuitPart::rated_V},
    Need{CircuitPartKind::contactor, "rated_VA", &CircuitPart::rated_VA},
    Need{CircuitPartKind::contactor, "power_factor", &CircuitPart::power_factor},
    Need{CircuitPartKind::contactor, "dc_Ohm", &CircuitPart::dc_Ohm},
    Need{CircuitPartKind::element, "rated_V", &CircuitPart::rated_V},
    Need{CircuitPartKind::element, "rated_W", &CircuitPart::rated_W},
    Need{CircuitPartKind::motor, "dc_Ohm", &CircuitPart::dc_Ohm},
    Need{CircuitPartKind::fan, "rated_V", &CircuitPart::rated_V},
    Need{CircuitPartKind::fan, "rated_W", &CircuitPart::rated_W},
    Need{CircuitPartKind::fan, "power_factor", &CircuitPart::power_factor},
    Need{CircuitPartKind::fan, "dc_Ohm", &CircuitPart::dc_Ohm},
    Need{CircuitPartKind::transformer, "rated_V", &CircuitPart::rated_V},
    Need{CircuitPartKind::transformer, "secondary_V", &CircuitPart::secondary_V},
    Need{CircuitPartKind::transformer, "rated_VA", &CircuitPart::rated_VA},
    Need{CircuitPartKind::transformer, "short_norm", &CircuitPart::short_norm},
    Need{CircuitPartKind::transformer, "dc_Ohm", &CircuitPart::dc_Ohm},
    Need{CircuitPartKind::transformer, "secondary_Ohm", &CircuitPart::secondary_Ohm},
    Need{CircuitPartKind::controller, "rated_V", &CircuitPart::rated_V},
    Need{CircuitPartKind::controller, "rated_W", &CircuitPart::rated_W},
    Need{CircuitPartKind::pt100, "dc_Ohm", &CircuitPart::dc_Ohm},
    Need{CircuitPartKind::ntc, "dc_Ohm", &CircuitPart::dc_Ohm},
    Need{CircuitPartKind::ntc, "beta_K", &CircuitPart::beta_K}};

void check_numbers(const CircuitPart& part, const std::string& here, std::vector<DiagramProblem>& faults) {
  for (const Need& need : needs) {
    if (need.kind == part.kind && !(part.*need.member > 0.0))
      faults.push_back({here + "/" + std::string(need.key),
                        "a number above 0 for a part of kind " + std::string(part_kind_word(part.kind)),
                        "nothing"});
  }
}

void check_must_have(const Diagram& diagram, std::vector<DiagramProblem>& faults) {
  const auto count = [&](CircuitPartKind kind, CircuitRole role, bool any_role) {
    int n = 0;
    for (const CircuitPart& p : diagram.parts) n += p.kind == kind && (any_role || p.role == role) ? 1 : 0;
    return n;
  };
  const auto once = [&](CircuitPartKind kind, CircuitRole role, bool any_role) {
    const int n = count(kind, role, any_role);
    if (n == 1) return;
    const std::string what =
        std::string(part_kind_word(kind)) + (any_role ? "" : " for " + std::string(role_word(role)));
    faults.push_back({"/parts", "one " + what, std::to_string(n)});
  };
  once(CircuitPartKind::supply, CircuitRole::none, true);
  once(CircuitPartKind::isolator, CircuitRole::none, true);
  once(CircuitPartKind::controller, CircuitRole::none, true);
  for (const CircuitRole role : {CircuitRole::heat, CircuitRole::drive, CircuitRole::chill})
    once(CircuitPartKind::contactor, role, false);
  for (const CircuitRole role : {CircuitRole::drive, CircuitRole::chill})
    once(CircuitPartKind::motor, role, false);
  for (const CircuitRole role :
       {CircuitRole::lid, CircuitRole::shaft_cover, CircuitRole::cutout, CircuitRole::pressure})
    once(CircuitPartKind::guard, role, false);
  once(CircuitPartKind::overload, CircuitRole::drive, false);
  once(CircuitPartKind::pt100, CircuitRole::probe, false);
  if (count(CircuitPartKind::element, CircuitRole::heat, false) < 1)
    faults.push_back({"/parts", "at least one element for heat", "0"});
}

// Terminals without a wire, and parts that no path leads to from the supply.
void check_islands(const Diagram& diagram, const std::vector<std::string>& owner,
                   const std::vector<std::size_t>& part_of, const std::vector<int>& ends, Reach& reach,
                   std::vector<DiagramProblem>& faults) {
  // All terminals of one part are one path for this purpose; only a part without any path to the supply is an
  // island.
  int supply = -1;
  for (std::size_t t = 0; t < owner.size(); ++t) {
    if (t > 0 && part_of[t] == part_of[t - 1]) reach.join(static_cast<int>(t), static_cast<int>(t - 1));
    if (supply < 0 && diagram.parts[part_of[t]].kind == CircuitPartKind::supply) supply = static_cast<int>(t);
  }
  for (std::size_t t = 0; t < owner.size(); ++t) {
    const std::string here = "/parts/" + std::to_string(part_of[t]);
    if (ends[t] == 0) faults.push_back({here, "a wire at terminal " + owner[t], "none"});
    const bool first_of_part = t == 0 || part_of[t] != part_of[t - 1];
    if (first_of_part && root(reach.parent, static_cast<int>(t)) != root(reach.parent, supply))
      faults.push_back({here, "a path from the supply to " + diagram.parts[part_of[t]].id, "none"});
  }
}

}  // namespace

std::string_view part_kind_word(CircuitPartKind kind) { return kind_words[static_cast<std::size_t>(kind)]; }
std::string_view role_word(CircuitRole role) { return role_words[static_cast<std::size_t>(role)]; }

std::vector<std::string> terminal_names(const CircuitPart& part) {
  std::vector<std::string> names;
  switch (part.kind) {
    case CircuitPartKind::supply: return {"L1", "L2", "L3", "N", "PE"};
    case CircuitPartKind::isolator:
    case CircuitPartKind::breaker: add_poles(names, part.poles); break;
    case CircuitPartKind::contactor:
      names = {"A1", "A2"};
      add_poles(names, part.poles);
      break;
    case CircuitPartKind::overload:
      names = {"95", "96", "97", "98"};
      add_poles(names, part.poles);
      break;
    case CircuitPartKind::guard:
      for (int i = 1; i <= part.poles; ++i) {
        names.push_back(std::to_string(i) + "1");
        names.push_back(std::to_string(i) + "2");
      }
      break;
    case CircuitPartKind::element: return {"1", "2", "PE"};
    case CircuitPartKind::motor: return {"U", "V", "W", "PE"};
    case CircuitPartKind::fan: return {"L", "N", "PE"};
    case CircuitPartKind::transformer: return {"1", "2", "3", "4"};
    case CircuitPartKind::controller:
      return {"L",  "N",  "H1", "H2", "D1", "D2", "C1", "C2", "P",  "M", "I1",
              "I2", "I3", "I4", "I5", "I6", "T1", "T2", "T3", "E1", "E2"};
    case CircuitPartKind::pt100: return {"1", "2", "3"};
    case CircuitPartKind::ntc: return {"1", "2"};
    case CircuitPartKind::strip:
      for (int i = 1; i <= part.poles; ++i) names.push_back(std::to_string(i));
      break;
    case CircuitPartKind::count: break;
  }
  return names;
}

int Network::part(std::string_view id) const {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i].id == id) return static_cast<int>(i);
  }
  return -1;
}

int Network::terminal(std::string_view name) const {
  for (std::size_t i = 0; i < terminals.size(); ++i) {
    if (terminals[i].name == name) return static_cast<int>(i);
  }
  return -1;
}

int Network::wire(int number) const {
  for (std::size_t i = 0; i < wires.size(); ++i) {
    if (wires[i].number == number) return static_cast<int>(i);
  }
  return -1;
}

int Network::by_role(CircuitPartKind kind, CircuitRole role) const {
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (parts[i].kind == kind && (role == CircuitRole::none || parts[i].role == role))
      return static_cast<int>(i);
  }
  return -1;
}

std::vector<DiagramProblem> diagram_problems(const Diagram& diagram) {
  std::vector<DiagramProblem> faults;
  if (diagram.parts.size() > 64)
    faults.push_back({"/parts", "at most 64 parts", std::to_string(diagram.parts.size())});
  Index index;
  std::vector<std::string> owner;
  std::vector<std::size_t> part_of;
  std::set<std::string> ids;
  for (std::size_t i = 0; i < diagram.parts.size(); ++i) {
    const CircuitPart& part = diagram.parts[i];
    const std::string here = "/parts/" + std::to_string(i);
    if (!ids.insert(part.id).second)
      faults.push_back({here + "/id", "an id that no other part has", "\"" + part.id + "\" again"});
    const std::vector<std::string> names = terminal_names(part);
    check_numbers(part, here, faults);
    if (names.empty()) faults.push_back({here + "/poles", "at least 1 pole", std::to_string(part.poles)});
    for (const std::string& name : names) {
      index.emplace(part.id + "." + name, static_cast<int>(owner.size()));
      owner.push_back(part.id + "." + name);
      part_of.push_back(i);
    }
  }
  check_must_have(diagram, faults);

  std::vector<int> ends(owner.size(), 0);
  Reach reach(owner.size());
  std::set<int> numbers;
  for (std::size_t i = 0; i < diagram.wires.size(); ++i) {
    const Wire& wire = diagram.wires[i];
    const std::string here = "/wires/" + std::to_string(i);
    if (!numbers.insert(wire.number).second)
      faults.push_back(
          {here + "/number", "a number that no other wire has", std::to_string(wire.number) + " again"});
    const auto end = [&](const std::string& name, const char* key) {
      const auto found = index.find(name);
      if (found != index.end()) return found->second;
      faults.push_back({here + key, "a terminal of a part, such as \"K1.A1\"", "\"" + name + "\""});
      return -1;
    };
    const int from = end(wire.from, "/from");
    const int to = end(wire.to, "/to");
    if (from < 0 || to < 0) continue;
    if (from == to) faults.push_back({here + "/to", "another terminal than from", "\"" + wire.to + "\""});
    ++ends[static_cast<std::size_t>(from)];
    ++ends[static_cast<std::size_t>(to)];
    reach.join(from, to);
  }
  if (faults.empty()) check_islands(diagram, owner, part_of, ends, reach, faults);
  return faults;
}

Network make_network(const Diagram& diagram, double supply_V, double supply_Hz) {
  const std::vector<DiagramProblem> faults = diagram_problems(diagram);
  if (!faults.empty())
    throw std::invalid_argument("circuit" + faults.front().where + ": expected " + faults.front().expected +
                                ", found " + faults.front().found);
  Network out;
  out.parts = diagram.parts;
  out.wires = diagram.wires;
  out.supply_V = supply_V;
  out.supply_Hz = supply_Hz;
  for (std::size_t i = 0; i < diagram.parts.size(); ++i) {
    out.first.push_back(static_cast<std::uint16_t>(out.terminals.size()));
    for (const std::string& name : terminal_names(diagram.parts[i]))
      out.terminals.push_back({static_cast<std::uint16_t>(i), diagram.parts[i].id + "." + name});
  }
  for (const Wire& wire : out.wires)
    out.joins.push_back({static_cast<std::uint16_t>(out.terminal(wire.from)),
                         static_cast<std::uint16_t>(out.terminal(wire.to))});
  return out;
}

}  // namespace stirbench::electrics
