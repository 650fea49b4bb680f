#pragma once

#include "sim_core/control/controller.h"
#include "sim_core/electrics/switching.h"

// What the loads get of a controller's outputs on a machine without a circuit, with the switches as readings
// and fittings tell them.
namespace stirbench::tests {

inline plant::Actuators relays(const control::Outputs& outputs, const plant::SensorReadings& readings,
                               const plant::Fittings& fittings, const plant::SafetyParts& parts = {}) {
  using S = electrics::Switch;
  electrics::Switches switches;
  switches.set(S::heat_wanted, outputs.heat_norm > 0.0);
  switches.set(S::drive_wanted, outputs.drive);
  switches.set(S::chill_wanted, outputs.chill);
  switches.set(S::isolator_on, fittings.isolator_on);
  switches.set(S::lid_closed, readings.lid_closed);
  switches.set(S::shaft_cover_closed, readings.shaft_cover_closed);
  switches.set(S::cutout_tripped, readings.cutout_tripped);
  switches.set(S::overload_tripped, readings.overload_tripped);
  switches.set(S::pressure_tripped, readings.pressure_tripped);
  switches.set(S::emergency_stop_open, readings.emergency_stop_in);
  switches.set(S::heat_welded, parts.heat_welded);
  switches.set(S::drive_welded, parts.drive_welded);
  switches.set(S::chill_welded, parts.chill_welded);
  switches.set(S::emergency_welded, parts.emergency_contactor_welded);
  const electrics::Switched on = electrics::switching_chain(switches, readings.supply_on);
  return {.heat_norm = on.heat ? 1.0 : 0.0, .drive_on = on.drive, .chiller_on = on.chill};
}

}  // namespace stirbench::tests
