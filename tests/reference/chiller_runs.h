#pragma once

#include "sim_core/plant/chiller.h"

namespace stirbench::tests {

// A circuit that has run until nothing moves.
inline refrigeration::ChillerGauges settled(const refrigeration::ChillerSpec& c,
                                            refrigeration::CycleBoundary setting) {
  prepare_condenser(c, setting);
  refrigeration::CycleState circuit{setting.load_degC - 8.0, setting.air_degC + 15.0, 0.3};
  for (int i = 0; i < 4000; ++i) advance_cycle(c, setting, circuit, 1.0);
  return cycle_rate(c, setting, circuit).gauges;
}

inline refrigeration::CycleBoundary cold_load(double load_degC, double air_degC) {
  refrigeration::CycleBoundary s;
  s.load_degC = load_degC;
  s.air_degC = air_degC;
  return s;
}

}  // namespace stirbench::tests
