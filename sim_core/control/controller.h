#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

#include "sim_core/control/alarms.h"
#include "sim_core/control/interlock_rules.h"
#include "sim_core/control/recipe.h"
#include "sim_core/plant/state.h"

// The machine's own controller: keys, modes, latching guard alarms, set points, recipe phases, timers.
// `scan` is called once a tick: (spec, recipes, readings, keys) -> outputs. All memory is in ControlState.
//
// Rules of stopping and starting, informed by ISO 13849-1 cl. 5.2.2 and 5.2.3, IEC 60204-1 cl. 9.2.2 and ISO
// 14118 as summarised in secondary texts (no claim of conformity):
//  * A guard that opens while anything is commanded removes drive (with its pump) and heat at once: by the
//    wiring (plant/electrical_link.h), whatever the scan says, and in the scan, which also stops the chiller
//    and latches the alarm.
//  * A guard that is opened while nothing is commanded stops nothing. Its alarm stands while the guard is
//    open and goes with it; starting is refused meanwhile. (So a person may fill the vat in standby and close
//    the lid.)
//  * Closing the guard clears no latched alarm and starts nothing.
//  * Stop acts when it is pressed: everything off (category 0). Latched alarms clear when Stop is RELEASED,
//    and only if it was freshly pressed after every cause had gone and none came back meanwhile. A key held
//    or jammed since before the guard closed does not count: it has to be released and pressed again. All
//    latched alarms clear together or not at all.
//  * Clearing starts nothing: the mode is then paused (a recipe is under way) or standby, until a start key
//    is pressed.
//  * Start keys act on a fresh press, one at a time, and are refused with a reason while an alarm is active
//    or latched, or Stop is down.
//  * The emergency stop cuts drive, heat and chiller by a contactor of its own, and the scan stops all and
//    latches. Releasing the button starts nothing and clears nothing: Stop clears, then a start key starts.
//  * A fresh press of Stop also acknowledges the alarms (control/alarms.h).
//  * Power that returns starts nothing: mode paused or standby, alarm `power_returned` latched; a key that
//    was down when power returned is ignored until it has been released.
namespace stirbench::control {

enum class Key : std::uint8_t { heat, chill, stir, run, stop, rinse, count };
inline constexpr std::size_t key_count = static_cast<std::size_t>(Key::count);
std::string_view key_name(Key key);   // "heat": the word used in actions files
int find_key(std::string_view name);  // index of a key, -1 when there is none of that name

enum class Mode : std::uint8_t {
  off,       // no supply
  standby,   // nothing runs, ready
  heating,   // by the Heat key to the hand-set target, which is then kept
  chilling,  // by the Chill key to the hand-set target, which is then kept
  stirring,  // agitator and pump only
  running,   // a recipe's phase
  paused,    // a recipe was stopped on the way; Run continues it
  rinsing    // agitator and pump without heating or chilling, to circulate rinse water
};
std::string_view mode_name(Mode mode);
bool mode_moves(Mode mode);  // whether anything is commanded in this mode

// How the heat is held at its target: on and off within a band, or a share of each cycle that settles where
// the losses are.
enum class HoldControl : std::uint8_t { two_point, proportional };
std::string_view hold_control_name(HoldControl hold);

// Constants of a machine's controller, from its machine file.
struct ControlSpec {
  // Width of the on-off bands [K], > 0. Narrower: steadier temperature, more switching.
  double heat_hysteresis_K = 0.5;
  double chill_hysteresis_K = 0.5;
  double lowest_target_degC = 1.0;  // targets entered by hand must lie in lowest..highest
  double highest_target_degC = 95.0;
  double default_heat_degC = 85.0;  // what Heat and Chill aim at before a target was entered
  double default_chill_degC = 3.0;
  double age_stir_on_s = 60.0;    // age and keep: the agitator turns this long ...
  double age_stir_off_s = 240.0;  // ... and rests this long, unless the chiller runs
  double prompt_ahead_s =
      0.0;  // the display asks for an addition about this long before its temperature is reached
  // How far the demand looks ahead along the probe's slope [s], >= 0: heat already in the elements and the
  // wall still arrives after the contactor opens. About (heat capacity of elements and wall) / (contact W/K)
  // plus the probe's lag. Too small overshoots; too large approaches the target in several pulses.
  double heat_lead_s = 30.0;
  double chill_lead_s = 15.0;
  // Taper, so that the wall is not driven into boiling at the end: nearer to the target than heat_taper_K the
  // elements are on for a part of each cycle, which falls in proportion from 1 to heat_least_norm. 0 K: none.
  double heat_taper_K = 0.0;
  double heat_least_norm = 1.0;
  double heat_cycle_s = 10.0;
  // Proportional with integral action: share of the cycle = (aim - probe ahead) / hold_band_K + what the
  // integral has found, 0 .. 1. It starts from hold_bias_norm and moves by that quotient in hold_reset_s.
  HoldControl hold_control = HoldControl::two_point;
  double hold_band_K = 0.0;
  double hold_reset_s = 0.0;
  double hold_bias_norm = 0.0;
  AlarmRules alarms{};  // what may be shelved, what is suppressed or out of service
};

struct ControlState {
  Mode mode = Mode::standby;
  double target_degC = 0.0;  // the hand-set target on the display: last entered, or taken by Heat or Chill
  double heat_target_degC = 85.0;  // what Heat goes to
  double chill_target_degC = 3.0;  // what Chill goes to
  std::int32_t recipe =
      -1;  // index in Machine::recipes, -1 none chosen; the hash sees recipe_id_hash instead
  std::uint64_t recipe_id_hash = 0;  // of its id (control/recipe.h), 0 none chosen
  std::int32_t phase = -1;           // index in the recipe, -1 not started
  bool confirmed = false;            // addition of the current add phase confirmed
  bool recipe_done = false;          // reached its keep phase (or its end)
  std::uint64_t phase_ticks = 0;     // since this phase began (powered or not)
  std::uint64_t hold_ticks = 0;      // hold: consecutive scans at or above target; age: all scans cold enough
  std::uint64_t cycle_ticks = 0;     // stirring cycle in age and keep
  bool heat_demand = false;          // hysteresis memory
  std::uint64_t heat_ticks = 0;      // since the demand came
  double heat_integral_norm = 0.0;   // proportional: the share that the integral has found
  bool chill_demand = false;
  std::array<bool, key_count> key_down{};  // level of last scan, for edges
  std::array<bool, key_count>
      key_armed{};  // Stop only: pressed freshly with every cause right, clears on release
  std::array<Alarm, alarm_count> alarms{};
  bool had_supply = true;
  bool probe_seen = false;          // the two below are valid
  double probe_before_degC = 0.0;   // last scan's reading
  double probe_rate_K_per_s = 0.0;  // smoothed slope
};

// A controller that has been on for a long time without being used: standby, default targets.
ControlState initial_state(const ControlSpec& spec);

struct Outputs {
  double heat_norm = 0.0;
  bool drive = false;
  bool chill = false;
};

// Keys held down this tick, plus the display's own entries.
struct PanelInputs {
  std::array<bool, key_count> key{};
  bool confirm = false;
  bool set_target = false;
  double target_degC = 0.0;
  std::int32_t choose_recipe = -1;  // >= 0: choose
  // Alarms by their index; `nothing` is no entry, acknowledge -1 means all of them.
  static constexpr std::int32_t nothing = -2;
  std::int32_t acknowledge = nothing;
  std::int32_t shelve = nothing;
  double shelve_s = 0.0;
  std::int32_t unshelve = nothing;
};

// What a scan decided, for the journal, the hints and monitors. Refusals carry a reason.
enum class Notice : std::uint8_t {
  none,
  alarm_raised,
  alarm_cleared,
  phase_began,
  recipe_finished,
  mode_changed,
  hold_restarted,
  refused,
  alarm_state  // an alarm changed its state: reason names the new one
};
struct ScanNotice {
  Notice kind = Notice::none;
  std::int32_t subject = -1;  // AlarmId, phase index, Mode; refused: Key, or -1 for a display entry
  std::string_view reason;    // static text
};
// Of one scan: most say nothing, so that an empty list costs nothing.
using ScanNotices = std::vector<ScanNotice>;

struct ScanContext {
  const ControlSpec& spec;
  std::span<const Recipe> recipes;  // what ControlState::recipe and PanelInputs::choose_recipe index
  double tick_s;                    // time between scans [s], > 0
  std::uint64_t tick;
  OmittedRules without = 0;  // rules left out: for exploration alone
};

// One scan, in the order written in controller.cpp. Never throws; nothing is allocated.
Outputs scan(const ScanContext& context, ControlState& state, const plant::SensorReadings& readings,
             const PanelInputs& panel, ScanNotices& notices);

bool any_latched(const ControlState& state);
bool any_unacknowledged(const ControlState& state);  // shelved ones do not count
// The phase the recipe is in, nullptr when none is chosen or it has not begun.
const Phase* current_phase(const Recipe* recipe, const ControlState& state);

// Why the display would refuse an entry; empty when it would accept it. The scan uses the same answers.
std::string_view why_not_confirm(const Recipe* recipe, const ControlState& state);
std::string_view why_not_choose(const ControlState& state);
std::string_view why_not_target(const ControlSpec& spec, const ControlState& state, double target_degC);
std::string_view why_not_acknowledge(const ControlState& state, std::int32_t alarm);  // -1: all
std::string_view why_not_shelve(const ControlSpec& spec, const ControlState& state, std::int32_t alarm,
                                double for_s);
std::string_view why_not_unshelve(const ControlState& state, std::int32_t alarm);
// Why a key is of no use in this mode, alarms aside; empty for Stop. `recipe`: the chosen one, or null.
std::string_view why_not_key(const Recipe* recipe, const ControlState& state, Key key);
// Why start keys are refused (alarms, in the order in which their causes must be removed); empty when they
// are not.
std::string_view why_not_start(const ControlState& state);

// The temperature that the controller aims at [degC]: the phase's target while a recipe runs or is paused,
// else the target set by hand.
double aimed_degC(const Recipe* recipe, const ControlState& state);
// Time remaining in a hold or age phase [s]; 0 in all other phases.
double hold_left_s(const Recipe* recipe, const ControlState& state, double tick_s);

}  // namespace stirbench::control
