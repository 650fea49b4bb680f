#pragma once

#include <string>
#include <vector>

#include "sim_core/control/controller.h"
#include "tests/support/switched_loads.h"

// A controller on a table: readings and keys are set by hand, one scan at a time.
namespace stirbench::control_test {

using namespace stirbench::control;
using tests::relays;

inline Recipe whole_recipe() {
  Recipe recipe;
  recipe.id = "white_base";
  recipe.title = "White base";
  recipe.overshoot_K = 1.0;
  recipe.phases = {
      {.id = "warm", .kind = PhaseKind::heat, .title = "warm", .target_degC = 40.0},
      {.id = "add_sugar",
       .kind = PhaseKind::add,
       .title = "add",
       .target_degC = 40.0,
       .instruction = "Add the sugar."},
      {.id = "heat", .kind = PhaseKind::heat, .title = "heat", .target_degC = 85.0},
      {.id = "hold", .kind = PhaseKind::hold, .title = "hold", .target_degC = 85.0, .duration_s = 30.0},
      {.id = "chill", .kind = PhaseKind::chill, .title = "chill", .target_degC = 4.0},
      {.id = "age", .kind = PhaseKind::age, .title = "age", .target_degC = 4.0, .duration_s = 60.0},
      {.id = "keep", .kind = PhaseKind::keep, .title = "keep", .target_degC = 4.0},
  };
  return recipe;
}

struct Rig {
  ControlSpec spec;
  std::vector<Recipe> recipes{whole_recipe()};
  ControlState state = initial_state(spec);
  plant::SensorReadings readings;
  plant::Fittings fittings;
  PanelInputs panel;
  std::uint64_t tick = 0;
  std::vector<ScanNotice> said;  // all notices of the last call of scan()
  Outputs outputs;
  plant::Actuators actuators;

  void scan(int times = 1) {
    said.clear();
    for (int i = 0; i < times; ++i) {
      ScanNotices notices;
      outputs = control::scan({spec, recipes, 0.1, tick}, state, readings, panel, notices);
      actuators = relays(outputs, readings, fittings);
      said.insert(said.end(), notices.begin(), notices.end());
      panel.confirm = panel.set_target = false;
      panel.choose_recipe = -1;
      ++tick;
    }
  }
  void down(Key key) { panel.key[static_cast<std::size_t>(key)] = true; }
  void up(Key key) { panel.key[static_cast<std::size_t>(key)] = false; }
  // Down for three scans, then let go and scanned once more. Keeps what was said on the way.
  void press(Key key) {
    down(key);
    scan(3);
    const auto before = said;
    up(key);
    scan();
    said.insert(said.begin(), before.begin(), before.end());
  }
  void choose(std::int32_t recipe = 0) {
    panel.choose_recipe = recipe;
    scan();
  }
  void confirm() {
    panel.confirm = true;
    scan();
  }
  void set_target(double degC) {
    panel.set_target = true;
    panel.target_degC = degC;
    scan();
  }
  void probe(double degC, int scans = 1) {
    readings.probe_degC = degC;
    scan(scans);
  }
  // Straight into a phase of the recipe, running.
  void run_to(std::int32_t phase) {
    choose();
    state.phase = phase;
    state.hold_ticks = 0;
    readings.probe_degC = recipes[0].phases[static_cast<std::size_t>(phase)].target_degC - 1.0;
    press(Key::run);
  }
  Alarm& alarm(AlarmId id) { return state.alarms[static_cast<std::size_t>(id)]; }
  bool still() const { return !outputs.drive && outputs.heat_norm == 0.0 && !outputs.chill; }
  bool relays_still() const {
    return !actuators.drive_on && actuators.heat_norm == 0.0 && !actuators.chiller_on;
  }
  int count(Notice kind) const {
    int n = 0;
    for (const ScanNotice& notice : said) n += notice.kind == kind ? 1 : 0;
    return n;
  }
  std::string refusal() const {
    for (const ScanNotice& notice : said) {
      if (notice.kind == Notice::refused) return std::string(notice.reason);
    }
    return "";
  }
};

}  // namespace stirbench::control_test
