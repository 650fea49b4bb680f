#include <doctest/doctest.h>

#include <cmath>
#include <string>
#include <vector>

#include "sim_core/plant/chiller.h"
#include "tests/reference/chiller_runs.h"
#include "tests/reference/report.h"
#include "tests/support/hm45_spec.h"

// What gauges show of a faulty circuit, against published directions.
using namespace stirbench;
using namespace stirbench::refrigeration;
using tests::cold_load;
using tests::direction_check;
using tests::measured;
using tests::settled;
using tests::Source;

namespace {

constexpr const char* part = "Chiller";

// -1, 0, +1: how a gauge moved against the healthy plant; `dead` is what a gauge set does not show.
int moved(double faulty, double healthy, double dead) {
  return std::abs(faulty - healthy) < dead ? 0 : faulty > healthy ? 1 : -1;
}

struct Signature {
  const char* fault;
  ChillerHealth health;
  int evaporating, superheat, condensing, subcooling, discharge, air_rise, capacity;
  bool published_capacity = true;
};

ChillerHealth fixed_orifice() {
  ChillerHealth k;
  k.valve_stuck_norm = 0.55;
  return k;
}

}  // namespace

// Rossi & Braun 1997 (rule set as reprinted with a rooftop-unit report, Table 1-1): directions of the gauges
// with a fixed orifice. Its last column, the air's fall over the evaporator, is our cooling (the load's flow
// does not change); in its row of the fouled evaporator that column rises because the air flow falls, which a
// wrapped vat does not have, so there cooling is asserted to fall.
TEST_CASE("fault signatures with a fixed orifice have the published directions") {
  const ChillerSpec c = tests::hm45_spec().chiller;
  CycleBoundary setting = cold_load(2.0, 25.0);
  setting.health = fixed_orifice();
  const ChillerGauges base = settled(c, setting);
  CHECK(base.superheat_K > 2.0);
  CHECK(base.subcooling_K > 3.0);
  const Source source =
      measured(
          "Rossi & Braun 1997, rule set of a fixed orifice, as reprinted with a rooftop-unit "
          "report, Table 1-1",
          "a direction is right or wrong")
          .held_out();
  std::vector<Signature> rows = {
      {"low charge", fixed_orifice(), -1, 1, -1, -1, 1, -1, -1},
      // The printed table has the discharge temperature fall. With a fixed orifice it does here too, because
      // the superheat goes; that physically it rises is checked below with the superheat held.
      {"compressor valve leak", fixed_orifice(), 1, -1, -1, -1, -1, -1, -1},
      {"liquid-line restriction", fixed_orifice(), -1, 1, -1, 1, 1, -1, -1},
      {"condenser fouling", fixed_orifice(), 1, -1, 1, -1, 1, 1, -1},
      {"evaporator fouling", fixed_orifice(), -1, -1, -1, -1, -1, -1, -1, false}};
  rows[0].health.charge_norm = 0.65;
  rows[1].health.compressor_leak_norm = 0.12;
  rows[2].health.restriction_norm = 0.88;
  rows[3].health.condenser_fouling_norm = 0.3;
  rows[4].health.evaporator_fouling_norm = 0.35;
  for (const Signature& row : rows) {
    CAPTURE(row.fault);
    setting.health = row.health;
    const ChillerGauges g = settled(c, setting);
    const auto says = [&](const char* what, double faulty, double healthy, double dead, int published) {
      direction_check(part, std::string(row.fault) + ": " + what, moved(faulty, healthy, dead), published,
                      source);
    };
    says("evaporating temperature", g.evaporating_degC, base.evaporating_degC, 0.1, row.evaporating);
    says("superheat", g.superheat_K, base.superheat_K, 0.1, row.superheat);
    says("condensing temperature", g.condensing_degC, base.condensing_degC, 0.1, row.condensing);
    says("subcooling", g.subcooling_K, base.subcooling_K, 0.1, row.subcooling);
    says("discharge temperature", g.discharge_degC, base.discharge_degC, 0.1, row.discharge);
    says("rise of the condenser's air", g.air_off_degC - g.air_on_degC, base.air_off_degC - base.air_on_degC,
         0.05, row.air_rise);
    if (row.published_capacity)
      says("cooling", g.cooling_W, base.cooling_W, 5.0, row.capacity);
    else
      CHECK(moved(g.cooling_W, base.cooling_W, 5.0) == row.capacity);
  }
}

