#include "sim_core/plant/upkeep/cleaning.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>

#include "sim_core/plant/plant.h"
#include "tests/sim_core/plant/machine.h"
#include "tests/support/assembly_rules.h"

// Washing: film, removal, setting on, sanitising, carry-over. Conservation first, then published tables, then
// directions.
using namespace stirbench;
using namespace stirbench::plant;
using namespace stirbench::tests;

namespace {

using product::Component;

// The table of the FDA Food Code 4-501.114(A) at pH up to 10, contact 4-703.11(C).
const std::vector<SanitiserLine> food_code = {{25.0, 49.0, 10.0}, {50.0, 38.0, 10.0}, {100.0, 13.0, 10.0}};

MachineSpec machine() {
  MachineSpec spec = hm45_spec();
  spec.assembly = assembly_rules();
  spec.sanitiser = food_code;
  return spec;
}

void drain(Rig& rig) {
  rig.state.fittings.draw_opening_norm = 1.0;
  rig.run_until(nothing, 1800.0, [&] { return rig.state.product.total_kg() <= 0.0; });
  rig.state.fittings.draw_opening_norm = 0.0;
}

Rig dirty() {
  Rig rig(machine());
  rig.pour(white_base(), 30.0, 5.0);
  rig.run(stir_only, 30.0);
  rig.run(nothing, 30.0);
  drain(rig);
  return rig;
}

// Fills with water and alkali, stirs, drains; how much of the soil is left.
double left_after(double degC, double alkaline_kg, double seconds, bool stirred, double dried_s = 0.0) {
  Rig rig = dirty();
  rig.run(nothing, dried_s);
  const double before = vat_soil_ug(rig.spec, rig.state);
  rig.pour(plain_water(), 25.0, degC);
  if (alkaline_kg > 0.0)
    dose(rig.spec, rig.state, &product::Product::alkaline_kg, 10.0 * alkaline_kg, alkaline_kg);
  rig.run(stirred ? stir_only : nothing, seconds);
  return vat_soil_ug(rig.spec, rig.state) / before;
}

}  // namespace

TEST_CASE("what clings is the film of a draining wall, and is missing from what was drawn") {
  // Jeffreys 1930 (from memory), by hand: mu 0.02 Pa s, rho 1000, H = 45 L over a vat of 0.38 m, t 60 s.
  const double height = 0.045 / (0.25 * 3.14159265358979 * 0.38 * 0.38);
  const double film = 2.0 / 3.0 * std::sqrt(0.02 * height / (1000.0 * 9.81 * 60.0));
  CHECK(clinging_kg(machine(), 0.02, 1000.0) == doctest::Approx(film * 1000.0 * 0.62).epsilon(1e-9));
  const Rig rig = dirty();
  const double film_kg = rig.state.soil.film.total_kg();
  CHECK(film_kg > 0.01);
  CHECK(film_kg < 0.3);
  CHECK(rig.state.masses.clung_kg == doctest::Approx(film_kg).epsilon(1e-12));
  CHECK(rig.state.pail.total_kg() + rig.state.floor_kg + film_kg + rig.state.masses.evaporated_kg ==
        doctest::Approx(30.0).epsilon(1e-9));
  CHECK(std::abs(residual_J(rig.spec, rig.state)) < 1.0e-4 * moved_J(rig.state.ledger));
}

