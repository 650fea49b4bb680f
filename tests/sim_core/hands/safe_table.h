#pragma once

#include <string>
#include <vector>

#include "sim_core/journal/session.h"
#include "tests/sim_core/bench/machine_fixture.h"

// The invented HM-45 with chemicals beside it, and hands in short words.
namespace stirbench::bench_test {

inline machine::Machine safe_machine() {
  machine::Machine machine = small_kitchen_machine();
  using machine::ChemicalKind;
  machine.chemicals = {
      {.id = "acid",
       .title = "Acid",
       .kind = ChemicalKind::acid,
       .active_norm = 0.3,
       .irritant_norm = 0.1,
       .corrosive_norm = 0.25,
       .reactive_mol_per_kg = 10.2},
      {.id = "chlorine",
       .title = "Chlorine",
       .kind = ChemicalKind::chlorine,
       .active_norm = 0.06,
       .irritant_norm = 0.01,
       .corrosive_norm = 0.05,
       .reactive_mol_per_kg = 14.1},
      {.id = "lye",
       .title = "Lye",
       .kind = ChemicalKind::alkaline,
       .active_norm = 0.1,
       .irritant_norm = 0.005,
       .corrosive_norm = 0.02},
  };
  return machine;
}

struct SafeTable {
  explicit SafeTable(machine::StartSetup setup = {})
      : machine(safe_machine()), state(bench::initial_state(machine, setup)) {}
  machine::Machine machine;
  machine::State state;
  std::vector<machine::Event> events;

  void step(std::vector<hands::Action> actions = {}, int ticks = 1) {
    events.clear();
    bench::Inputs inputs{std::move(actions)};
    for (int i = 0; i < ticks; ++i) {
      bench::step(machine, state, inputs, events);
      inputs.actions.clear();
    }
  }
  void wait_s(double time_s) { step({}, static_cast<int>(time_s * 10.0)); }
  std::string why(const hands::Action& action) const { return hands::why_not(machine, state, action); }
  bool harmed(machine::HarmId id) const { return state.harms[static_cast<std::size_t>(id)].happened; }
  bool done(machine::LockoutStep step) const { return machine::step_of(state.lockout, step).done; }
  bool in_order(machine::LockoutStep step) const { return machine::step_of(state.lockout, step).in_order; }
  bool told(const std::string& name) const {
    for (const machine::Event& event : events) {
      if (event.kind == machine::EventKind::other_person && event.name == name) return true;
    }
    return false;
  }
  // Only what this tick's hands meet.
  void heat(double degC) {
    plant::PlantState& p = state.plant;
    p.well_degC = p.vat_degC = p.well_wall_degC = p.vat_wall_degC = p.probe_degC = degC;
  }
};

}  // namespace stirbench::bench_test
