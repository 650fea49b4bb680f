#pragma once

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/views/diagram/plan.h"
#include "sim_core/electrics/circuit_state.h"

// Symbols of circuit diagrams after the open standard IEC 60617 (shapes from memory), drawn by ourselves.
namespace stirbench::desk::views {

// Where and how large the sheet is drawn, and what is known of the circuit's state.
struct DiagramCanvas {
  ImDrawList* draw = nullptr;
  ImVec2 origin{0.0F, 0.0F};
  float step = 18.0F;  // pixels of one step of the grid
  float line = 1.6F;
  ImU32 ink = 0;    // symbols
  ImU32 quiet = 0;  // terminal marks
  ImU32 ground = 0;
  // Contacts as they stand now; nullptr: at rest, as diagrams show them.
  const electrics::Switchgear* gear = nullptr;
  const electrics::CircuitInputs* now = nullptr;

  ImVec2 at(DiagramPoint p) const { return {origin.x + p.x * step, origin.y + p.y * step}; }
};

// Whether a pole conducts: at rest, or as the canvas knows it.
bool pole_closed(const DiagramCanvas& canvas, const electrics::Network& network, int part,
                 int upper_terminal);

void draw_symbol(const kit::Ui& ui, const DiagramCanvas& canvas, const electrics::Network& network,
                 const PlannedSymbol& symbol);

}  // namespace stirbench::desk::views