TEST_CASE("soil is conserved to 1e-9 through rinse, wash, rinse, component by component") {
  Rig rig = dirty();
  // Everything goes on in the same pail; what splashes to the floor is not told apart, so the valve is opened
  // little.
  const double floor_kg = rig.state.floor_kg;
  const auto lactose = [&] {
    return rig.state.pail.mass_kg[Component::lactose] + rig.state.product.mass_kg[Component::lactose] +
           rig.state.soil.film.mass_kg[Component::lactose];
  };
  const double before = lactose();
  for (const double degC : {40.0, 60.0, 40.0}) {
    rig.pour(plain_water(), 20.0, degC);
    if (degC > 50.0) dose(rig.spec, rig.state, &product::Product::alkaline_kg, 0.8, 0.08);
    rig.run(stir_only, 120.0);
    rig.run(nothing, 20.0);
    rig.state.fittings.hose = HoseEnd::pail;
    drain(rig);
  }
  const double splashed = rig.state.floor_kg - floor_kg;
  CHECK(splashed < 0.2);
  CHECK(std::abs(lactose() - before) < 1.0e-9 + 0.01 * splashed);
  CHECK(std::abs(mass_residual_kg(rig.state)) < 1.0e-9);
  // The alkali is where its water went, too.
  const double alkali =
      rig.state.pail.alkaline_kg + rig.state.product.alkaline_kg + rig.state.soil.film.alkaline_kg;
  CHECK(std::abs(alkali - 0.08) < 1.0e-9 + 0.01 * splashed);
  CHECK(rig.state.soil.film.alkaline_kg > 0.0);
  // A baked deposit goes into the water and nowhere else.
  rig.state.deposit_kg_per_m2 = 0.05;
  rig.pour(plain_water(), 20.0, 60.0);
  const double burnt = rig.state.product.scorched_kg + 0.05 * rig.spec.well.heated_area_m2;
  rig.run(stir_only, 300.0);
  CHECK(rig.state.deposit_kg_per_m2 < 0.05);
  const double now =
      rig.state.product.scorched_kg + rig.state.deposit_kg_per_m2 * rig.spec.well.heated_area_m2;
  CHECK(now == doctest::Approx(burnt).epsilon(1e-9));
}

TEST_CASE(
    "removal is of first order: the closed form of one temperature, and twice the time squares what is "
    "left") {
  const WashLiquid at_40{.degC = 40.0, .alkaline_norm = 0.0, .stir_norm = 1.0, .reach_norm = 1.0};
  CHECK(loose_rate_per_s(at_40) == doctest::Approx(1.0 / 40.0).epsilon(1e-12));
  WashLiquid at_60 = at_40;
  at_60.degC = 60.0;
  at_60.alkaline_norm = 0.005;
  CHECK(set_rate_per_s(at_60) == doctest::Approx(1.02 / 150.0).epsilon(1e-12));
  // Arrhenius by hand: exp(50e3 / 8.314 (1/333.15 - 1/343.15)).
  WashLiquid at_70 = at_60;
  at_70.degC = 70.0;
  CHECK(set_rate_per_s(at_70) / set_rate_per_s(at_60) ==
        doctest::Approx(std::exp(50.0e3 / 8.314 * (1.0 / 333.15 - 1.0 / 343.15))).epsilon(1e-9));
  Rig rig = dirty();
  rig.state.soil.set_norm = 0.0;
  rig.pour(plain_water(), 30.0, 40.0);
  rig.run(stir_only, 10.0);
  const double a = rig.state.soil.film.total_kg();
  rig.run(stir_only, 60.0);
  const double b = rig.state.soil.film.total_kg();
  rig.run(stir_only, 60.0);
  const double c = rig.state.soil.film.total_kg();
  CHECK(b < 0.5 * a);
  CHECK(c / b == doctest::Approx(b / a).epsilon(0.15));  // the water cools a little, some of it sets
}

TEST_CASE("too weak, too cold, too short, not stirred, dried on: each leaves more") {
  constexpr double dried_s = 4.0 * 3600.0;
  const double good = left_after(60.0, 0.12, 600.0, true, dried_s);
  CHECK(good < 0.1);
  CHECK(left_after(60.0, 0.0, 600.0, true, dried_s) > 5.0 * good);
  CHECK(left_after(60.0, 0.03, 600.0, true, dried_s) > 1.5 * good);
  CHECK(left_after(25.0, 0.12, 600.0, true, dried_s) > 2.0 * good);
  CHECK(left_after(60.0, 0.12, 120.0, true, dried_s) > 2.0 * good);
  CHECK(left_after(60.0, 0.12, 600.0, false, dried_s) > 2.0 * good);
  CHECK(left_after(40.0, 0.0, 300.0, true, dried_s) > 3.0 * left_after(40.0, 0.0, 300.0, true, 0.0));
  // Hot water first sets the protein on.
  Rig warm = dirty(), hot = dirty();
  warm.pour(plain_water(), 25.0, 40.0);
  hot.pour(plain_water(), 25.0, 75.0);
  for (Rig* rig : {&warm, &hot}) rig->run(stir_only, 240.0);
  CHECK(hot.state.soil.set_norm * hot.state.soil.film.total_kg() >
        1.5 * warm.state.soil.set_norm * warm.state.soil.film.total_kg());
}

