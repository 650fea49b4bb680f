#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "sim_core/plant/drive.h"
#include "sim_core/plant/upkeep/bushing.h"
#include "sim_core/plant/upkeep/vanes.h"
#include "tests/reference/report.h"
#include "tests/support/hm45_spec.h"

// Bushings, vanes and winding against handbook rows and closed forms.
using namespace stirbench;
using namespace stirbench::plant;

namespace {

using tests::absolute;
using tests::at;
using tests::measured;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;

constexpr const char* part = "Drive and wear";

// The bushing of the handbook table: d 20, L 20 mm, F 120 N, 90 1/min, R 8 K/W, C 60 J/K.
BushingSpec handbook(double friction, double k) {
  BushingSpec b = tests::hm45_spec().agitator_bushing;
  b.diameter_m = b.length_m = 0.020;
  b.load_N = 120.0;
  b.friction_dry = friction;
  b.wear_dry_mm3_per_Nm = k;
  b.K_per_W = 8.0;
  b.J_per_K = 60.0;
  return b;
}
constexpr double shaft_rad_per_s = 90.0 * std::numbers::pi / 30.0;

BushingDuty dry_in_room(Bearing bearing, const BushingSpec& spec, double degC = 20.0) {
  BushingDuty duty;
  duty.bearing = bearing;
  duty.bath_degC = duty.dry_degC = degC;
  duty.most_play_mm = spec.wall_mm;
  return duty;
}

}  // namespace

TEST_CASE("Archard: a 20 mm shaft at 60 1/min for 1000 h") {
  const Source source = own_arithmetic("Archard 1953, worked by hand", "two digits: 1 %");
  // p 0.5 MPa, v 0.0628 m/s; h = k p s: nylon dry (4e-6) 0.45 mm, bronze dry (1e-4) 11 mm, boundary
  // lubricated (1e-7) 0.011 mm.
  BushingSpec b = handbook(0.35, 4.0e-6);
  b.load_N = 0.5 * 20.0 * 20.0;
  b.wear_wet_mm3_per_Nm = 1.0e-7;
  const double w = 2.0 * std::numbers::pi;
  const double hours_1000 = 3.6e6;
  reference_check(part, "rubbing speed, m/s", w * 0.010, 0.0628, relative(0.001), source);
  reference_check(part, "wear in 1000 h, nylon dry, mm",
                  hours_1000 * wear_mm_per_s(b, Bearing::nylon, {0.0, 20.0}, 0.0, w), 0.45, relative(0.02),
                  source);
  reference_check(part, "wear in 1000 h, boundary lubricated, mm",
                  hours_1000 * wear_mm_per_s(b, Bearing::nylon, {0.0, 20.0}, 1.0, w), 0.0113, relative(0.02),
                  source);
  b.wear_dry_mm3_per_Nm = 1.0e-4;
  reference_check(part, "wear in 1000 h, bronze dry, mm",
                  hours_1000 * wear_mm_per_s(b, Bearing::bronze, {0.0, 20.0}, 0.0, w), 11.3, relative(0.02),
                  source);
}

