#include "sim_core/explore/invariants.h"

namespace stirbench::explore {

namespace {

using control::AlarmId;
using control::AlarmState;
using control::Key;
using I = Invariant;

struct Words {
  std::string_view id;
  std::string_view words;
};
constexpr std::array<Words, invariant_count> table{{
    {"no_motion_with_guard_open", "The drive has no power while lid or shaft cover is open."},
    {"no_heat_with_guard_open", "The elements have no power while lid or shaft cover is open."},
    {"no_heat_without_circulation", "The elements have power only while the drive has."},
    {"no_restart_without_start_key",
     "Nothing gets power, and nothing is commanded, without a fresh press of a start key."},
    {"no_start_while_alarm_stands",
     "No start key starts anything while an alarm stands or a cause is present."},
    {"start_only_with_stop_up",
     "No start key starts anything while Stop is down, or in the moment it is let go."},
    {"one_start_key_at_a_time", "Two start keys at once start nothing."},
    {"stop_stops", "While Stop is down nothing has power and nothing is commanded."},
    {"no_clear_with_cause_present", "No alarm clears while its cause is present."},
    {"clear_only_on_stop_release", "A latched alarm clears only when Stop is let go."},
    {"clear_needs_fresh_stop",
     "It clears only by a press that began, and stayed, with supply and every cause right."},
    {"reset_starts_nothing", "Clearing starts nothing."},
    {"closing_guard_starts_nothing", "Closing a guard starts nothing."},
    {"interruption_is_told", "What interrupts a run stops it and latches its alarm."},
    {"emergency_stop_cuts_all", "While the emergency stop is in, drive, heat and chill have no power."},
    {"emergency_release_starts_nothing", "Turning the emergency stop free starts nothing."},
    {"power_return_starts_nothing", "The return of the supply starts nothing."},
    {"power_return_is_told", "The return of the supply latches its alarm."},
    {"no_power_without_supply", "Without supply, or with the isolator off, nothing has power."},
    {"overload_takes_drive", "An overloaded drive loses its power."},
    {"cutout_takes_heat", "A heated wall above the cut-out's limit loses its power."},
    {"pressure_takes_chill", "A chiller with its pressure out of range loses its power."},
    {"controller_lets_go",
     "The controller commands nothing while a cause is present, whatever the wiring does."},
    {"no_heat_command_without_drive", "The controller never asks for heat without the drive."},
    {"guard_wiring_alone",
     "The guard loop alone keeps drive and heat off while a guard is open, whatever is commanded."},
    {"emergency_wiring_alone", "The emergency stop's contactor alone keeps all off, whatever is commanded."},
    {"supply_wiring_alone", "The isolator alone keeps all off, whatever is commanded."},
    {"protection_wiring_alone",
     "Overload relay, cut-out and pressure switch each take their load alone, whatever is commanded."},
    {"heat_wiring_alone", "The wiring alone lets no heat through while the drive is off."},
    {"alarm_life_by_table", "Alarms go from state to state only as their table says."},
    {"way_back_to_running", "From every state there is a way back to running: put right, clear, start."},
}};

bool rises(bool before, bool now) { return now && !before; }

// Whether an alarm's cause is present in truth.
bool cause_of(const GroundTruth& scene, AlarmId id) {
  switch (id) {
    case AlarmId::emergency_stop: return scene.stop_in;
    case AlarmId::lid_guard: return scene.lid_open;
    case AlarmId::shaft_cover_guard: return scene.cover_open;
    case AlarmId::drive_overload: return scene.overload;
    case AlarmId::over_temperature: return scene.cutout;
    case AlarmId::chiller_pressure: return scene.pressure;
    case AlarmId::power_returned: return !scene.fed;
    case AlarmId::addition_waiting:
    case AlarmId::hold_broken:
    case AlarmId::count: break;
  }
  return false;
}

// The rows of the table, without shelving and service. One scan may both raise and clear an alarm (supply),
// so two rows may apply in it.
bool life_step(AlarmState from, AlarmState to) {
  using S = AlarmState;
  if (from == to) return true;
  switch (from) {
    case S::normal:
      return to == S::unacknowledged || to == S::acknowledged || to == S::latched_unacknowledged ||
             to == S::latched_acknowledged;
    case S::unacknowledged:
      return to == S::acknowledged || to == S::returned_unacknowledged || to == S::latched_unacknowledged ||
             to == S::latched_acknowledged || to == S::normal;
    case S::acknowledged: return to == S::normal || to == S::latched_acknowledged;
    case S::returned_unacknowledged:
      return to == S::normal || to == S::unacknowledged || to == S::acknowledged;
    case S::latched_unacknowledged:
      return to == S::latched_acknowledged || to == S::unacknowledged || to == S::acknowledged;
    case S::latched_acknowledged: return to == S::normal || to == S::unacknowledged || to == S::acknowledged;
    case S::shelved:
    case S::suppressed:
    case S::out_of_service: return true;
  }
  return false;
}

InvariantSet judge_power(const GroundTruth& before, const GroundTruth& now) {
  InvariantSet broken = 0;
  const auto never = [&broken](bool wrong, I invariant) { broken |= wrong ? invariant_bit(invariant) : 0; };
  never(now.drive && now.guard_open(), I::no_motion_with_guard_open);
  never(now.heat && now.guard_open(), I::no_heat_with_guard_open);
  never(now.heat && !now.drive, I::no_heat_without_circulation);
  never(now.any_power() && now.stop_in, I::emergency_stop_cuts_all);
  never(now.any_power() && !now.fed, I::no_power_without_supply);
  never(now.drive && now.overload, I::overload_takes_drive);
  never(now.heat && now.cutout, I::cutout_takes_heat);
  never(now.chill && now.pressure, I::pressure_takes_chill);
  never(now.finger_on(Key::stop) && (now.any_power() || now.commanded), I::stop_stops);
  never(now.commanded && now.any_cause(), I::controller_lets_go);
  never(now.heat_asked && !now.drive_asked, I::no_heat_command_without_drive);
  never(now.guard_open() && (now.wired_drive || now.wired_heat), I::guard_wiring_alone);
  never(now.stop_in && (now.wired_drive || now.wired_heat || now.wired_chill), I::emergency_wiring_alone);
  never(!now.fed && (now.wired_drive || now.wired_heat || now.wired_chill), I::supply_wiring_alone);
  never((now.overload && now.wired_drive) || (now.cutout && now.wired_heat) ||
            (now.pressure && now.wired_chill),
        I::protection_wiring_alone);
  never(now.wired_heat_alone, I::heat_wiring_alone);
  never(before.commanded && now.fed && now.any_cause() && now.commanded, I::interruption_is_told);
  return broken;
}

InvariantSet judge_starts(const GroundTruth& before, const GroundTruth& now) {
  InvariantSet broken = 0;
  const auto never = [&broken](bool wrong, I invariant) { broken |= wrong ? invariant_bit(invariant) : 0; };
  const bool power_rises =
      rises(before.drive, now.drive) || rises(before.heat, now.heat) || rises(before.chill, now.chill);
  // A run that is under way switches its loads on and off by itself.
  const bool begins = !before.commanded && (now.commanded || power_rises);
  int fresh = 0;
  for (std::size_t i = 0; i < control::key_count; ++i) {
    fresh += rises(before.finger[i], now.finger[i]) && i != static_cast<std::size_t>(Key::stop) ? 1 : 0;
  }
  bool stands = false;
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    stands = stands || (control::alarm_latches(static_cast<AlarmId>(i)) && now.alarms[i].stands());
  }
  const bool starts = !before.commanded && now.commanded;
  never(begins && fresh == 0, I::no_restart_without_start_key);
  never(starts && (stands || now.any_cause()), I::no_start_while_alarm_stands);
  never(starts && (now.finger_on(Key::stop) || before.finger_on(Key::stop)), I::start_only_with_stop_up);
  never(starts && fresh > 1, I::one_start_key_at_a_time);
  // Guards alone: what else is put right in the same scan has an invariant of its own.
  const bool else_same = before.fed == now.fed && before.stop_in == now.stop_in &&
                         before.overload == now.overload && before.cutout == now.cutout &&
                         before.pressure == now.pressure;
  const bool guard_closes =
      else_same && ((before.lid_open && !now.lid_open) || (before.cover_open && !now.cover_open));
  never(guard_closes && begins && fresh == 0, I::closing_guard_starts_nothing);
  never(before.stop_in && !now.stop_in && begins && fresh == 0, I::emergency_release_starts_nothing);
  const bool returns = !before.fed && now.fed;
  never(returns && (now.any_power() || now.commanded), I::power_return_starts_nothing);
  never(returns && !now.alarms[static_cast<std::size_t>(AlarmId::power_returned)].latched,
        I::power_return_is_told);
  return broken;
}

InvariantSet judge_alarms(const GroundTruth& before, const GroundTruth& now) {
  InvariantSet broken = 0;
  bool cleared = false;
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    const auto id = static_cast<AlarmId>(i);
    const control::Alarm& was = before.alarms[i];
    const control::Alarm& is = now.alarms[i];
    if (was.latched && !is.latched) {
      cleared = true;
      if (cause_of(now, id)) broken |= invariant_bit(I::no_clear_with_cause_present);
    }
    if (before.commanded && now.fed && cause_of(now, id) && !is.latched)
      broken |= invariant_bit(I::interruption_is_told);
    if (!life_step(control::alarm_state({}, was), control::alarm_state({}, is)))
      broken |= invariant_bit(I::alarm_life_by_table);
  }
  if (!cleared) return broken;
  if (!before.finger_on(Key::stop) || now.finger_on(Key::stop))
    broken |= invariant_bit(I::clear_only_on_stop_release);
  if (!before.honest_stop) broken |= invariant_bit(I::clear_needs_fresh_stop);
  if (!before.any_power() && (now.any_power() || now.commanded))
    broken |= invariant_bit(I::reset_starts_nothing);
  return broken;
}

}  // namespace

