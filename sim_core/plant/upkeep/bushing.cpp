#include "sim_core/plant/upkeep/bushing.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace stirbench::plant {
namespace {

constexpr double cold_degC = 20.0;
constexpr double softens_over_K = 20.0;  // nylon: bulk limit in running 80 .. 100 degC
constexpr double metal_friction = 0.3;
constexpr double metal_wear_mm3_per_Nm = 1.0e-4;
constexpr double product_W_per_m2K = 1500.0;

double mix(double dry, double wet, double wet_norm) { return dry + (wet - dry) * wet_norm; }

double face_m2(const BushingSpec& spec) { return std::numbers::pi * spec.diameter_m * spec.length_m; }

double hot_norm(const BushingSpec& spec, double degC) {
  return std::clamp((degC - spec.softening_degC) / softens_over_K, 0.0, 1.0);
}

bool on_metal(const BushingSpec& spec, Bearing bearing, const BushingState& bushing) {
  return bearing == Bearing::metal || bushing.play_mm >= spec.wall_mm;
}

double wear_mm3_per_Nm(const BushingSpec& spec, Bearing bearing, const BushingState& bushing,
                       double wet_norm) {
  if (on_metal(spec, bearing, bushing)) return metal_wear_mm3_per_Nm;
  if (wet_norm >= 1.0) return spec.wear_wet_mm3_per_Nm;
  const double dry = dry_wear_mm3_per_Nm(spec, bearing, bushing.temperature_degC);
  return std::exp(mix(std::log(dry), std::log(spec.wear_wet_mm3_per_Nm), wet_norm));
}

}  // namespace

const BushingMaterial& bushing_material(Bearing bearing) {
  // Nylon: friction 0.35 dry, 0.60 hot; k 4e-6, 4e-5; the bore of a 3 mm wall closes 0.044 mm in diameter
  // over 60 K; melts at 220 degC (nylon 6), 1140 kg/m3, 85 kJ/kg at 40 % crystals (from memory); 400 MPa at
  // 100 degC (from memory). Bronze: galls from its limit on, k 1e-3 for 1e-4, friction 0.45 for 0.30 .. 0.35;
  // its bore opens and closes with the shaft; melts at 900 degC, 8800 kg/m3, 200 kJ/kg (from memory).
  static constexpr BushingMaterial of_nylon{.hot_friction = 0.60 / 0.35,
                                            .hot_wear = 10.0,
                                            .expansion_per_K = 0.022 / 3.0 / 60.0,
                                            .stiffness_Pa = 4.0e8,
                                            .melting_degC = 220.0,
                                            .melting_J_per_m3 = 1140.0 * 85.0e3};
  static constexpr BushingMaterial of_bronze{.hot_friction = 0.45 / 0.35,
                                             .hot_wear = 10.0,
                                             .expansion_per_K = 0.0,
                                             .stiffness_Pa = 0.0,
                                             .melting_degC = 900.0,
                                             .melting_J_per_m3 = 8800.0 * 200.0e3};
  return bearing == Bearing::nylon ? of_nylon : of_bronze;
}

double wetting_norm(double fill, double dry_below_L, double wet_above_L) {
  return std::clamp((fill - dry_below_L) / (wet_above_L - dry_below_L), 0.0, 1.0);
}

double dry_friction(const BushingSpec& spec, Bearing bearing, double temperature_degC) {
  const double hot = bushing_material(bearing).hot_friction;
  return spec.friction_dry * mix(1.0, hot, hot_norm(spec, temperature_degC));
}

double dry_wear_mm3_per_Nm(const BushingSpec& spec, Bearing bearing, double temperature_degC) {
  const double hot = bushing_material(bearing).hot_wear;
  return spec.wear_dry_mm3_per_Nm * std::pow(hot, hot_norm(spec, temperature_degC));
}

double interference_mm(const BushingSpec& spec, Bearing bearing, const BushingState& bushing) {
  const double wall_mm = std::max(0.0, spec.wall_mm - bushing.play_mm);
  const double closes_mm =
      bushing_material(bearing).expansion_per_K * wall_mm * (bushing.temperature_degC - cold_degC);
  return std::max(0.0, closes_mm - spec.clearance_mm - bushing.play_mm);
}

