#include <doctest/doctest.h>

#include <algorithm>
#include <cstdint>

#include "sim_core/plant/freezer/freezer.h"
#include "tests/sim_core/plant/machine.h"

// Anything that hands and relays can do, in any order: finite, bounded, and the accounts close.
using namespace stirbench;
using namespace stirbench::tests;
using namespace stirbench::plant;

namespace {

struct Dice {
  std::uint64_t word;
  double norm() {
    word ^= word << 13;
    word ^= word >> 7;
    word ^= word << 17;
    return static_cast<double>(word >> 11) * 0x1.0p-53;
  }
  double range(double low, double high) { return low + (high - low) * norm(); }
  bool often(double chance) { return norm() < chance; }
};

product::Ingredient any_ingredient(Dice& dice) {
  product::Ingredient i;
  const double kind = dice.norm();
  if (kind < 0.35) return white_base();
  if (kind < 0.6) return plain_water();
  if (kind < 0.75) {
    i.fraction[product::Component::sucrose] = 1.0;
    i.form = product::Form::crystals;
  } else if (kind < 0.85) {
    i.fraction[product::Component::milk_protein] = 0.36;
    i.fraction[product::Component::lactose] = 0.52;
    i.fraction[product::Component::milk_ash] = 0.08;
    i.fraction[product::Component::water] = 0.04;
    i.form = product::Form::powder;
  } else if (kind < 0.92) {
    i.fraction[product::Component::other_fat] = 1.0;
  } else {
    i.fraction[product::Component::stabiliser] = 1.0;
    i.form = product::Form::gum;
    i.hydration_degC = 60.0;
  }
  return i;
}

void change_something(Dice& dice, Rig& rig, Actuators& relays) {
  Fittings& f = rig.state.fittings;
  if (dice.often(0.3)) relays.heat_norm = dice.often(0.5) ? 1.0 : dice.norm();
  if (dice.often(0.2)) relays.heat_norm = 0.0;
  if (dice.often(0.3)) relays.drive_on = !relays.drive_on;
  if (dice.often(0.3)) relays.chiller_on = !relays.chiller_on;
  if (dice.often(0.2)) f.lid_open = !f.lid_open;
  if (dice.often(0.1)) f.rinse_on = !f.rinse_on;
  if (dice.often(0.3)) f.draw_opening_norm = dice.often(0.6) ? 0.0 : dice.norm();
  if (dice.often(0.1)) f.hose = static_cast<HoseEnd>(static_cast<int>(dice.range(0.0, 2.999)));
  if (dice.often(0.1) && !rig.state.freezer.tripped) start_freezer(rig.state.freezer);
  if (dice.often(0.1)) rig.state.freezer.inlet_open = !rig.state.freezer.inlet_open;
  if (dice.often(0.1)) rig.state.freezer.gate_norm = dice.often(0.5) ? 0.0 : dice.norm();
  if (dice.often(0.05)) reset_freezer(rig.state.freezer);
  if (dice.often(0.05)) rig.state.environment.supply_norm = dice.often(0.7) ? 1.0 : dice.range(0.0, 1.2);
  if (dice.often(0.05)) rig.state.environment.ambient_degC = dice.range(-10.0, 45.0);
  if (dice.often(0.1)) reset_overload(rig.state);
  if (dice.often(0.1)) reset_cutout(rig.spec, rig.state);
  if (dice.often(0.35))
    rig.pour(any_ingredient(dice), dice.range(0.001, dice.often(0.5) ? 3.0 : 40.0), dice.range(-2.0, 100.0));
}

bool within(double value, double low, double high) { return value >= low && value <= high; }

// One check a second instead of hundreds of thousands of assertions.
bool sane(const PlantState& s) {
  bool good = true;
  for (const double t : {s.element_degC, s.well_wall_degC}) good = good && within(t, -50.0, 350.0);
  for (const double t : {s.well_degC, s.vat_degC}) good = good && within(t, -50.0, 180.0);
  for (const double t :
       {s.vat_wall_degC, s.evaporator_degC, s.lid_degC, s.head_space_degC, s.probe_degC, s.pail_degC})
    good = good && within(t, -50.0, 180.0);
  for (const double kg : s.product.mass_kg.value) good = good && within(kg, 0.0, 200.0);
  good = good && within(s.well_kg, 0.0, 200.0) && within(s.wall_ice_kg, 0.0, 60.0) &&
         within(s.prime_norm, 0.0, 1.0);
  good = good && within(s.deposit_kg_per_m2, 0.0, 3.0) && within(s.product.air_norm, 0.0, 0.5);
  good = good && within(s.shaft_rad_per_s, 0.0, 20.0) && within(s.motor_heat_norm, 0.0, 50.0);
  for (const BushingState& b : {s.agitator_bushing, s.shaft_end_bushing})
    good = good && within(b.play_mm, 0.0, 3.0) && within(b.temperature_degC, -50.0, 321.0);
  const Flows& f = s.flows;
  for (const double x : {f.heaters_W, f.chiller_W, f.compressor_W, f.motor_A, f.agitator_rpm, f.torque_Nm,
                         f.circulation_L_per_min, f.draw_L_per_min, f.spill_L_per_min, f.steam_kg_per_h,
                         f.suction_bar, f.discharge_bar})
    good = good && within(x, 0.0, 1.0e6);
  return good;
}

}  // namespace

TEST_CASE("200 random half hours") {
  double worst = 0.0;
  for (std::uint64_t seed = 1; seed <= 200; ++seed) {
    Dice dice{seed * 0x9e3779b97f4a7c15ULL};
    for (int i = 0; i < 10; ++i) dice.norm();
    Rig rig(seed % 4 == 0 ? hm20_spec() : hm45_spec(), dice.range(5.0, 40.0));
    Actuators relays;
    bool good = true;
    for (int spell = 0; spell < 60 && good; ++spell) {
      change_something(dice, rig, relays);
      const int seconds = static_cast<int>(dice.range(1.0, 60.0));
      for (int s = 0; s < seconds && good; ++s) {
        rig.run(relays, 1.0);
        good = sane(rig.state);
      }
    }
    CAPTURE(seed);
    REQUIRE(good);
    const double moved = std::max(1.0e5, moved_J(rig.state.ledger));
    const double off = std::abs(residual_J(rig.spec, rig.state)) / moved;
    worst = std::max(worst, off);
    CHECK(off < 1.0e-3);
    CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-9 * std::max(1.0, rig.state.masses.poured_kg));
    const FreezerLedger& l = rig.state.freezer.ledger;
    const double frozen_J = l.arrived_J + l.dasher_J - l.refrigerant_J;
    CHECK(std::abs(freezer_residual_J(rig.state.freezer)) < 1.0e-3 * std::max(1.0e5, std::abs(frozen_J)));
    CHECK(std::abs(freezer_mass_residual_kg(rig.state.freezer)) <
          1.0e-9 * std::max(1.0, rig.state.masses.poured_kg));
  }
  MESSAGE("largest energy residual " << worst << " of what moved");
}