std::string_view invariant_id(Invariant invariant) { return table[static_cast<std::size_t>(invariant)].id; }
std::string_view invariant_words(Invariant invariant) {
  return table[static_cast<std::size_t>(invariant)].words;
}

int find_invariant(std::string_view id) {
  for (std::size_t i = 0; i < invariant_count; ++i) {
    if (table[i].id == id) return static_cast<int>(i);
  }
  return -1;
}

void evaluate_wiring(GroundTruth& scene, electrics::SwitchingTable& wiring, electrics::Switches switches) {
  using S = electrics::Switch;
  const electrics::Switches all = switches.with(S::heat_wanted).with(S::drive_wanted).with(S::chill_wanted);
  const electrics::Switched every = wiring.of(all);
  scene.wired_drive = every.drive;
  scene.wired_chill = every.chill;
  // Heat hangs on the drive's contactor too; here it has to stay off without that help.
  scene.wired_heat = wiring.of(all.with(S::drive_welded)).heat;
  const electrics::Switched alone = wiring.of(all.with(S::drive_wanted, false).with(S::chill_wanted, false));
  scene.wired_heat_alone = alone.heat && !alone.drive;
}

InvariantSet judge(const GroundTruth& before, GroundTruth& now) {
  const bool down = now.finger_on(Key::stop);
  const bool right = now.fed && !now.any_cause();
  now.honest_stop = down && right && (before.finger_on(Key::stop) ? before.honest_stop : true);
  return judge_power(before, now) | judge_starts(before, now) | judge_alarms(before, now);
}

}  // namespace stirbench::explore
