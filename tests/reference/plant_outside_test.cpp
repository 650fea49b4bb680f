#include <doctest/doctest.h>

#include "sim_core/plant/outside.h"
#include "sim_core/plant/plant.h"
#include "sim_core/product/burns.h"
#include "tests/reference/report.h"
#include "tests/support/hm45_spec.h"

// What a hand meets outside: the insulated wall, and parts without insulation.
using namespace stirbench;
using namespace stirbench::plant;

namespace {

using tests::absolute;
using tests::at;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;

constexpr const char* part = "Environment";

}  // namespace

TEST_CASE("outer wall: bare and insulated, product at 85 and 95 degC in a room of 25") {
  const Source source =
      own_arithmetic("outer wall, films and insulation in series (h 9 outside, 1000 inside), by hand",
                     "two or three digits: 0.5 K");
  struct Row {
    double product_degC, W_per_mK, mm, outside_degC;
  };
  const Row rows[] = {{85, 0.025, 0, 84.5},  {85, 0.025, 5, 46.4},  {85, 0.025, 10, 38.0},
                      {85, 0.025, 20, 32.3}, {85, 0.025, 30, 30.1}, {85, 0.04, 5, 53.1},
                      {85, 0.04, 10, 43.4},  {85, 0.04, 20, 35.9},  {85, 0.04, 30, 32.7},
                      {95, 0.025, 0, 94.4},  {95, 0.025, 5, 49.9},  {95, 0.025, 10, 40.2},
                      {95, 0.025, 20, 33.5}, {95, 0.025, 30, 30.9}};
  for (const Row& row : rows) {
    const double to_room = 1.0e-3 * row.mm / row.W_per_mK + 1.0 / outside_W_per_m2K;
    const double flux = (row.product_degC - 25.0) / (to_room + 1.0e-3);
    const double wall_degC = row.product_degC - flux * 1.0e-3;
    reference_check(part, at("outside of the wall, degC,", row.product_degC, row.W_per_mK, row.mm),
                    outside_degC(wall_degC, 25.0, 0.42 / to_room, 0.42), row.outside_degC, absolute(0.5),
                    source);
  }
}

TEST_CASE("touch: an insulated side never burns, rim, lid, draw valve, drain and pump do") {
  // ISO 13732-1:2006, bare metal (from memory): 51 degC for a minute, 48 for ten.
  const MachineSpec spec = tests::hm45_spec();
  Environment room;
  room.ambient_degC = 25.0;
  PlantState state = initial_state(spec, room);
  product::Ingredient water;
  water.fraction[product::Component::water] = 1.0;
  pour(spec, state, water, 40.0, 85.0);
  state.vat_wall_degC = state.well_wall_degC = state.lid_degC = 85.0;
  CHECK(vat_outside_degC(spec, state) < 48.0);
  CHECK(well_outside_degC(spec, state) < 51.0);
  for (const BarePart bare :
       {BarePart::lid, BarePart::rim, BarePart::draw_valve, BarePart::drain, BarePart::pump})
    CHECK(product::touch_burns(product::Surface::bare_metal, bare_part_degC(state, bare), 0.5));
  // Insulation that is wet through lets more out, and its outside gets hotter; never hotter than the wall.
  state.health.insulation_factor = 2.0;
  const double wet_degC = vat_outside_degC(spec, state);
  state.health.insulation_factor = 30.0;
  CHECK(wet_degC > 60.0);
  CHECK(vat_outside_degC(spec, state) == doctest::Approx(85.0));
}
