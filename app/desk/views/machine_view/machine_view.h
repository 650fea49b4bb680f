#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/desk/kit/widgets/ui.h"
#include "sim_core/hands/action.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// The machine as an animated cutaway. Drawn from Machine and State values alone; nothing is simulated here.
// What moves (blades, flow, steam, the lid) moves at the rate that the state shows; where it stands at the
// moment is the only thing kept in MachineMotion.
//
//   motion.advance(machine, state, ui.dt_s, running, ui.reduced_motion);            once a frame
//   const MachineRequests wants = draw_machine(ui, {machine, state, motion}, rect);
//   for (const hands::Action& a : hands_of(wants, state)) run.act(a);
namespace stirbench::desk::views {

// Phases of everything that moves. Advancing by a time in one go or in many small steps gives the same
// picture.
struct MachineMotion {
  double agitator_rad = 0.0;  // 0 .. 2 pi
  double flow_m = 0.0;        // way of a particle in the loop, 0 .. 1
  double draw_m = 0.0;        // the same in the draw line
  double dasher_rad = 0.0;    // the freezer's, slowed down to what the eye can follow
  double steam_s = 0.0;       // clock of wisps and bubbles
  double lid_norm = 0.0;      // 0 closed .. 1 open, eased towards what the state says
  double cover_norm = 0.0;
  bool seen = false;  // the first state that is shown is not eased into

  // `seconds` of wall time, >= 0. `running` false: simulated time stands still, only lid and cover go home.
  void advance(const machine::Machine& machine, const machine::State& state, double seconds, bool running,
               bool reduced_motion);
};

// Whether the picture of this state changes by itself while simulated time runs: agitator, flow, draw, steam,
// or a lid on its way.
bool machine_animating(const machine::State& state, const MachineMotion& motion, bool running,
                       bool reduced_motion);

// Something hands can do to a part, for the solid view's card of that part.
struct PartChoice {
  std::string part;  // id in the body
  std::string label;
  std::string how;
  hands::Action action;
  std::string key{};  // of its control; the action's name when empty
};

struct MachineViewInput {
  const machine::Machine& machine;
  const machine::State& state;
  const MachineMotion& motion;
  bool interactive = true;     // hot-spots; false: a picture (debrief, lists)
  bool labels = true;          // leader lines with values; left out by itself where there is no room
  std::string pouring{};       // title of an ingredient in hand: the vat takes it ("" none)
  std::string id = "machine";  // prefix of the hot-spots: machine.lid, machine.shaft_cover,
                               // machine.draw_valve, machine.pail, machine.vat
  std::optional<double>
      draw_opening_norm{};                 // as asked for, before the tick that does it; empty: the state's
  bool senses_only = false;                // labels tell nothing that eyes beside the machine do not see
  bool asks_for_parts = false;             // the solid view gives no names away, and a click only chooses
  std::vector<PartChoice> part_choices{};  // the solid view offers them on the chosen part
  float foot_taken = 0.0F;  // px at the right of the foot, beside the switch of views, where the screen puts
                            // a button of its own
};

// What a person asked of the picture in this frame.
struct MachineRequests {
  bool toggle_lid = false;
  bool toggle_shaft_cover = false;
  std::optional<double>
      draw_opening_norm;  // dragging the handle, Shift + arrows, or a click (shut <-> half open)
  bool pail = false;      // clicked: the caller offers what can be done with it
  bool vat = false;       // clicked with empty hands (a sample, a look)
  bool pour = false;      // clicked or dropped on while `pouring`
  std::vector<hands::Action> part_work{};  // what was chosen on a part's card
};

// Draws inside `rect` (stage and floor included) and returns what was asked.
MachineRequests draw_machine(kit::Ui& ui, const MachineViewInput& input, const kit::Rect& rect);

// Lid, cover and draw valve as hands do them; pail, vat and pour are the caller's to decide.
std::vector<hands::Action> hands_of(const MachineRequests& wants, const machine::State& state);

}  // namespace stirbench::desk::views
