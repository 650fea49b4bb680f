#include "sim_core/bench/wired_keys.h"

#include "sim_core/machine/machine.h"

namespace stirbench::bench {

static_assert(control::key_count == plant::panel_keys);

void press_keys_as_wired(const plant::SafetyParts& parts, control::PanelInputs& panel) {
  for (std::size_t i = 0; i < control::key_count; ++i) {
    if (parts.keys[i] == plant::KeyContact::stuck_down) panel.key[i] = true;
    if (parts.keys[i] == plant::KeyContact::dead) panel.key[i] = false;
  }
}

void shake_guard_wire(plant::PlantState& plant) {
  plant::SafetyParts& parts = plant.safety;
  if (parts.guard_wire_loose_s <= 0.0) return;
  const bool open = parts.guard_wire_open();
  if (plant.shaft_rad_per_s > 0.0 || open) parts.guard_wire_shaken_s += machine::tick_s;
  if (parts.guard_wire_shaken_s >= parts.guard_wire_loose_s + plant::SafetyParts::loose_open_s)
    parts.guard_wire_shaken_s = 0.0;
}

}  // namespace stirbench::bench
