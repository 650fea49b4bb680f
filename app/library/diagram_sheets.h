#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

// How a circuit is drawn: content/diagrams/ID.json says where each symbol's pins are on which sheet. What is
// joined by which wire comes from the circuit alone (content/circuits). Lengths are in steps of the sheet's
// grid.
namespace stirbench::library {

enum class SymbolForm : std::uint8_t {
  terminals,    // a terminal for each pin
  contacts,     // pins in pairs, upper and lower end of a pole; what kind of contact follows from the part
  coil,         // A1, A2
  element,      // 1, 2 beside each other; PE
  motor,        // U, V, W, PE
  fan,          // L, N, PE
  transformer,  // 1, 2 above; 3, 4 below
  box,          // controller: pins on its upper and lower edge
  sensor,       // a resistor that follows temperature; further pins are leads at its second end
  earth,        // protective earth; may be drawn several times
  count
};
std::string_view symbol_form_word(SymbolForm form);

struct DiagramPin {
  std::string terminal;  // of the part: "A1"
  double x = 0.0;
  double y = 0.0;
};

struct DiagramSymbol {
  std::string part;
  SymbolForm form = SymbolForm::terminals;
  std::vector<DiagramPin> pins;
};

// A terminal drawn as a horizontal bar; wires meet it anywhere along it.
struct DiagramBar {
  std::string terminal;  // "X3.1"
  double x = 0.0;
  double to = 0.0;
  double y = 0.0;
};

// Where a wire crosses over, when the middle would run into something.
struct DiagramTurn {
  int wire = 0;
  double y = 0.0;
};

struct DiagramSheet {
  std::string id;
  std::string title;
  double width = 0.0;
  double height = 0.0;
  std::vector<DiagramSymbol> symbols;
  std::vector<DiagramBar> bars;
  std::vector<DiagramTurn> turns;
};

struct DiagramFile {
  std::string id;
  std::vector<std::string> machines;  // whose circuits it draws
  std::string note;
  std::vector<DiagramSheet> sheets;
};

}  // namespace stirbench::library
