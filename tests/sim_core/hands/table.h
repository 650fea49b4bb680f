#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sim_core/bench/step.h"
#include "tests/sim_core/bench/machine_fixture.h"

// A machine on the table, with hands on it: what they do, what happens, why not.
namespace stirbench::bench_test {

using namespace machine;
using namespace bench;
using hands::Action;

struct Table {
  Machine machine = small_kitchen_machine();
  State state = initial_state(machine, {});
  std::vector<Event> events;

  void step(std::vector<Action> actions = {}, int ticks = 1) {
    events.clear();
    Inputs inputs{std::move(actions)};
    for (int i = 0; i < ticks; ++i) {
      bench::step(machine, state, inputs, events);
      inputs.actions.clear();
    }
  }
  std::string why(const Action& action) const { return hands::why_not(machine, state, action); }
  bool happened(EventKind kind, const std::string& name = "") const {
    for (const Event& event : events) {
      if (event.kind == kind && (name.empty() || event.name == name)) return true;
    }
    return false;
  }
  bool harmed(HarmId id) const { return state.harms[static_cast<std::size_t>(id)].happened; }
  // Only what this tick's hands meet: the plant's own accounts bring the next tick back to what was poured.
  void heat_product(double degC) {
    state.plant.well_degC = state.plant.vat_degC = state.plant.probe_degC = degC;
    state.plant.well_wall_degC = state.plant.vat_wall_degC = degC;
  }
  void fill(double kg = 30.0, double degC = 5.0) {
    step({hands::open_lid(), pour("whole_milk", kg, degC), hands::close_lid()});
  }
};

}  // namespace stirbench::bench_test
