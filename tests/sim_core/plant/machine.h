#pragma once

#include <cmath>

#include "sim_core/plant/account.h"
#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/plant.h"
#include "tests/support/hm20_spec.h"
#include "tests/support/hm45_spec.h"

// Small things the plant's tests share.
namespace stirbench::tests {

inline product::Ingredient plain_water() {
  product::Ingredient i;
  i.fraction[product::Component::water] = 1.0;
  return i;
}

// A white base: 12 % fat, 10.9 % milk solids not fat, 16.5 % sucrose, 0.2 % stabiliser, everything dissolved.
inline product::Ingredient white_base() {
  using product::Component;
  product::Ingredient i;
  i.fraction[Component::water] = 0.604;
  i.fraction[Component::milk_fat] = 0.12;
  i.fraction[Component::milk_protein] = 0.04;
  i.fraction[Component::lactose] = 0.06;
  i.fraction[Component::sucrose] = 0.165;
  i.fraction[Component::milk_ash] = 0.009;
  i.fraction[Component::stabiliser] = 0.002;
  return i;
}

// What supply and trips leave of relays that a test holds in, guards shut and heat free of the drive's
// contact: the plant trusts what it is given, so here the wiring stands before it.
inline plant::Actuators fed(const plant::PlantState& state, const plant::Actuators& held) {
  using S = electrics::Switch;
  const electrics::Switches switches =
      plant::switches_of(state, {held.heat_norm > 0.0, held.drive_on, held.chiller_on})
          .with(S::lid_closed)
          .with(S::shaft_cover_closed);
  const double supply_norm = state.environment.supply_norm;
  const electrics::Switched on = electrics::switching_chain(switches, supply_norm > 0.0);
  const bool heat = electrics::switching_chain(switches.with(S::drive_welded), supply_norm > 0.0).heat;
  return {.heat_norm = heat ? held.heat_norm : 0.0,
          .drive_on = on.drive,
          .chiller_on = on.chill && supply_norm > electrics::compressor_least_norm};
}

struct Rig {
  plant::MachineSpec spec;
  plant::PlantState state;
  explicit Rig(const plant::MachineSpec& machine, double ambient_degC = 22.0) : spec(machine) {
    plant::Environment room;
    room.ambient_degC = ambient_degC;
    state = plant::initial_state(spec, room);
  }
  void pour(const product::Ingredient& what, double kg, double t_degC) {
    plant::pour(spec, state, what, kg, t_degC);
  }
  void run(const plant::Actuators& relays, double seconds) {
    for (long n = std::lround(10.0 * seconds); n > 0; --n) plant::step(spec, state, fed(state, relays), 0.1);
  }
  // Steps until done() or `most_s`; returns the seconds.
  template <typename Done>
  double run_until(const plant::Actuators& relays, double most_s, Done&& done) {
    long ticks = 0;
    while (!done() && 0.1 * static_cast<double>(ticks) < most_s) {
      plant::step(spec, state, fed(state, relays), 0.1);
      ++ticks;
    }
    return 0.1 * static_cast<double>(ticks);
  }
  double mean_degC() const { return plant::product_degC(state); }
  double residual_norm() const {
    return std::abs(plant::residual_J(spec, state)) / plant::moved_J(state.ledger);
  }
};

inline constexpr plant::Actuators heat_and_stir{1.0, true, false};
inline constexpr plant::Actuators chill_and_stir{0.0, true, true};
inline constexpr plant::Actuators stir_only{0.0, true, false};
inline constexpr plant::Actuators heat_only{1.0, false, false};
inline constexpr plant::Actuators nothing{0.0, false, false};

}  // namespace stirbench::tests