TEST_CASE("dry bushings: the handbook's rows of heat, torque and wear") {
  const Source source =
      own_arithmetic("plain bearings run dry, worked by hand from mu, F, v, R and k", "two digits: 1 %");
  struct Row {
    const char* what;
    Bearing bearing;
    double degC, friction, k, heat_W, rise_K, torque_Nm, wear_um_per_h;
  };
  // The hot row: the same nylon above its limit of 80 degC.
  const Row rows[] = {{"nylon dry", Bearing::nylon, 20.0, 0.35, 4.0e-6, 3.96, 32.0, 0.42, 0.41},
                      {"nylon dry and hot", Bearing::nylon, 101.0, 0.35, 4.0e-6, 6.79, 54.0, 0.72, 4.1},
                      {"bronze dry", Bearing::bronze, 20.0, 0.35, 1.0e-4, 3.96, 32.0, 0.42, 10.2},
                      {"brass dry", Bearing::bronze, 20.0, 0.45, 3.0e-4, 5.09, 41.0, 0.54, 30.5}};
  for (const Row& row : rows) {
    CAPTURE(row.what);
    BushingSpec b = handbook(row.friction, row.k);
    b.softening_degC = row.bearing == Bearing::nylon ? 80.0 : 150.0;
    const BushingState now{0.0, row.degC};
    const double torque_Nm = friction_torque_Nm(b, row.bearing, now, 0.0);
    const std::string what(row.what);
    reference_check(part, what + ", torque, N m", torque_Nm, row.torque_Nm, relative(0.006), source);
    reference_check(part, what + ", heat, W", torque_Nm * shaft_rad_per_s, row.heat_W, relative(0.006),
                    source);
    reference_check(part, what + ", rise in the end, K",
                    torque_Nm * shaft_rad_per_s / bushing_W_per_K(b, 0.0), row.rise_K, relative(0.02),
                    source);
    reference_check(part, what + ", wear, um/h",
                    3.6e6 * wear_mm_per_s(b, row.bearing, now, 0.0, shaft_rad_per_s), row.wear_um_per_h,
                    relative(0.015), source);
  }
  // Nylon wall of 3 mm, 60 K: the bore closes 0.044 mm in diameter.
  BushingSpec b = handbook(0.35, 4.0e-6);
  b.wall_mm = 3.0;
  b.clearance_mm = 1.0e-9;
  reference_check(part, "nylon's bore closes over 60 K, mm",
                  2.0 * interference_mm(b, Bearing::nylon, {0.0, 80.0}), 0.044, relative(0.01), source);
}

TEST_CASE("a dry bushing warms up as first order: tau = C R") {
  const Source source =
      own_arithmetic("closed form T = T0 + P R (1 - exp(-t / RC)), tau about 8 min", "0.02 K of steps");
  const BushingSpec b = handbook(0.35, 4.0e-6);
  const BushingDuty duty = dry_in_room(Bearing::nylon, b);
  BushingState s{0.0, 20.0};
  const double rise_K = 0.35 * 120.0 * 0.010 * shaft_rad_per_s * 8.0;
  for (int second = 1; second <= 1440; ++second) {
    advance_bushing(b, duty, s, shaft_rad_per_s, 1.0);
    if (second % 480 != 0) continue;
    reference_check(part, at("degC of a dry bushing after s", second), s.temperature_degC,
                    20.0 + rise_K * -std::expm1(-second / 480.0), absolute(0.02), source);
  }
}

TEST_CASE("PV: nylon's limit is what its heat path carries away below 80 .. 100 degC") {
  const Source source = measured("dry PV limit of nylon, 0.05 .. 0.11 MPa m/s (from memory)",
                                 "half the published range: 0.03 MPa m/s");
  // mu PV d L R = t_fail - t_amb, at 90 degC in a room of 22: in the middle of the published range.
  const BushingSpec b = tests::hm45_spec().agitator_bushing;
  const double PV_MPa = 1.0e-6 * (90.0 - 22.0) / (b.friction_dry * b.K_per_W * b.diameter_m * b.length_m);
  reference_check(part, "PV limit of HM-45's dry nylon, MPa m/s", PV_MPa, 0.08, absolute(0.03), source);
}

TEST_CASE("nylon that rubs on melts: all heat beyond what leaves goes into the melt") {
  // First law over an hour: friction = stored + given off + melted.
  const BushingSpec b = tests::hm45_spec().agitator_bushing;
  const BushingDuty duty = dry_in_room(Bearing::nylon, b, 22.0);
  BushingState s{0.0, 22.0};
  double friction_J = 0.0;
  double given_J = 0.0;
  double rubbed_mm = 0.0;
  int seconds = 0;
  double most_Nm = 0.0;
  for (; seconds < 3600 && s.play_mm < 0.5 * b.wall_mm; ++seconds) {
    const double torque = friction_torque_Nm(b, duty.bearing, s, 0.0);
    most_Nm = std::max(most_Nm, torque);
    const double before_degC = s.temperature_degC;
    friction_J += torque * 9.7;
    rubbed_mm += wear_mm_per_s(b, duty.bearing, s, 0.0, 9.7);
    advance_bushing(b, duty, s, 9.7, 1.0);
    given_J += (0.5 * (before_degC + s.temperature_degC) - 22.0) / b.K_per_W;
  }
  CHECK(s.temperature_degC == doctest::Approx(220.0));
  const double face_m2 = std::numbers::pi * b.diameter_m * b.length_m;
  const double melted_J = 1.0e-3 * (s.play_mm - rubbed_mm) * face_m2 * 1140.0 * 85.0e3;
  const double stored_J = b.J_per_K * (s.temperature_degC - 22.0);
  reference_check(part, "dry nylon: stored + given off + melted over friction's heat",
                  (stored_J + given_J + melted_J) / friction_J, 1.0, absolute(0.01),
                  own_arithmetic("first law", "steps of a second: 0.01"));
  MESSAGE("half the wall gone after " << seconds / 60.0 << " min, greatest torque " << most_Nm << " N m");
  // It first grips, then lets go: the torque has a peak above that of hot nylon under its load.
  CHECK(most_Nm > 1.5 * friction_torque_Nm(b, duty.bearing, s, 0.0));
  // The wall's end is the play's end.
  for (int i = 0; i < 7200; ++i) advance_bushing(b, duty, s, 9.7, 1.0);
  CHECK(s.play_mm == doctest::Approx(b.wall_mm));
  CHECK(friction_torque_Nm(b, duty.bearing, s, 0.0) == doctest::Approx(0.3 * b.load_N * 0.5 * b.diameter_m));
}

