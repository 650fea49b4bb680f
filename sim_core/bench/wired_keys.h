#pragma once

#include "sim_core/machine/state.h"

// Keys and guard wire as they are wired, with what is wrong with them.
namespace stirbench::bench {

// What of the fingers on the keys reaches the controller.
void press_keys_as_wired(const plant::SafetyParts& parts, control::PanelInputs& panel);
// A loose wire of the guard loop opens for a moment, now and then, while the drive turns. Called once a tick.
void shake_guard_wire(plant::PlantState& plant);

}  // namespace stirbench::bench
