#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "sim_core/hands/action.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// The simulated machine's own panel: display, keys, recipe, target, confirmation.
// Ids: panel.display, panel.message, panel.alarm.N, panel.key.heat|chill|stir|run|stop|rinse, panel.recipe,
// panel.target, panel.confirm, panel.acknowledge, panel.alarms, panel.emergency_stop.
//
// Keys are honest: a key goes down when the mouse goes down and comes up shortly after the mouse lets go, so
// Stop acts at once and clears on release. A finger that stays on a key is a row of presses that follow each
// other without a gap; the last one is let go at most a few tenths of a simulated second after the mouse.
// Enter and Space press and release (0.3 s).
namespace stirbench::desk::views {

// What the panel remembers between frames; nothing of it is the machine's.
struct PanelState {
  std::uint64_t last_tick = 0;       // of the frame before: how far the simulation runs in a frame
  double target_degC = 0.0;          // being entered
  double target_seen_degC = -1.0e9;  // the machine's, when it was last copied
  bool alarms_asked = false;         // the alarms' sheet was asked for in this frame
};

struct PanelInput {
  const machine::Machine& machine;
  const machine::State& state;
  std::string caption{};  // default: "Machine panel"
};

// Draws the panel in `rect` (scrolls when too small) and returns what fingers did, in order.
std::vector<hands::Action> draw_panel(kit::Ui& ui, PanelState& panel, const PanelInput& input,
                                      const kit::Rect& rect);

// Height that shows everything without scrolling.
float panel_height(kit::Ui& ui, float width);

// How long a press has to be for a finger on a key in this frame [s]; 0 when none is needed. `down_now`: the
// key went down in this frame; `held`: the finger is on it; `ticks_passed`: since the frame before;
// `ticks_left`: that the last press still lasts.
double finger_press_s(bool down_now, bool held, std::uint64_t ticks_passed, std::uint32_t ticks_left);

// What the display says below its numbers: one line of what is going on and what the person does about it.
// Plain words, translated.
struct DisplayMessage {
  std::string words;
  bool asks = false;  // the machine waits for a person
};
DisplayMessage display_message(const machine::Machine& machine, const machine::State& state);

// Alarms that stand, the most urgent first: what is wrong and the way out.
struct ShownAlarm {
  std::string title;    // "Lid guard open"
  std::string way_out;  // "Close the lid, then press Stop to clear the alarm."
  bool latched = false;
  bool active = false;
  bool unacknowledged = false;
  int order = 0;  // 1: it came first
};
std::vector<ShownAlarm> shown_alarms(const machine::State& state);

}  // namespace stirbench::desk::views
