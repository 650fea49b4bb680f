#pragma once

#include <string>
#include <vector>

#include "sim_core/explore/explore_state.h"
#include "sim_core/hands/action.h"

// What can happen between two scans of the exploration: hands, faults of the process, the supply, a probe
// that reads something else.
namespace stirbench::explore {

enum class Stimulus : std::uint8_t {
  none,
  press_heat,
  press_chill,
  press_stir,
  press_run,
  press_stop,
  press_rinse,
  release_heat,
  release_chill,
  release_stir,
  release_run,
  release_stop,
  release_rinse,
  open_lid,
  close_lid,
  open_cover,
  close_cover,
  stop_in,
  stop_out,
  isolate,
  feed,
  trip_overload,
  reset_overload,
  trip_cutout,
  reset_cutout,
  trip_pressure,
  pressure_right,
  wire_opens,
  wire_closes,
  choose,
  confirm,
  acknowledge,
  probe_cold,
  probe_hot,
  count
};

// One scan's worth: one thing, or two in the same scan.
struct Move {
  Stimulus first = Stimulus::none;
  Stimulus second = Stimulus::none;
};

// How far the exploration goes.
struct ExplorationScope {
  bool recipe = true;  // choose, run, confirm, phases, probe
  int fingers =
      2;  // keys that are down at once, at most; two start keys only when they were pressed in the same scan
  bool wire = false;        // the loose wire may open and close
  std::uint64_t never = 0;  // steps that do not happen, one bit each
};
constexpr std::uint64_t stimulus_bit(Stimulus step) {
  return std::uint64_t{1} << static_cast<unsigned>(step);
}
// Steps of one cause after another, for a smaller exploration.
inline constexpr std::uint64_t no_trips = stimulus_bit(Stimulus::trip_overload) |
                                          stimulus_bit(Stimulus::trip_cutout) |
                                          stimulus_bit(Stimulus::trip_pressure);

const std::vector<Move>& all_moves();
// Does the move's hands and faults to the node and fills the panel and the probe's reading; false when it
// cannot be done there.
bool apply(const ControllerModel& rig, const ExplorationScope& scope, const Move& move, ExplorationNode& node,
           control::PanelInputs& panel, double& probe_degC);

// Whether it can be made, without making it.
bool can_happen(const ControllerModel& rig, const ExplorationScope& scope, const Move& move,
                const ExplorationNode& node);

// What a person would do next to get it running again from here; Step::none when it runs.
Stimulus recovery_step(const ControllerModel& rig, const ExplorationNode& node);

// The sequence as an actions file's entries: one move a tick, from `begin_s` on. A probe that reads something
// else, and a wire, are no hands: they are left out, and `exact` becomes false.
std::vector<hands::TimedAction> as_actions(const std::vector<Move>& moves, const std::string& recipe,
                                           double begin_s, bool& exact);

}  // namespace stirbench::explore
