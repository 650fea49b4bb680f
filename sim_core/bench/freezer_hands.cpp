#include "sim_core/bench/freezer_hands.h"

#include <array>

#include "sim_core/plant/freezer.h"

namespace stirbench::bench {

namespace {

using K = ActionKind;
constexpr std::array<std::string_view, static_cast<std::size_t>(plant::FreezerSetting::count)> setting_words{"freeze", "dasher", "keep"};

std::string why_not_start(const plant::PlantState& plant) {
  const plant::FreezerState& freezer = plant.freezer;
  if (freezer.running) return "The freezer already runs.";
  if (freezer.tripped) return "The dasher's overload protection has tripped. Let it cool, then reset it.";
  if (freezer.lid_open) return "The freezer's lid is open: its guard holds the dasher.";
  return plant.environment.supply_norm > 0.7 ? "" : "The freezer has no power.";
}

std::string why_not_turned(bool is, bool wanted, const char* open, const char* shut) {
  if (is != wanted) return "";
  return wanted ? open : shut;
}

}  // namespace

int freezer_setting(std::string_view word) {
  for (std::size_t i = 0; i < setting_words.size(); ++i) {
    if (setting_words[i] == word) return static_cast<int>(i);
  }
  return -1;
}

std::string_view freezer_setting_word(plant::FreezerSetting setting) { return setting_words[static_cast<std::size_t>(setting)]; }

bool is_freezer_work(ActionKind kind) { return kind >= K::freezer_inlet && kind <= K::freezer_water; }

std::string why_not_freezer(const plant::PlantState& plant, const Action& action) {
  const plant::FreezerState& freezer = plant.freezer;
  switch (action.kind) {
    case K::freezer_inlet:
      return why_not_turned(freezer.inlet_open, action.on, "The freezer's inlet is already open.", "The freezer's inlet is already shut.");
    case K::freezer_lid:
      return why_not_turned(freezer.lid_open, action.on, "The freezer's lid is already open.", "The freezer's lid is already shut.");
    case K::freezer_drain:
      return why_not_turned(freezer.drain_open, action.on, "The freezer's drain is already open.", "The freezer's drain is already shut.");
    case K::freezer_setting: {
      const int setting = freezer_setting(action.name);
      if (setting < 0) return "The freezer's selector has \"freeze\", \"dasher\" and \"keep\".";
      return setting == static_cast<int>(freezer.setting) ? "The freezer's selector stands there already." : "";
    }
    case K::freezer_water: return freezer.lid_open ? "" : "The freezer's lid is shut.";
    case K::freezer_start: return why_not_start(plant);
    case K::freezer_stop: return freezer.running ? "" : "The freezer is at rest.";
    case K::reset_freezer:
      if (!freezer.tripped) return "The dasher's overload protection has not tripped.";
      return plant::may_reset_freezer(freezer) ? "" : "The dasher's motor is still hot. Wait, then reset it.";
    case K::empty_tub: return freezer.tub.total_kg() > 0.0 ? "" : "The tub is empty.";
    default: return "";  // freezer_draw
  }
}

std::string do_freezer(const Machine& machine, plant::PlantState& plant, const Action& action) {
  plant::FreezerState& freezer = plant.freezer;
  switch (action.kind) {
    case K::freezer_inlet: freezer.inlet_open = action.on; break;
    case K::freezer_lid:
      freezer.lid_open = action.on;
      if (!action.on || !freezer.running) break;
      plant::stop_freezer(freezer);
      return "The lid's guard has stopped the dasher.";
    case K::freezer_drain: freezer.drain_open = action.on; break;
    case K::freezer_setting: freezer.setting = static_cast<plant::FreezerSetting>(freezer_setting(action.name)); break;
    case K::freezer_water: plant::pour_water(machine.plant.freezer, plant, action.number, action.has_degC ? action.degC : 15.0); break;
    case K::freezer_start: plant::start_freezer(freezer); break;
    case K::freezer_stop: plant::stop_freezer(freezer); break;
    case K::freezer_draw: freezer.gate_norm = action.number; break;
    case K::reset_freezer: plant::reset_freezer(freezer); break;
    default: plant::empty_tub(freezer); break;
  }
  return {};
}

}  // namespace stirbench::bench
