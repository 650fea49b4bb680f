#include "sim_core/machine/uncertain.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <vector>

#include "tests/support/hm45_spec.h"

// Constants that the model does not know well: each row moves the machine, a drawn one stays in the ranges.
using namespace stirbench;
using machine::Machine;
using machine::UncertainConstant;

namespace {

Machine shipped() {
  Machine out;
  out.plant = tests::hm45_spec();
  return out;
}

// Values that the rows scale, in their order.
std::vector<double> scaled(const Machine& m) {
  const plant::MachineSpec& p = m.plant;
  return {p.agitator.nusselt_well_a,
          p.agitator.nusselt_wall_a,
          p.factors.thickness,
          p.factors.evaporation,
          p.vat.lid_vapour_leak_norm,
          p.vat.loss_W_per_K,
          p.well.loss_W_per_K,
          p.factors.burning,
          p.factors.white_film,
          p.factors.milk_stone,
          p.factors.descaling,
          p.factors.boiling,
          p.factors.foam,
          p.factors.fat_setting,
          p.chiller.evaporator_W_per_K,
          p.chiller.condenser_W_per_K,
          p.chiller.isentropic_norm,
          p.agitator.turbulent_power_Np,
          p.pump.slip_L_per_min_per_bar,
          p.draw.valve_laminar_K1,
          p.agitator_bushing.wear_dry_mm3_per_Nm,
          p.probe.tau_s,
          p.pump.vane_life_h,
          p.seal.life_h,
          p.seal.worn_gap_m};
}

}  // namespace

TEST_CASE("each uncertain constant has a name, a source, a range about 1, and scales one value") {
  std::set<std::string_view> names;
  const auto rows = machine::uncertain_constants();
  REQUIRE(rows.size() == scaled(shipped()).size());
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const UncertainConstant& one = rows[i];
    CAPTURE(one.name);
    CHECK(names.insert(one.name).second);
    CHECK_FALSE(one.source.empty());
    CHECK(one.low > 0.0);
    CHECK(one.low < 1.0);
    CHECK(one.high > 1.0);
    const std::vector<double> before = scaled(shipped());
    Machine moved = shipped();
    one.scale(moved, 2.0);
    const std::vector<double> after = scaled(moved);
    for (std::size_t k = 0; k < after.size(); ++k)
      CHECK(after[k] == doctest::Approx((k == i ? 2.0 : 1.0) * before[k]));
  }
}

TEST_CASE("a drawn machine stays in the ranges, fills them, and is its seed's alone") {
  const std::vector<double> before = scaled(shipped());
  const auto rows = machine::uncertain_constants();
  std::vector<double> least(before.size(), 1.0e9), most(before.size(), 0.0);
  for (std::uint64_t seed = 1; seed <= 300; ++seed) {
    const std::vector<double> now = scaled(machine::drawn(shipped(), seed));
    CHECK(now == scaled(machine::drawn(shipped(), seed)));
    for (std::size_t i = 0; i < now.size(); ++i) {
      const double factor = now[i] / before[i];
      CHECK(factor >= rows[i].low * (1.0 - 1e-12));
      CHECK(factor <= rows[i].high * (1.0 + 1e-12));
      least[i] = std::min(least[i], factor);
      most[i] = std::max(most[i], factor);
    }
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    // Of 300 even draws none in the lowest or highest tenth: 2e-14.
    CHECK(std::log(least[i]) < 0.9 * std::log(rows[i].low) + 0.1 * std::log(rows[i].high));
    CHECK(std::log(most[i]) > 0.1 * std::log(rows[i].low) + 0.9 * std::log(rows[i].high));
  }
}
