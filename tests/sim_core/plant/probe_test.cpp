#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/plant/probe.h"
#include "tests/sim_core/plant/machine.h"

// The probe in its pocket: two lags in series, the stem's heat, paste and air gap.
using namespace stirbench;
using namespace stirbench::plant;
using namespace stirbench::tests;

namespace {

constexpr double probe_tick_s = 0.1;

// The pocket in product whose temperature goes as `degC(t)`, for so long.
template <typename Course>
PlantState probe_after(const MachineSpec& spec, double span_s, Course&& degC, double gap_factor = 1.0) {
  PlantState state;
  state.health.probe_tau_factor = gap_factor;
  state.probe_pocket_degC = state.probe_degC = degC(0.0);
  const long ticks = std::lround(span_s / probe_tick_s);
  for (long i = 0; i < ticks; ++i)
    follow_probe(spec, state, true, degC((static_cast<double>(i) + 0.5) * probe_tick_s), probe_tick_s);
  return state;
}

const auto step_of_1 = [](double t_s) { return t_s > 0.0 ? 1.0 : 0.0; };

}  // namespace

TEST_CASE("a step: 1 - (a e^(-t/a) - b e^(-t/b)) / (a - b) of pocket and element") {
  const MachineSpec spec = hm45_spec();
  for (const double gap : {1.0, 4.0}) {
    const double a = spec.probe.pocket_share_norm * spec.probe.tau_s;
    const double b = gap * (spec.probe.tau_s - a);
    for (const double t : {5.0, 20.0, 60.0, 150.0}) {
      CAPTURE(t);
      const double right = 1.0 - (a * std::exp(-t / a) - b * std::exp(-t / b)) / (a - b);
      CHECK(probe_after(spec, t, step_of_1, gap).probe_degC == doctest::Approx(right).epsilon(2.0e-4));
    }
  }
}

TEST_CASE("on a ramp it trails by rate x (sum of both lags)") {
  for (const MachineSpec& spec : {hm45_spec(), hm20_spec()}) {
    for (const double K_per_min : {2.0, -1.0}) {
      const auto ramp = [&](double t_s) { return 20.0 + K_per_min / 60.0 * t_s; };
      const double late_K = ramp(400.0) - probe_after(spec, 400.0, ramp).probe_degC;
      CHECK(late_K == doctest::Approx(K_per_min / 60.0 * spec.probe.tau_s).epsilon(1.0e-3));
      // Without paste the element's part is longer, the pocket's is not.
      const double pocket_s = spec.probe.pocket_share_norm * spec.probe.tau_s;
      const double dry_s = pocket_s + 4.0 * (spec.probe.tau_s - pocket_s);
      const double dry_K = ramp(1500.0) - probe_after(spec, 1500.0, ramp, 4.0).probe_degC;
      CHECK(dry_K == doctest::Approx(K_per_min / 60.0 * dry_s).epsilon(1.0e-3));
    }
  }
}

TEST_CASE("while it heats the display is behind by what the slope makes of both lags") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 40.0, 20.0);
  rig.run({1.0, true, false}, 600.0);
  const auto seen = [&] { return 0.7 * rig.state.vat_degC + 0.3 * rig.state.well_degC; };
  const double before = seen();
  rig.run({1.0, true, false}, 60.0);
  const double K_per_s = (seen() - before) / 60.0;
  CHECK(K_per_s > 1.0 / 60.0);
  // The slope itself falls by some per cent in the minute.
  CHECK(seen() - rig.state.probe_degC == doctest::Approx(K_per_s * rig.spec.probe.tau_s).epsilon(0.03));
}

TEST_CASE("in the end a sound machine's display is off by less than 0.3 K, stirred or at rest") {
  for (const MachineSpec& spec : {hm45_spec(), hm20_spec()}) {
    for (const double film : {stirred_film_W_per_m2K, still_film_W_per_m2K}) {
      // 85 degC in a room of 22 degC.
      const double stem_K = 63.0 * stem_share_norm(spec.probe, film);
      CAPTURE(stem_K);
      CHECK(stem_K > 0.0);
      CHECK(stem_K < 0.3);
    }
  }
  Rig rig(hm45_spec());
  rig.pour(plain_water(), 40.0, 85.0);
  rig.run({0.0, true, false}, 600.0);
  const double around = 0.7 * rig.state.vat_degC + 0.3 * rig.state.well_degC;
  CHECK(std::abs(rig.state.probe_degC - around) < 0.3);
  rig.run({0.0, false, false}, 600.0);
  CHECK(rig.state.coefficients.probe_stem_norm > stem_share_norm(rig.spec.probe, stirred_film_W_per_m2K));
}

TEST_CASE("stem: 1 / cosh(m L); short, thick-walled and in air it takes more of the room") {
  ProbeSpec probe = hm45_spec().probe;
  // m = sqrt(h P / (k A)) by hand: P = pi 8 mm, A = pi (8^2 - 6^2) mm2 / 4.
  const double pi = 3.14159265358979;
  const double m = std::sqrt(500.0 * pi * 8.0e-3 / (16.0 * pi * 28.0e-6 / 4.0));
  CHECK(stem_share_norm(probe, 500.0) == doctest::Approx(1.0 / std::cosh(m * 0.06)));
  const double usual = stem_share_norm(probe, still_film_W_per_m2K);
  CHECK(stem_share_norm(probe, air_film_W_per_m2K) > 20.0 * usual);
  probe.immersed_m = 0.02;
  CHECK(63.0 * stem_share_norm(probe, still_film_W_per_m2K) > 3.0);  // 2 cm of it would be no thermometer
  ProbeSpec thick = hm45_spec().probe;
  thick.pocket_wall_m = 0.003;
  CHECK(stem_share_norm(thick, still_film_W_per_m2K) > 2.0 * usual);
}
