#include "app/desk/work/run/seen_state.h"

#include "sim_core/control/controller.h"
#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/plant.h"

namespace stirbench::desk::work {

machine::State as_seen(const machine::State& state) {
  machine::State seen = state;
  plant::PlantState& p = seen.plant;
  const double room_degC = p.environment.ambient_degC;
  const double shown_degC =
      state.control.mode == control::Mode::off ? room_degC : plant::probe_reading_degC(state.plant);
  p.well_degC = p.vat_degC = shown_degC;
  p.element_degC = p.well_wall_degC = p.vat_wall_degC = room_degC;
  p.flows.heaters_W = p.flows.chiller_W = 0.0;
  p.compressor_on = false;
  for (plant::BushingState* one : {&p.agitator_bushing, &p.shaft_end_bushing}) {
    one->play_mm = 0.0;
    one->temperature_degC = room_degC;
  }
  if (p.product.total_kg() > 1.0e-3) p.deposit_kg_per_m2 = 0.0;
  return seen;
}

}  // namespace stirbench::desk::work
