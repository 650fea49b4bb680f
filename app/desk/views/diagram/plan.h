#pragma once

#include <string>
#include <vector>

#include "app/library/diagram_sheets.h"
#include "sim_core/electrics/diagram.h"

// Where everything of a sheet stands: terminals by their number, wires as lines. No drawing; lengths in steps
// of the grid.
namespace stirbench::desk::views {

struct DiagramPoint {
  float x = 0.0F;
  float y = 0.0F;
};

struct PlannedTerminal {
  int terminal = -1;  // of the network
  DiagramPoint at;
  float to_x = 0.0F;  // right end of a bar; the same as at.x for a point
  bool bar = false;
};

struct PlannedWire {
  int wire = -1;                   // index in the network
  std::vector<DiagramPoint> line;  // from one terminal to the other, straight pieces along the axes
  bool dot_at_start = false;       // it meets a bar there
  bool dot_at_end = false;
};

struct PlannedSymbol {
  const library::DiagramSymbol* symbol = nullptr;
  int part = -1;
  std::vector<int> terminals;  // by pin
};

struct SheetPlan {
  const library::DiagramSheet* sheet = nullptr;
  std::vector<PlannedSymbol> symbols;
  std::vector<PlannedTerminal> terminals;
  std::vector<PlannedWire> wires;  // those with both ends here
};

// The sheet must outlive the plan.
SheetPlan plan_sheet(const electrics::Network& network, const library::DiagramSheet& sheet);
// First sheet that shows all of these terminals, else the one that shows most of them; -1 without any.
int sheet_with(const electrics::Network& network, const std::vector<library::DiagramSheet>& sheets,
               const std::vector<int>& terminals);
// Terminals that a check's picture names: "terminals:X2.1:X2.2", or all of a part in "terminals:X2".
std::vector<int> pictured_terminals(const electrics::Network& network, const std::string& picture);

}  // namespace stirbench::desk::views
