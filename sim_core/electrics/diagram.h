#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// A machine's circuit as its diagram shows it: parts with named terminals, and numbered wires between them.
// Constant during a run. Letters of parts after IEC 81346-2, terminal marks after EN 50005 and IEC 60445
// (1-2, 3-4 main poles; A1-A2 coil; 11-12, 21-22 break contacts; 95-96, 97-98 overload; U V W windings): from
// memory.
namespace stirbench::electrics {

enum class CircuitPartKind : std::uint8_t {
  supply,    // L1 L2 L3 N PE: the site's three-phase supply with neutral and protective earth, its star point
             // earthed
  isolator,  // 1-2, 3-4, ...: turned by hand
  breaker,   // 1-2, 3-4, ...: trips on overcurrent and, with residual_A, on current that returns another way
  contactor,    // A1-A2 coil; 1-2, 3-4, ...: closed while the coil holds
  overload,     // 1-2, 3-4, ... through; 95-96 opens and 97-98 closes when it has tripped
  guard,        // 11-12, 21-22, ...: closed while all is right (guard, stop button, cut-out, pressure switch)
  element,      // 1-2, PE: heating element
  motor,        // U V W, PE: three-phase, windings in star
  fan,          // L N, PE: single-phase motor
  transformer,  // 1-2 primary, 3-4 secondary
  controller,   // L N supply; H1-H2, D1-D2, C1-C2 outputs; P M 24 V direct; I1..I6 inputs; T1 T2 T3 probe; E1
                // E2 thermistor
  pt100,        // 1; 2 and 3 at the other end: three leads
  ntc,          // 1-2
  strip,        // 1, 2, 3, ...: terminals only
  count
};
std::string_view part_kind_word(CircuitPartKind kind);

// What a part is for; the plant finds it by this.
enum class CircuitRole : std::uint8_t {
  none,
  heat,
  drive,
  chill,
  lid,
  shaft_cover,
  emergency_stop,
  cutout,
  pressure,
  probe,
  evaporator,
  count
};
std::string_view role_word(CircuitRole role);

struct CircuitPart {
  std::string id;  // "K1"
  CircuitPartKind kind = CircuitPartKind::strip;
  CircuitRole role = CircuitRole::none;
  std::string title;         // "Heater contactor"
  std::string place;         // where it sits in the machine, in plain words
  int poles = 0;             // isolator, breaker, contactor, overload, guard; terminals of a strip
  double rated_V = 0.0;      // element, fan, coil, controller, primary side
  double secondary_V = 0.0;  // transformer
  double rated_W = 0.0;      // element, fan, controller
  double rated_VA = 0.0;     // transformer, coil
  double rated_A = 0.0;      // breaker
  double trip_times = 0.0;   // breaker opens at once at this many times rated_A
  double residual_A =
      0.0;  // breaker opens when its poles' currents do not sum to less than this; 0: it does not look
  double power_factor = 0.0;  // coil, fan
  double dc_Ohm =
      0.0;  // winding (each phase), coil, fan, transformer's primary; Pt100 at 0 degC, thermistor at 25 degC
  double secondary_Ohm = 0.0;
  double short_norm = 0.0;       // transformer: share of the voltage that rated current drops
  double beta_K = 0.0;           // thermistor
  double insulation_MOhm = 0.0;  // element, motor, fan: to its PE
};

struct Wire {
  int number = 0;    // as printed on both ends
  std::string from;  // "K1.2"
  std::string to;
};

struct Diagram {
  std::string note;
  std::vector<CircuitPart> parts;
  std::vector<Wire> wires;
  bool empty() const { return parts.empty(); }
};

// Names of a part's terminals in their order: "A1", "A2", "1", "2" ...
std::vector<std::string> terminal_names(const CircuitPart& part);

// The diagram with numbers for names, made once. Throws std::invalid_argument when diagram_problems() is not
// empty.
struct Network {
  struct Terminal {
    std::uint16_t part = 0;
    std::string name;  // "K1.A1"
  };
  struct Join {
    std::uint16_t from = 0;
    std::uint16_t to = 0;
  };
  std::vector<CircuitPart> parts;
  std::vector<Terminal> terminals;   // part by part
  std::vector<std::uint16_t> first;  // by part: its first terminal
  std::vector<Wire> wires;
  std::vector<Join> joins;  // by wire
  double supply_V = 400.0;  // line to line, nominal
  double supply_Hz = 50.0;

  bool empty() const { return parts.empty(); }
  int part(std::string_view id) const;                        // -1: none of that name
  int terminal(std::string_view name) const;                  // "K1.A1"; -1: none
  int wire(int number) const;                                 // index; -1: none
  int by_role(CircuitPartKind kind, CircuitRole role) const;  // first part; -1: none
  std::uint16_t at(int part_index, int terminal_of_part) const {
    return static_cast<std::uint16_t>(first[static_cast<std::size_t>(part_index)] + terminal_of_part);
  }
};
Network make_network(const Diagram& diagram, double supply_V, double supply_Hz);

// What is wrong with a diagram: two parts of one name, wires to terminals that do not exist, a terminal that
// nothing is joined to, parts that no path leads to from the supply, a kind that has to be there once and is
// not. `where` is a key path ("/wires/3/to").
struct DiagramProblem {
  std::string where;
  std::string expected;
  std::string found;
};
std::vector<DiagramProblem> diagram_problems(const Diagram& diagram);

}  // namespace stirbench::electrics
