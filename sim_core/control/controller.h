#pragma once

#include <array>
#include <cstdint>
#include <string_view>

#include "sim_core/control/recipe.h"
#include "sim_core/plant/state.h"

// The machine's own controller: keys, modes, latching guard alarms, set points, recipe phases, timers.
// `scan` is called once a tick: (spec, state, readings, keys) -> outputs. All memory is in ControlState.
namespace stirbench::control {

enum class Key : std::uint8_t { heat, chill, stir, run, stop, rinse, count };
inline constexpr std::size_t key_count = static_cast<std::size_t>(Key::count);
std::string_view key_name(Key key);

enum class Mode : std::uint8_t {
  off,       // no supply
  standby,   // nothing runs, ready
  heating,   // by the Heat key to the hand-set target
  chilling,  // by the Chill key to the hand-set target
  stirring,  // agitator and pump only
  running,   // a recipe's phase
  paused,    // a recipe stopped on the way; Run goes on
  rinsing    // rinse water allowed, stirring slow, no heat
};
std::string_view mode_name(Mode mode);

enum class AlarmId : std::uint8_t {
  lid_guard,          // "Lid guard open"
  shaft_cover_guard,  // "Shaft cover open"
  drive_overload,     // "Drive overloaded"
  over_temperature,   // "Heater cut-out tripped"
  chiller_pressure,   // "Chiller pressure out of range"
  power_returned,     // "Power came back"
  addition_waiting,   // not latched: attention only
  hold_broken,        // "Hold interrupted": attention
  count
};
inline constexpr std::size_t alarm_count = static_cast<std::size_t>(AlarmId::count);
std::string_view alarm_key(AlarmId alarm);    // "lid_guard"
std::string_view alarm_title(AlarmId alarm);  // "Lid guard open"
bool alarm_latches(AlarmId alarm);

struct Alarm {
  bool active = false;            // cause present now
  bool latched = false;           // stays until cleared by Stop with the cause right
  std::uint64_t raised_tick = 0;
  std::uint64_t cleared_tick = 0;
};

struct ControlSpec {
  double heat_hysteresis_K = 0.5;
  double chill_hysteresis_K = 0.5;
  double lowest_target_degC = 1.0;
  double highest_target_degC = 95.0;
  double default_heat_degC = 85.0;
  double default_chill_degC = 3.0;
  double age_stir_on_s = 60.0;    // age and keep: stirring share
  double age_stir_off_s = 240.0;
  double prompt_ahead_s = 0.0;
};

struct ControlState {
  Mode mode = Mode::standby;
  double target_degC = 0.0;           // hand-set target, for Heat and Chill
  std::int32_t recipe = -1;           // index in Machine::recipes, -1 none chosen
  std::int32_t phase = -1;            // index in the recipe, -1 not started
  bool confirmed = false;             // addition of the present add phase confirmed
  bool recipe_done = false;           // reached its keep phase
  std::uint64_t phase_ticks = 0;      // since this phase began (powered or not)
  std::uint64_t hold_ticks = 0;       // continuously at or above target in this hold/age
  std::uint64_t cycle_ticks = 0;      // stirring cycle in age and keep
  bool heat_demand = false;           // hysteresis memory
  bool chill_demand = false;
  std::array<bool, key_count> key_down{};  // level of last scan, for edges
  std::array<bool, key_count> key_armed{}; // pressed while allowed: acts on release (Stop) or press (others)
  std::array<Alarm, alarm_count> alarms{};
  bool had_supply = true;
};

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
};

// Something a scan decided, for the journal, the hint strip and monitors. Refusals carry a reason.
enum class Notice : std::uint8_t {
  none, alarm_raised, alarm_cleared, phase_began, recipe_finished, mode_changed, hold_restarted, refused
};
struct ScanNotice {
  Notice kind = Notice::none;
  std::int32_t subject = -1;            // AlarmId, phase index or Mode
  std::string_view reason;              // static text
};
struct ScanNotices {
  std::array<ScanNotice, 12> item{};
  std::size_t count = 0;
  void add(ScanNotice notice) { if (count < item.size()) item[count++] = notice; }
};

struct ScanContext {
  const ControlSpec& spec;
  const Recipe* recipe;       // the chosen one or nullptr
  std::int32_t recipe_count;
  double tick_s;
  std::uint64_t tick;
};

Outputs scan(const ScanContext& context, ControlState& state, const plant::Readings& readings,
             const PanelInputs& panel, ScanNotices& notices);

// Hard-wired chain: what the contactors let through whatever the controller says.
plant::Actuators relays(const Outputs& outputs, const plant::Readings& readings, const plant::Fittings& fittings);

bool any_latched(const ControlState& state);
const Phase* current_phase(const Recipe* recipe, const ControlState& state);

}  // namespace stirbench::control