double squeeze_N(const BushingSpec& spec, Bearing bearing, const BushingState& bushing) {
  const double squeezed_mm = interference_mm(spec, bearing, bushing);
  if (!(squeezed_mm > 0.0)) return 0.0;
  const BushingMaterial& m = bushing_material(bearing);
  // Stiff to 100 degC, then softer in a straight line to the melt (choice).
  const double stiff =
      std::clamp((m.melting_degC - bushing.temperature_degC) / (m.melting_degC - 100.0), 0.0, 1.0);
  return stiff * m.stiffness_Pa * squeezed_mm / spec.wall_mm * face_m2(spec);
}

double friction_torque_Nm(const BushingSpec& spec, Bearing bearing, const BushingState& bushing,
                          double wet_norm) {
  if (on_metal(spec, bearing, bushing)) return metal_friction * spec.load_N * 0.5 * spec.diameter_m;
  const double dry = dry_friction(spec, bearing, bushing.temperature_degC);
  const double load_N = spec.load_N + squeeze_N(spec, bearing, bushing);
  return mix(dry, spec.friction_wet, wet_norm) * load_N * 0.5 * spec.diameter_m;
}

double wear_mm_per_s(const BushingSpec& spec, Bearing bearing, const BushingState& bushing, double wet_norm,
                     double shaft_rad_per_s) {
  const double speed_m_per_s = shaft_rad_per_s * 0.5 * spec.diameter_m;
  const double k = wear_mm3_per_Nm(spec, bearing, bushing, wet_norm);
  const double projected_mm2 = 1.0e6 * spec.diameter_m * spec.length_m;
  return k * (spec.load_N + squeeze_N(spec, bearing, bushing)) * speed_m_per_s / projected_mm2;
}

double bushing_W_per_K(const BushingSpec& spec, double wet_norm) {
  return mix(1.0 / spec.K_per_W, product_W_per_m2K * face_m2(spec), wet_norm);
}

void advance_bushing(const BushingSpec& spec, const BushingDuty& duty, BushingState& bushing,
                     double shaft_rad_per_s, double dt_s) {
  const double W_per_K = bushing_W_per_K(spec, duty.wet_norm);
  // Each way out counts by what it carries.
  const double dry_W_per_K = (1.0 - duty.wet_norm) / spec.K_per_W;
  const double around_degC = duty.bath_degC + dry_W_per_K / W_per_K * (duty.dry_degC - duty.bath_degC);
  if (shaft_rad_per_s <= 0.0 && std::abs(bushing.temperature_degC - around_degC) < 1.0e-3) return;
  const double power_W =
      duty.friction_factor * friction_torque_Nm(spec, duty.bearing, bushing, duty.wet_norm) * shaft_rad_per_s;
  const double rubbed_mm =
      shaft_rad_per_s > 0.0 ? duty.wear_factor * dt_s *
                                  wear_mm_per_s(spec, duty.bearing, bushing, duty.wet_norm, shaft_rad_per_s)
                            : 0.0;
  const double x = dt_s * W_per_K / spec.J_per_K;
  bushing.temperature_degC +=
      (around_degC + power_W / W_per_K - bushing.temperature_degC) * (x / (1.0 + 0.5 * x));
  const BushingMaterial& m = bushing_material(duty.bearing);
  double melted_mm = 0.0;
  if (bushing.temperature_degC > m.melting_degC && !on_metal(spec, duty.bearing, bushing)) {
    melted_mm = 1.0e3 * spec.J_per_K * (bushing.temperature_degC - m.melting_degC) /
                (m.melting_J_per_m3 * face_m2(spec));
    bushing.temperature_degC = m.melting_degC;
  }
  // Play set from outside beyond the metal stays.
  const double most_mm = std::max(duty.most_play_mm, bushing.play_mm);
  bushing.play_mm = std::min(most_mm, bushing.play_mm + rubbed_mm + melted_mm);
}

}  // namespace stirbench::plant