TEST_CASE(
    "sanitiser: each line of the Food Code's table takes five decades in its contact time, and weaker, "
    "colder, shorter less") {
  for (const SanitiserLine& line : food_code) {
    CHECK(kill_per_mg_L_s(food_code, line.least_degC) * line.from_mg_per_L * line.contact_s ==
          doctest::Approx(5.0).epsilon(1e-9));
    CHECK(met_line(food_code, line.from_mg_per_L, line.least_degC) != nullptr);
    CHECK(met_line(food_code, line.from_mg_per_L, line.least_degC - 0.5) == nullptr);
  }
  CHECK(met_line(food_code, 24.0, 60.0) == nullptr);
  CHECK(kill_per_mg_L_s(food_code, 13.0) < kill_per_mg_L_s(food_code, 25.0));
  CHECK(kill_per_mg_L_s(food_code, 5.0) < kill_per_mg_L_s(food_code, 13.0));
  CHECK(kill_per_mg_L_s({}, 40.0) == 0.0);
  // Hot water: 77 degC for 30 s (Food Code 4-501.111).
  CHECK(30.0 * heat_kill_log10_per_s(77.0) == doctest::Approx(5.0).epsilon(1e-12));
  const auto germs_after = [](double mg_per_L, double degC, double seconds, double film_kg) {
    Rig rig(machine());
    rig.state.soil.germs_log10 = 3.0;
    if (film_kg > 0.0) {
      for (std::size_t i = 0; i < product::component_count; ++i)
        rig.state.soil.film.mass_kg.value[i] = film_kg * white_base().fraction.value[i];
      rig.state.soil.set_norm = 1.0;
      rig.state.masses.clung_kg = film_kg;
    }
    rig.pour(plain_water(), 25.0, degC);
    dose(rig.spec, rig.state, &product::Product::chlorine_kg, 0.05, mg_per_L * 25.0e-6);
    rig.run(stir_only, seconds);
    return rig.state.soil.germs_log10;
  };
  const double good = germs_after(110.0, 25.0, 30.0, 0.0);
  CHECK(good < -2.0);
  CHECK(germs_after(10.0, 25.0, 30.0, 0.0) > good + 0.5);
  CHECK(germs_after(30.0, 5.0, 30.0, 0.0) > good + 0.5);
  CHECK(germs_after(110.0, 25.0, 8.0, 0.0) > good);
  CHECK(germs_after(110.0, 25.0, 30.0, 0.02) > 2.0);  // never sanitise a dirty surface
}

TEST_CASE("residues end up in the next batch: allergen by its protein, cleaner by its alkali") {
  const auto next = [](bool rinsed) {
    Rig rig = dirty();
    if (rinsed) {
      for (int i = 0; i < 3; ++i) {
        rig.pour(plain_water(), 25.0, 45.0);
        rig.run(stir_only, 300.0);
        rig.run(nothing, 20.0);
        drain(rig);
      }
    }
    rig.pour(plain_water(), 30.0, 5.0);
    rig.run(stir_only, 600.0);
    return 1.0e6 * rig.state.product.mass_kg[Component::milk_protein] / rig.state.product.total_kg();
  };
  CHECK(next(false) > 20.0);  // mg/kg
  CHECK(next(true) < 1.0);
  Rig rig(machine());
  rig.pour(plain_water(), 25.0, 50.0);
  dose(rig.spec, rig.state, &product::Product::alkaline_kg, 1.0, 0.1);
  rig.run(stir_only, 60.0);
  rig.run(nothing, 20.0);
  drain(rig);
  rig.pour(white_base(), 30.0, 5.0);
  rig.run(stir_only, 300.0);
  CHECK(rig.state.product.alkaline_kg > 1.0e-5);
}

TEST_CASE("the valve's parts keep what flow does not reach; a swab reads in steps and falls with the soil") {
  Rig rig = dirty();
  CHECK(valve_soil_ug(rig.state) > 3.9e5);
  rig.pour(plain_water(), 25.0, 45.0);
  rig.run(stir_only, 30.0);
  drain(rig);
  CHECK(valve_soil_ug(rig.state) >= 0.5 * 4.0e5);
  CHECK(valve_soil_ug(rig.state) < 0.52 * 4.0e5);
  CHECK(swab_reading_ug(47.0) == 50.0);
  CHECK(swab_reading_ug(4.0) == 0.0);
  CHECK(vat_soil_ug(rig.spec, rig.state) < vat_soil_ug(rig.spec, dirty().state));
}
