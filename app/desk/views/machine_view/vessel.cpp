#include "app/desk/views/machine_view/vessel.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace stirbench::desk::views {

namespace {

constexpr int arc_pieces = 8;
constexpr double litre_m3 = 1e-3;

double frustum_m3(const ProfilePoint& a, const ProfilePoint& b) {
  return std::numbers::pi / 3.0 * (b.z_m - a.z_m) * (a.r_m * a.r_m + a.r_m * b.r_m + b.r_m * b.r_m);
}

double chain_m3(const std::vector<ProfilePoint>& points) {
  double sum = 0.0;
  for (std::size_t i = 1; i < points.size(); ++i) sum += frustum_m3(points[i - 1], points[i]);
  return sum;
}

// Rounded bottom of the well, its lowest point at z = 0.
std::vector<ProfilePoint> rounded_bottom(double radius, double fillet) {
  std::vector<ProfilePoint> points{{0.0, 0.0}};
  for (int i = 0; i <= arc_pieces; ++i) {
    const double t = std::numbers::pi / 2.0 * i / arc_pieces;
    points.push_back({radius - fillet + fillet * std::sin(t), fillet - fillet * std::cos(t)});
  }
  return points;
}

// Quarter ellipse from the mouth of the well, flat there, to the cylinder, upright there.
std::vector<ProfilePoint> shoulder(double inner, double outer, double height) {
  std::vector<ProfilePoint> points;
  for (int i = 0; i <= arc_pieces; ++i) {
    const double t = std::numbers::pi / 2.0 * i / arc_pieces;
    points.push_back({inner + (outer - inner) * std::sin(t), height - height * std::cos(t)});
  }
  return points;
}

double positive(double value, double otherwise) {
  return value > 0.0 && std::isfinite(value) ? value : otherwise;
}

}  // namespace

Vessel::Vessel(const plant::MachineSpec& spec) {
  const double brim_m3 = positive(spec.vat.brim_L, 50.0) * litre_m3;
  const double well_m3 = std::min(positive(spec.well.volume_L, 6.0) * litre_m3, 0.8 * brim_m3);
  vat_radius_m_ = positive(spec.vat.diameter_m, 0.4) / 2.0;
  well_radius_m_ = std::min(positive(spec.well.diameter_m, 0.2) / 2.0, 0.98 * vat_radius_m_);

  // The rounding takes at most half of the well.
  double fillet = 0.3 * well_radius_m_;
  std::vector<ProfilePoint> bottom = rounded_bottom(well_radius_m_, fillet);
  while (chain_m3(bottom) > 0.5 * well_m3) {
    fillet *= 0.7;
    bottom = rounded_bottom(well_radius_m_, fillet);
  }
  const double well_area = std::numbers::pi * well_radius_m_ * well_radius_m_;
  const double depth = fillet + (well_m3 - chain_m3(bottom)) / well_area;
  for (ProfilePoint& point : bottom) point.z_m -= depth;
  points_ = bottom;

  // The shoulder takes at most half of the vat.
  shoulder_m_ = 0.75 * (vat_radius_m_ - well_radius_m_);
  std::vector<ProfilePoint> bowl = shoulder(well_radius_m_, vat_radius_m_, shoulder_m_);
  while (chain_m3(bowl) > 0.5 * (brim_m3 - well_m3)) {
    shoulder_m_ *= 0.7;
    bowl = shoulder(well_radius_m_, vat_radius_m_, shoulder_m_);
  }
  points_.insert(points_.end(), bowl.begin(), bowl.end());
  const double vat_area = std::numbers::pi * vat_radius_m_ * vat_radius_m_;
  points_.push_back({vat_radius_m_, shoulder_m_ + (brim_m3 - well_m3 - chain_m3(bowl)) / vat_area});
  measure();
}

void Vessel::measure() {
  volume_m3_.assign(1, 0.0);
  for (std::size_t i = 1; i < points_.size(); ++i) {
    volume_m3_.push_back(volume_m3_.back() + frustum_m3(points_[i - 1], points_[i]));
  }
}

double Vessel::radius_m(double z_m) const {
  if (z_m <= points_.front().z_m) return 0.0;
  for (std::size_t i = 1; i < points_.size(); ++i) {
    const ProfilePoint& a = points_[i - 1];
    const ProfilePoint& b = points_[i];
    if (z_m > b.z_m || b.z_m <= a.z_m) continue;
    return a.r_m + (b.r_m - a.r_m) * (z_m - a.z_m) / (b.z_m - a.z_m);
  }
  return vat_radius_m_;
}

double Vessel::floor_m(double r_m) const {
  const double r = std::abs(r_m);
  for (std::size_t i = 1; i < points_.size(); ++i) {
    const ProfilePoint& a = points_[i - 1];
    const ProfilePoint& b = points_[i];
    if (r > b.r_m || b.r_m <= a.r_m) continue;
    return a.z_m + (b.z_m - a.z_m) * (r - a.r_m) / (b.r_m - a.r_m);
  }
  return rim_m();
}

double Vessel::volume_L(double level_m) const {
  if (level_m <= points_.front().z_m) return 0.0;
  for (std::size_t i = 1; i < points_.size(); ++i) {
    if (level_m > points_[i].z_m) continue;
    const ProfilePoint at_level{radius_m(level_m), level_m};
    return (volume_m3_[i - 1] + frustum_m3(points_[i - 1], at_level)) / litre_m3;
  }
  return volume_m3_.back() / litre_m3;
}

double Vessel::level_m(double volume_L) const {
  const double wanted = volume_L * litre_m3;
  if (!(wanted > 0.0)) return points_.front().z_m;
  for (std::size_t i = 1; i < points_.size(); ++i) {
    if (wanted > volume_m3_[i]) continue;
    // Within one frustum the volume rises without a turn: halving finds the level to a hair.
    double low = points_[i - 1].z_m;
    double high = points_[i].z_m;
    for (int step = 0; step < 40; ++step) {
      const double middle = (low + high) / 2.0;
      (this->volume_L(middle) * litre_m3 < wanted ? low : high) = middle;
    }
    return (low + high) / 2.0;
  }
  return rim_m();
}

double stirred_surface_m(const Vessel& vessel, double level_m, double rpm, double blade_radius_m,
                         double r_m) {
  const double tip = rpm * 2.0 * std::numbers::pi / 60.0 * blade_radius_m;
  constexpr double gravity = 9.80665;
  const double dip = std::min(0.16 * tip * tip / gravity, 0.55 * std::max(level_m, 0.0));
  if (dip <= 0.0) return level_m;
  // Mean of exp(-r^2/c^2) over a disc of radius R is c^2/R^2 (1 - exp(-R^2/c^2)): that much the rest stands
  // higher.
  const double R = vessel.radius_m(level_m);
  const double core = 0.42 * R;
  const double rise = dip * core * core / (R * R) * (1.0 - std::exp(-R * R / (core * core)));
  return level_m + rise - dip * std::exp(-r_m * r_m / (core * core));
}

}  // namespace stirbench::desk::views
