#pragma once

#include <string>
#include <vector>

#include "app/desk/views/diagram/diagram_view.h"
#include "sim_core/bench/step.h"

// The wiring diagram with an instrument in the hand: sheets, probes by click or keys, what the instrument
// shows. Draws from Machine and State values alone and returns what hands want; the caller does it (a run, or
// the good machine of the fault-finding screen).
namespace stirbench::desk::views {

struct WiringState {
  int sheet = 0;
  float zoom = 1.0F;
  bool red_next = true;     // which probe the next terminal gets
  bool wires_off = false;   // wires can be taken off by their numbers
  bool back_asked = false;  // the way back was pressed in this frame
  LiveCircuit live;
};

struct WiringInput {
  const machine::Machine& machine;
  const machine::State& state;
  const std::vector<library::DiagramSheet>& sheets;
  bool show_live = true;      // colour what is live; false where a fault is hidden in it
  std::vector<int> marked{};  // terminals to look at
  std::string id = "wiring";
  std::string back_id{};  // id of a button that leads back; empty: none
};

// Shows the sheet with most of these terminals.
void show_terminals(WiringState& view, const WiringInput& input);

std::vector<hands::Action> draw_wiring(kit::Ui& ui, WiringState& view, const WiringInput& input,
                                       const kit::Rect& rect);

// What the instrument shows, large, with what it means when something went wrong.
void draw_meter_face(kit::Ui& ui, const machine::FaultWork& work, const std::string& id,
                     const kit::Rect& rect);

}  // namespace stirbench::desk::views
