#include "sim_core/machine/lockout.h"

#include <algorithm>
#include <cmath>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/number_words.h"
#include "sim_core/machine/state.h"

namespace stirbench::machine {

namespace {

using std::string_view;

constexpr std::array<string_view, energy_count> energies{"heat", "hose", "spring", "capacitor",
                                                         "refrigerant"};
constexpr std::array<string_view, ppe_count> wears{"heat_gloves", "chemical_gloves", "eye_protection",
                                                   "face_shield", "apron",           "safety_shoes"};

struct StepWords {
  string_view key;
  string_view title;
};
constexpr std::array<StepWords, lockout_step_count> step_words{{
    {"energies_read", "Energies and procedure read"},
    {"people_told", "People told"},
    {"stopped", "Stopped by its key"},
    {"isolated", "Isolator off"},
    {"locked", "Own padlock on"},
    {"key_taken", "Key in your pocket"},
    {"tagged", "Own tag on"},
    {"heat_gone", "Heat gone"},
    {"hose_gone", "Hose without pressure"},
    {"spring_eased", "Valve spring eased"},
    {"capacitor_gone", "Capacitor empty"},
    {"refrigerant_left", "Refrigerant left shut"},
    {"start_tried", "Tried to start: nothing"},
    {"panel_off", "Panel off"},
    {"meter_proved", "Meter proved on a live source"},
    {"dead_measured", "Terminals measured dead"},
    {"meter_proved_again", "Meter proved again"},
    {"work_begun", "Work begun"},
    {"work_ended", "Hands and tools out"},
    {"inspected", "Guards and panel back, looked round"},
    {"people_told_back", "People told it comes back"},
    {"tag_off", "Own tag off"},
    {"lock_off", "Own padlock off"},
    {"restored", "Isolator on again"},
}};

constexpr double hot_reference_degC = 85.0;
constexpr double hose_reference_bar = 1.0;

double clamp01(double value) { return std::clamp(value, 0.0, 1.0); }

double peak_V(const Machine& machine) { return std::sqrt(2.0) * machine.plant.supply_V; }

}  // namespace

string_view lockout_step_key(LockoutStep step) { return step_words[static_cast<std::size_t>(step)].key; }
string_view lockout_step_title(LockoutStep step) { return step_words[static_cast<std::size_t>(step)].title; }

string_view ppe_key(PpeItem item) { return wears[static_cast<std::size_t>(item)]; }
string_view energy_key(StoredEnergy energy) { return energies[static_cast<std::size_t>(energy)]; }

double terminals_V(const Machine& machine, const State& state) {
  const double supply_V = machine.plant.supply_V * state.plant.environment.supply_norm;
  if (state.plant.fittings.isolator_on) return supply_V;
  return state.lockout.situation.isolator_pole_stuck ? supply_V / std::sqrt(3.0) : 0.0;
}

double load_terminals_V(const Machine& machine, const State& state, LoadTerminals at) {
  const plant::SafetyParts& parts = state.plant.safety;
  const bool stopped = parts.emergency_contact_open() && !parts.emergency_contactor_welded;
  const plant::Actuators& last = state.contactors;
  const bool closed = at == LoadTerminals::drive ? last.drive_on || parts.drive_welded
                                                 : last.heat_norm > 0.0 || parts.heat_welded;
  const bool cut = at == LoadTerminals::heater && state.plant.cutout_tripped;
  return closed && !stopped && !cut ? terminals_V(machine, state) : 0.0;
}

bool isolator_held(const Lockout& lockout) {
  const auto holds = [](const Padlock& lock) {
    return lock.on && !lock.on_neighbour && !lock.key_in && !lock.borrowed;
  };
  return holds(lockout.yours) || holds(lockout.colleagues);
}

bool any_lock_on(const Lockout& lockout) {
  return (lockout.yours.on && !lockout.yours.on_neighbour) ||
         (lockout.colleagues.on && !lockout.colleagues.on_neighbour);
}

double hottest_part_degC(const State& state) {
  const plant::PlantState& plant = state.plant;
  double hottest_degC = std::max({plant.well_wall_degC, plant.vat_wall_degC, plant.lid_degC});
  if (plant.product.total_kg() > 0.1)
    hottest_degC = std::max({hottest_degC, plant.well_degC, plant.vat_degC});
  return hottest_degC;
}

double energy_left_norm(const Machine& machine, const State& state, StoredEnergy energy) {
  const Lockout& lockout = state.lockout;
  switch (energy) {
    case StoredEnergy::heat:
      return clamp01((hottest_part_degC(state) - released_degC) / (hot_reference_degC - released_degC));
    case StoredEnergy::hose: {
      const double held_bar = state.plant.freezer.line_bar;
      return held_bar > released_bar ? clamp01(held_bar / hose_reference_bar) : 0.0;
    }
    case StoredEnergy::spring: return lockout.spring_eased || lockout.valve_out ? 0.0 : 1.0;
    case StoredEnergy::capacitor:
      return lockout.capacitor_V > released_V ? clamp01(lockout.capacitor_V / peak_V(machine)) : 0.0;
    case StoredEnergy::refrigerant:
    case StoredEnergy::count: break;
  }
  return 0.0;
}

double energies_released_norm(const Machine& machine, const State& state) {
  double most = 0.0;
  for (std::size_t i = 0; i < energy_count; ++i) {
    most = std::max(most, energy_left_norm(machine, state, static_cast<StoredEnergy>(i)));
  }
  return 1.0 - most;
}

std::string energy_words(const Machine&, const State& state, StoredEnergy energy) {
  const Lockout& lockout = state.lockout;
  switch (energy) {
    case StoredEnergy::heat: return with_unit(hottest_part_degC(state), 0, "°C on the hottest part");
    case StoredEnergy::hose:
      if (state.plant.fittings.hose == plant::HoseEnd::none) return "no hose fitted";
      return with_unit(state.plant.freezer.line_bar, 1, "bar in the hose");
    case StoredEnergy::spring:
      if (lockout.valve_out) return "the valve is out";
      return lockout.spring_eased ? "the spring is eased" : "the spring is under load";
    case StoredEnergy::capacitor: return with_unit(lockout.capacitor_V, 0, "V on the capacitor");
    case StoredEnergy::refrigerant: return "the circuit is shut";
    case StoredEnergy::count: break;
  }
  return {};
}

const StepDone& step_of(const Lockout& lockout, LockoutStep step) {
  return lockout.steps[static_cast<std::size_t>(step)];
}

bool verified_dead(const Lockout& lockout) {
  const StepDone& first = step_of(lockout, LockoutStep::meter_proved);
  const StepDone& dead = step_of(lockout, LockoutStep::dead_measured);
  const StepDone& again = step_of(lockout, LockoutStep::meter_proved_again);
  return first.done && dead.done && again.done;
}

}  // namespace stirbench::machine