// What technicians' charts say of a plant with a thermostatic valve (physics reference section 8, trade
// chart).
TEST_CASE("faults behind a thermostatic valve read as the trade's chart says") {
  const ChillerSpec c = tests::hm45_spec().chiller;
  CycleBoundary setting = cold_load(-5.0, 25.0);
  const ChillerGauges base = settled(c, setting);
  CHECK(base.superheat_K > 3.0);
  CHECK(base.superheat_K < 8.0);
  CHECK(base.subcooling_K > 3.0);
  CHECK(base.subcooling_K < 9.0);
  const auto with = [&](auto&& change) {
    CycleBoundary s = setting;
    change(s.health);
    return settled(c, s);
  };
  const Source manual =
      measured(
          "US Army TM 9-4110-255 and TM 9-4120-381-14, trouble charts of a plant with expansion valve, with "
          "common practice where they are silent (from memory)",
          "a direction is right or wrong")
          .held_out();
  const auto says = [&](const char* what, double faulty, double healthy, double dead, int published) {
    direction_check(part, std::string("expansion valve, ") + what, moved(faulty, healthy, dead), published,
                    manual);
  };
  // A thermostatic valve holds to about 85 % of the charge (rule of thumb, from memory): capacity within a
  // few per cent, subcooling already gone; then bubbles, high superheat, low suction, low head, low current.
  const ChillerGauges short_of = with([](ChillerHealth& k) { k.charge_norm = 0.85; });
  CHECK(short_of.cooling_W > 0.95 * base.cooling_W);
  CHECK(short_of.subcooling_K < 0.5 * base.subcooling_K);
  const ChillerGauges low = with([](ChillerHealth& k) { k.charge_norm = 0.5; });
  says("half charge: suction", low.suction_bar, base.suction_bar, 0.02, -1);
  says("half charge: head", low.discharge_bar, base.discharge_bar, 0.05, -1);
  says("half charge: superheat", low.superheat_K, base.superheat_K, 2.0, 1);
  says("half charge: subcooling", low.subcooling_K, base.subcooling_K, 0.5, -1);
  CHECK(low.subcooling_K < 1.0);
  CHECK(low.flash_norm > 0.05);
  says("half charge: current", low.compressor_W, base.compressor_W, 5.0, -1);
  says("half charge: cooling", low.cooling_W, base.cooling_W, 0.1 * base.cooling_W, -1);
  // Overcharge: head up, subcooling up, current up.
  const ChillerGauges over = with([](ChillerHealth& k) { k.charge_norm = 1.2; });
  says("overcharge: head", over.discharge_bar, base.discharge_bar, 0.05, 1);
  says("overcharge: suction", over.suction_bar, base.suction_bar, 0.1, 0);
  says("overcharge: subcooling", over.subcooling_K, base.subcooling_K, 0.5, 1);
  says("overcharge: current", over.compressor_W, base.compressor_W, 5.0, 1);
  // Weak valves: suction up, head down, current down; with the superheat held the discharge gets hotter.
  const ChillerGauges leak = with([](ChillerHealth& k) { k.compressor_leak_norm = 0.25; });
  says("weak compressor valves: suction", leak.suction_bar, base.suction_bar, 0.02, 1);
  says("weak compressor valves: head", leak.discharge_bar, base.discharge_bar, 0.05, -1);
  says("weak compressor valves: current", leak.compressor_W, base.compressor_W, 5.0, -1);
  CHECK(leak.discharge_degC > base.discharge_degC);
  // Restriction: suction down, superheat up.
  const ChillerGauges choked = with([](ChillerHealth& k) { k.restriction_norm = 0.93; });
  says("restriction: suction", choked.suction_bar, base.suction_bar, 0.02, -1);
  says("restriction: current", choked.compressor_W, base.compressor_W, 5.0, -1);
  says("restriction: subcooling", choked.subcooling_K, base.subcooling_K, 0.3, 1);
  says("restriction: superheat", choked.superheat_K, base.superheat_K, 2.0, 1);
  // Dirty condenser, then no fan at all: head up, head beyond the switch; power up, capacity down.
  const ChillerGauges dirty = with([](ChillerHealth& k) { k.condenser_fouling_norm = 0.5; });
  says("dirty condenser: head", dirty.discharge_bar, base.discharge_bar, 2.0, 1);
  says("dirty condenser: current", dirty.compressor_W, base.compressor_W, 5.0, 1);
  says("dirty condenser: discharge temperature", dirty.discharge_degC, base.discharge_degC, 1.0, 1);
  says("dirty condenser: cooling", dirty.cooling_W, base.cooling_W, 5.0, -1);
  const ChillerGauges no_fan = with([](ChillerHealth& k) { k.fan_norm = 0.0; });
  CHECK(no_fan.discharge_bar > c.high_pressure_cutout_bar);
  // Ice or oil between wall and refrigerant: suction down.
  const ChillerGauges iced = with([](ChillerHealth& k) { k.evaporator_fouling_norm = 0.5; });
  says("poor contact of the evaporator: suction", iced.suction_bar, base.suction_bar, 0.02, -1);
  says("poor contact of the evaporator: head", iced.discharge_bar, base.discharge_bar, 0.02, -1);
  says("poor contact of the evaporator: current", iced.compressor_W, base.compressor_W, 5.0, -1);
  says("poor contact of the evaporator: cooling", iced.cooling_W, base.cooling_W, 5.0, -1);
}