TEST_CASE("dry vanes: 150 W into 100 J/K, lost within half a minute to two minutes") {
  const Source source =
      measured(
          "flexible impeller run dry: half a minute to two minutes, a fifth to a half of the flow (from "
          "memory)",
          "half of those ranges; 10 % of the friction and warming that the constants were made from")
          .fitted_on();
  const PumpSpec pump = tests::hm45_spec().pump;
  const double w = rated_agitator_rad_per_s(tests::hm45_spec().drive);
  VaneState vanes;
  reference_check(part, "friction of dry vanes, W", vane_torque_Nm(pump, vanes, 0.0) * w, 150.0,
                  relative(0.1), source);
  advance_vanes(pump, vanes, 0.0, 22.0, 22.0, w, 1.0);
  reference_check(part, "dry vanes warm up, K/s", vanes.temperature_degC - 22.0, 1.5, relative(0.1), source);
  double glazed_s = 0.0;
  double due_s = 0.0;
  for (int second = 2; second <= 300; ++second) {
    advance_vanes(pump, vanes, 0.0, 22.0, 22.0, w, 1.0);
    if (vanes.wear_norm <= 0.0) glazed_s = second;
    if (vanes.wear_norm < vanes_due_norm) due_s = second;
  }
  reference_check(part, "dry life of the vanes: first glaze, s", glazed_s, 75.0, absolute(45.0), source);
  reference_check(part, "dry life of the vanes: a fifth of the flow lost, s", due_s, 75.0, absolute(45.0),
                  source);
  reference_check(part, "flow after a long dry run over before", vane_flow_norm(vanes), 0.65, absolute(0.15),
                  source);
  // Cold again they have lost what they lost; in product they wear by the hour.
  const double lost = vanes.wear_norm;
  for (int second = 0; second < 3600; ++second) advance_vanes(pump, vanes, 1.0, 5.0, 5.0, 0.0, 1.0);
  CHECK(vanes.wear_norm == lost);
  VaneState wet;
  for (int second = 0; second < 36000; ++second) advance_vanes(pump, wet, 1.0, 85.0, 85.0, w, 1.0);
  CHECK(wet.wear_norm == doctest::Approx(10.0 / pump.vane_life_h).epsilon(1e-6));
  CHECK(wet.temperature_degC == doctest::Approx(85.0));
}

TEST_CASE("winding: first order towards 80 K at rated current") {
  const Source source =
      own_arithmetic("closed form; 80 K: IEC 60034-1, class B (from memory)", "0.01 K of steps");
  double degC = 22.0;
  for (int tick = 0; tick < 12000; ++tick) degC = winding_degC(degC, 22.0, 1.0, true, 0.1);
  reference_check(part, "winding after one time constant at rated current, degC", degC,
                  22.0 + 80.0 * -std::expm1(-1.0), absolute(0.01), source);
  double half = 22.0;
  for (int i = 0; i < 100000; ++i) half = winding_degC(half, 22.0, 0.5, true, 1.0);
  CHECK(half == doctest::Approx(42.0));
}
