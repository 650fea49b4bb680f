#include <doctest/doctest.h>

#include <cmath>
#include <utility>

#include "sim_core/plant/plant.h"
#include "sim_core/product/properties.h"
#include "tests/reference/report.h"
#include "tests/sim_core/plant/freezer_rig.h"
#include "tests/support/hm45_spec.h"

// Runs of the whole machine, or of one whole circuit of it, against what is published or usual.
using namespace stirbench;
using namespace stirbench::plant;
using tests::absolute;
using tests::at;
using tests::measured;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;

namespace {

constexpr const char* part = "Whole machine";

PlantState water_of(const MachineSpec& m, double kg, double t_degC, double room_degC) {
  Environment room;
  room.ambient_degC = room_degC;
  PlantState s = initial_state(m, room);
  product::Ingredient water;
  water.fraction[product::Component::water] = 1.0;
  pour(m, s, water, kg, t_degC);
  return s;
}

void run(const MachineSpec& m, PlantState& s, const Actuators& relays, double seconds) {
  for (long n = std::lround(10.0 * seconds); n > 0; --n) step(m, s, relays, 0.1);
}

}  // namespace

TEST_CASE("the chiller's figures while it pulls down, and near its aim") {
  const Source source =
      measured("common practice of small R-290 circuits with an expansion valve (from memory)",
               "half of the range that is called usual")
          .held_out()
          .of_whole_machine();
  const MachineSpec m = tests::hm45_spec();
  PlantState s = water_of(m, 40.0, 85.0, 25.0);
  run(m, s, {0.0, true, true}, 600.0);
  const refrigeration::ChillerGauges hot = s.chiller.gauges;
  reference_check(part, "ten minutes after 85 degC: evaporating temperature, degC", hot.evaporating_degC, 7.5,
                  2 * absolute(2.5), source);
  reference_check(part, "ten minutes after 85 degC: superheat, K", hot.superheat_K, 20.0, absolute(10.0),
                  source);
  reference_check(part, "ten minutes after 85 degC: subcooling, K", hot.subcooling_K, 7.5, 2 * absolute(2.5),
                  source);
  reference_check(part, "ten minutes after 85 degC: discharge, degC", hot.discharge_degC, 90.0,
                  2 * absolute(10.0), source);
  PlantState t = water_of(m, 40.0, 12.0, 25.0);
  for (int i = 0; i < 600 && product_degC(t) > 4.0; ++i) run(m, t, {0.0, true, true}, 10.0);
  const refrigeration::ChillerGauges cold = t.chiller.gauges;
  reference_check(part, "product 4 degC: superheat, K", cold.superheat_K, 6.0, 2 * absolute(2.0), source);
  reference_check(part, "product 4 degC: subcooling, K", cold.subcooling_K, 5.5, 2 * absolute(2.5), source);
}

// US Army TM 9-4120-381-14: at rest both gauges read alike and near saturation at the room's temperature.
TEST_CASE("gauges of a machine that has stood for a night") {
  const Source source = measured(
                            "Lemmon et al. 2009 as tabulated by calculators (from memory), saturation at the "
                            "room's temperature, as US Army TM 9-4120-381-14 has it for a plant at rest",
                            "a quarter of a kelvin between room and condenser: 0.7 %")
                            .held_out()
                            .of_whole_machine();
  const MachineSpec m = tests::hm45_spec();
  for (const auto& [room, bar] : {std::pair{15.0, 7.315}, {25.0, 9.521}, {35.0, 12.18}}) {
    PlantState s = water_of(m, 30.0, room, room);
    run(m, s, {0.0, true, true}, 600.0);
    run(m, s, {0.0, true, false}, 8.0 * 3600.0);
    reference_check(part, at("suction at rest, bar, room degC", room), s.chiller.gauges.suction_bar, bar,
                    3 * relative(0.007), source);
    reference_check(part, at("head at rest, bar, room degC", room), s.chiller.gauges.discharge_bar, bar,
                    3 * relative(0.007), source);
  }
}

TEST_CASE("a full charge of the batch freezer") {
  const Source source = measured(
                            "common practice of batch freezers: drawn at -5 to -6 degC, overrun 20 to 60 % "
                            "(from memory); the freezer's constants were chosen in these ranges",
                            "half of the range that is called usual")
                            .fitted_on()
                            .of_whole_machine();
  tests::freezer::Frozen batch = tests::freezer::frozen(tests::freezer::Charge{});
  reference_check(part, "batch freezer: overrun at -5.8 degC, %", 100.0 * overrun_norm(batch.freezer), 40.0,
                  absolute(20.0), source);
  reference_check(part, "batch freezer: minutes to -5.8 degC", batch.minutes, 10.0, 2 * absolute(2.0),
                  source);
}

TEST_CASE("heating and standing: the first law over the whole machine") {
  const Source source =
      own_arithmetic("name plate's power over the heat capacity of water, walls, elements and evaporator",
                     "losses to the room and work of the agitator, 1 % of 6 kW")
          .of_whole_machine();
  const MachineSpec m = tests::hm45_spec();
  for (const double kg : {20.0, 40.0}) {
    PlantState s = water_of(m, kg, 20.0, 25.0);
    run(m, s, {1.0, true, false}, 300.0);
    const double from_degC = product_degC(s);
    run(m, s, {1.0, true, false}, 300.0);
    const double capacity = kg * 4180.0 + m.elements.mass_kg * m.elements.cp_J_per_kgK +
                            m.well.wall_mass_kg * m.well.wall_cp_J_per_kgK +
                            m.vat.wall_mass_kg * m.vat.wall_cp_J_per_kgK +
                            m.chiller.evaporator_mass_kg * m.chiller.evaporator_cp_J_per_kgK;
    reference_check(part, at("rise in five minutes of full heat, K, water kg", kg),
                    product_degC(s) - from_degC, 300.0 * 6000.0 / capacity, 2 * relative(0.01), source);
  }
}
