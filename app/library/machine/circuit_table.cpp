#include "app/library/tables.h"

// Circuits: content/circuits/ID.json, ID being the machine's.
namespace stirbench::library {

namespace {

using electrics::CircuitPart;
using electrics::CircuitPartKind;
using electrics::CircuitRole;
using electrics::Wire;

template <typename E>
Shape<E> words(std::string_view (*word_of)(E)) {
  std::vector<std::pair<std::string, E>> all;
  for (std::size_t i = 0; i < static_cast<std::size_t>(E::count); ++i)
    all.emplace_back(std::string(word_of(static_cast<E>(i))), static_cast<E>(i));
  return choice<E>(std::move(all));
}

Shape<CircuitPart> part() {
  using S = CircuitPart;
  Object<S> t;
  t.need("id", &S::id, text(2, 6), "Letter and number, as on the diagram: K1.")
      .need("kind", &S::kind, words<CircuitPartKind>(electrics::part_kind_word),
            "What it is; this gives its terminals.")
      .may("role", &S::role, words<CircuitRole>(electrics::role_word),
           "What it serves; the plant and the controller find it by this.")
      .need("title", &S::title, text(2, 90), "Name shown to people.")
      .need("place", &S::place, text(2, 90), "Where it sits in the machine.")
      .may("poles", &S::poles, whole(1, 40), "Contacts of a switching part; terminals of a strip.")
      .may("rated_V", &S::rated_V, number(1.0, 1000.0, "V"),
           "Element, fan, coil, controller; primary side of a transformer.")
      .may("secondary_V", &S::secondary_V, number(1.0, 1000.0, "V"), "Secondary side of a transformer.")
      .may("rated_W", &S::rated_W, number(0.1, 20000.0, "W"), "Element, fan, controller.")
      .may("rated_VA", &S::rated_VA, number(0.1, 5000.0, "VA"), "Transformer; holding power of a coil.")
      .may("rated_A", &S::rated_A, number(0.1, 125.0, "A"), "Breaker.")
      .may("trip_times", &S::trip_times, number(2.0, 30.0, ""),
           "A breaker opens at once above this many times rated_A.")
      .may("residual_A", &S::residual_A, number(0.005, 1.0, "A"),
           "A breaker with it opens when its poles' currents do not cancel.")
      .may("power_factor", &S::power_factor, number(0.05, 1.0, ""), "Coil, fan.")
      .may("dc_Ohm", &S::dc_Ohm, number(0.01, 100000.0, "Ohm"),
           "Each phase of a motor, coil, fan, primary winding; Pt100 at 0 degC, thermistor at 25 degC.")
      .may("secondary_Ohm", &S::secondary_Ohm, number(0.001, 1000.0, "Ohm"), "Secondary winding.")
      .may("short_norm", &S::short_norm, number(0.005, 0.3, ""),
           "Share of a transformer's voltage that its rated current drops.")
      .may("beta_K", &S::beta_K, number(1000.0, 6000.0, "K"), "Thermistor.")
      .may("insulation_MOhm", &S::insulation_MOhm, number(0.001, 5000.0, "MOhm"),
           "From the winding to its PE terminal.");
  return t.shape();
}

Shape<Wire> wire() {
  using S = Wire;
  Object<S> t;
  t.need("number", &S::number, whole(1, 9999), "As printed on both ends.")
      .need("from", &S::from, text(3, 14), "Part and terminal: K1.A1.")
      .need("to", &S::to, text(3, 14), "Part and terminal.");
  return t.shape();
}

}  // namespace

const Object<CircuitFile>& circuit_table() {
  static const Object<CircuitFile> table = [] {
    using S = CircuitFile;
    Object<S> t;
    t.format(1)
        .need("id", &S::id, slug(), "The machine's id; the file's name without .json.")
        .may("note", &S::note, text(0, 2000), "Where the numbers come from.")
        .need("parts", &S::parts, list(part(), 1, 64), "The parts, with their terminals given by their kind.")
        .need("wires", &S::wires, list(wire(), 1, 400), "Each joins two terminals.");
    t.check([](Reader& reader, const S& one) {
      for (const auto& fault : electrics::diagram_problems({one.note, one.parts, one.wires}))
        reader.problem(fault.expected, fault.found, fault.where);
    });
    return t;
  }();
  return table;
}

}  // namespace stirbench::library
