#pragma once

#include <doctest/doctest.h>

#include <algorithm>

#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/freezer/freezer_laws.h"
#include "tests/sim_core/plant/machine.h"

// A batch freezer with a charge in it, for tests.
namespace stirbench::tests::freezer {

using namespace plant;

struct Charge {
  double litres = 5.5;
  double degC = 4.0;
  double age_norm = 0.95;
  double dry_gum_norm = 0.0;  // share of the stabiliser that is not hydrated
};

// A vat of white base, the hose to the freezer, and the charge in it.
inline Rig charged(const Charge& charge, const MachineSpec& spec = hm45_spec()) {
  Rig rig(spec);
  rig.pour(white_base(), 0.9 * spec.vat.working_L, charge.degC);
  rig.state.product.age_norm = charge.age_norm;
  rig.state.product.dry_gum_kg =
      charge.dry_gum_norm * rig.state.product.mass_kg[product::Component::stabiliser];
  rig.run(stir_only, 40.0);
  rig.state.fittings.hose = HoseEnd::freezer;
  rig.state.fittings.draw_opening_norm = 0.2;
  rig.run_until(stir_only, 600.0, [&] { return mix_L(rig.state.freezer) >= charge.litres; });
  rig.state.fittings.draw_opening_norm = 0.0;
  rig.run(stir_only, 1.0);
  return rig;
}

// Frozen by the thermometer, as when its display is all that is looked at; stops on a trip.
struct Frozen {
  double minutes = 0.0;
  FreezerState freezer;
};
inline Frozen frozen(Rig& rig, double to_degC = -5.8) {
  start_freezer(rig.state.freezer);
  const double s = rig.run_until(
      nothing, 3600.0, [&] { return rig.state.freezer.degC <= to_degC || rig.state.freezer.tripped; });
  return {s / 60.0, rig.state.freezer};
}
inline Frozen frozen(const Charge& charge) {
  Rig rig = charged(charge);
  rig.state.freezer.inlet_open = false;
  return frozen(rig);
}

inline void accounts_close(const FreezerState& f) {
  const FreezerLedger& l = f.ledger;
  const double moved_J =
      std::abs(l.arrived_J) + std::abs(l.left_J) + l.dasher_J - l.refrigerant_J + std::abs(l.room_J);
  CHECK(std::abs(freezer_residual_J(f)) < 1.0e-6 * std::max(1.0e5, moved_J));
  CHECK(std::abs(freezer_mass_residual_kg(f)) < 1.0e-9);
}

}  // namespace stirbench::tests::freezer
