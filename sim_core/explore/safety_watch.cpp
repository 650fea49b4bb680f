#include "sim_core/explore/safety_watch.h"

#include <algorithm>
#include <optional>

#include "sim_core/bench/run.h"
#include "sim_core/hands/handles.h"
#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/plant.h"

namespace stirbench::explore {

using machine::Event;

namespace {

bool pressed_now(const std::vector<Event>& events, std::size_t key) {
  for (const Event& event : events) {
    if (hands::was_done(event, hands::press) &&
        event.name == control::key_name(static_cast<control::Key>(key)))
      return true;
  }
  return false;
}

bool acted(const std::vector<Event>& events, const hands::Hand& hand) {
  return std::any_of(events.begin(), events.end(),
                     [&hand](const Event& event) { return hands::was_done(event, hand); });
}

void push(bool& tested, const std::vector<Event>& events, const hands::Hand& test, const hands::Hand& reset) {
  if (acted(events, test)) tested = true;
  if (acted(events, reset)) tested = false;
}

}  // namespace

SafetyWatch::SafetyWatch(const Machine& machine, std::shared_ptr<electrics::SwitchingTable> wiring)
    : machine_(&machine), wiring_(std::move(wiring)) {
  if (wiring_ == nullptr)
    wiring_ = std::make_shared<electrics::SwitchingTable>(plant::switching_table(machine.plant));
}

void SafetyWatch::see(const State& state, const std::vector<Event>& events) {
  const plant::PlantState& plant = state.plant;
  const plant::SafetyParts& parts = plant.safety;
  push(tested_overload_, events, hands::test_overload, hands::reset_overload);
  push(tested_cutout_, events, hands::test_cutout, hands::reset_cutout);
  if (acted(events, hands::test_pressure)) tested_pressure_ = true;

  // The plant has advanced since the relays acted; trips that followed belong to the next tick: judge by the
  // state before.
  GroundTruth now = before_;
  now.lid_open = plant.fittings.lid_open;
  now.cover_open = plant.fittings.shaft_cover_open;
  now.stop_in = parts.emergency_stop_in;
  now.fed = plant.fittings.isolator_on && plant.environment.supply_norm > 0.5;
  const auto reported = [&state](control::AlarmId id) {
    return state.control.alarms[static_cast<std::size_t>(id)].active;
  };
  now.overload =
      now.fed ? reported(control::AlarmId::drive_overload) || (parts.overload_stuck && tested_overload_)
              : before_.overload;
  now.cutout = now.fed
                   ? reported(control::AlarmId::over_temperature) || (parts.cutout_bridged && tested_cutout_)
                   : before_.cutout;
  now.pressure =
      now.fed ? reported(control::AlarmId::chiller_pressure) || (parts.pressure_stuck && tested_pressure_)
              : before_.pressure;
  for (std::size_t i = 0; i < control::key_count; ++i) {
    now.finger[i] = state.key_ticks_left[i] > 0 || fingers_before_[i] > 0 || pressed_now(events, i);
  }
  now.drive = state.contactors.drive_on;
  now.heat = state.contactors.heat_norm > 0.0;
  now.chill = state.contactors.chiller_on;
  now.drive_asked = state.commands.drive;
  now.heat_asked = state.commands.heat_norm > 0.0;
  now.chill_asked = state.commands.chill;
  now.commanded = control::mode_moves(state.control.mode);
  now.alarms = state.control.alarms;
  using S = electrics::Switch;
  electrics::Switches switches = plant::switches_of(plant, {});
  switches.set(S::isolator_on, now.fed);
  switches.set(S::overload_tripped, reported(control::AlarmId::drive_overload));
  switches.set(S::cutout_tripped, reported(control::AlarmId::over_temperature));
  switches.set(S::pressure_tripped, reported(control::AlarmId::chiller_pressure));
  evaluate_wiring(now, *wiring_, switches);
  note(judge(before_, now), state.tick > 0 ? state.tick - 1 : 0);
  fingers_before_ = state.key_ticks_left;
  before_ = now;
}

namespace {

// What a person would do next; nothing when there is nothing but waiting.
std::optional<hands::Action> next_hand(const State& state) {
  const plant::PlantState& plant = state.plant;
  if (plant.safety.emergency_stop_in) return hands::release_emergency_stop();
  if (plant.fittings.rinse_on) return hands::rinse(false);
  if (plant.fittings.lid_open) return hands::close_lid();
  if (plant.fittings.shaft_cover_open) return hands::close_shaft_cover();
  if (plant.overload_tripped) return hands::reset_overload();
  if (plant.cutout_tripped) return hands::reset_cutout();
  if (!plant.fittings.isolator_on) return hands::isolate(false);
  if (plant.pressure_tripped) return std::nullopt;
  for (const std::uint32_t left : state.key_ticks_left) {
    if (left > 0) return std::nullopt;
  }
  const bool stir_good =
      plant.safety.keys[static_cast<std::size_t>(control::Key::stir)] == plant::KeyContact::good;
  return hands::press(!control::why_not_start(state.control).empty() ? "stop" : stir_good ? "stir" : "heat");
}

}  // namespace

void SafetyWatch::check_recovery(const State& state) {
  if (state.injured) return;
  constexpr int most_tries = 7200;
  constexpr int between_ticks = 5;
  State start = state;
  for (std::uint32_t& left : start.key_ticks_left) left = 0;
  bench::Run trial(*machine_, start);
  for (int i = 0; i < most_tries; ++i) {
    const control::ControlState& control = trial.state().control;
    if (control::mode_moves(control.mode) && control::why_not_start(control).empty()) return;
    if (const std::optional<hands::Action> action = next_hand(trial.state())) trial.act(*action);
    for (int t = 0; t < between_ticks; ++t) trial.step();
  }
  note(invariant_bit(Invariant::way_back_to_running), state.tick);
}

void SafetyWatch::note(InvariantSet broken, std::uint64_t tick) {
  for (std::size_t i = 0; broken != 0 && i < invariant_count; ++i) {
    if ((broken >> i & 1U) == 0) continue;
    Breach* known = nullptr;
    for (Breach& breach : breaches_) {
      if (breach.invariant == static_cast<Invariant>(i)) known = &breach;
    }
    if (known == nullptr)
      breaches_.push_back({static_cast<Invariant>(i), tick, 1});
    else
      ++known->ticks;
  }
}

}  // namespace stirbench::explore
