#pragma once

#include <vector>

#include "sim_core/plant/spec.h"

// The shape of vat and well as a body of revolution, sized so that its volumes are those of the machine's
// specification. Lengths in m; z = 0 is the mouth of the well (the bottom of the vat), upwards.
//
// The well is a cylinder with a rounded bottom, the vat a cylinder on a rounded shoulder. The profile is a
// chain of straight pieces, so volume and level are exact for frustums: V = pi h (a^2 + a b + b^2) / 3.
namespace stirbench::desk::views {

struct ProfilePoint {
  double r_m = 0.0;
  double z_m = 0.0;
};

class Vessel {
 public:
  explicit Vessel(const plant::MachineSpec& spec);

  double vat_radius_m() const { return vat_radius_m_; }
  double well_radius_m() const { return well_radius_m_; }
  double well_depth_m() const { return -points_.front().z_m; }
  double shoulder_m() const { return shoulder_m_; }    // top of the shoulder
  double rim_m() const { return points_.back().z_m; }  // level of the brim
  const std::vector<ProfilePoint>& profile() const {
    return points_;
  }  // from the axis at the bottom to the rim

  // Level of a volume [L]; above the brim it stays at the brim.
  double level_m(double volume_L) const;
  double volume_L(double level_m) const;
  // Inner radius at a height, and height of the inner wall below a point at radius r (of the well for r <=
  // its radius).
  double radius_m(double z_m) const;
  double floor_m(double r_m) const;

 private:
  void measure();

  double vat_radius_m_ = 0.2;
  double well_radius_m_ = 0.1;
  double shoulder_m_ = 0.05;
  std::vector<ProfilePoint> points_;
  std::vector<double> volume_m3_;  // below each point
};

// Height of the stirred surface at radius r: a bell-shaped dip in the middle and a rise around it, so that
// the volume stays. The dip grows with (omega R)^2 / g of the blades' tips; its share (0.16) is for the eye,
// not a measured figure. Never deeper than 0.55 of what stands above the well.
double stirred_surface_m(const Vessel& vessel, double level_m, double rpm, double blade_radius_m, double r_m);

}  // namespace stirbench::desk::views
