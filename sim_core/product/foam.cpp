#include "sim_core/product/foam.h"

#include <algorithm>
#include <cmath>

namespace stirbench::product {
namespace {

constexpr double gravity = 9.81;
constexpr double full_protein_norm = 0.01;
constexpr double most_air_norm = 0.10;

// Straight lines through 0.5 at 5, 1 at 40 and 50, 0.7 at 80 degC.
double warmth_norm(double t) {
  if (t < 40.0) return std::max(0.3, 1.0 - 0.5 * (40.0 - t) / 35.0);
  return t > 50.0 ? std::max(0.5, 1.0 - 0.3 * (t - 50.0) / 30.0) : 1.0;
}

}  // namespace

double protein_norm(const Product& product) {
  const double total_kg = product.total_kg();
  if (!(total_kg > 0.0)) return 0.0;
  return (product.mass_kg[Component::milk_protein] + product.mass_kg[Component::egg_protein] +
          product.mass_kg[Component::other_protein]) /
         total_kg;
}

double protein_hold_norm(double protein_norm) {
  return std::clamp(protein_norm / full_protein_norm, 0.02, 1.0);
}

double foam_hold_norm(const Product& product, double t_degC) {
  const double total_kg = product.total_kg();
  if (!(total_kg > 0.0)) return 0.0;
  const double fat = std::min(1.0, product.mass_kg[Component::milk_fat] / total_kg / 0.03);
  const double part_crystalline = std::max(0.0, 1.0 - std::abs(t_degC - 20.0) / 17.0);
  return std::min(1.0, protein_norm(product) / full_protein_norm) * warmth_norm(t_degC) *
         (1.0 - 0.8 * fat * part_crystalline);
}

double vortex_dip_m(double shaft_rad_per_s, double impeller_m, double vessel_m, double reynolds) {
  const double core_m = 0.5 * impeller_m * 1.25 * reynolds / (1000.0 + 1.6 * std::max(0.0, reynolds));
  const double ratio = std::min(1.0, 2.0 * core_m / vessel_m);
  const double speed_m_per_s = shaft_rad_per_s * core_m;
  return speed_m_per_s * speed_m_per_s / (2.0 * gravity) * (2.0 - ratio * ratio);
}

double drawn_air_norm(double dip_m, double cover_m) {
  if (!(dip_m > 0.0)) return 0.0;
  const double reach = cover_m > 0.0 ? std::clamp(dip_m / cover_m - 0.5, 0.0, 1.0) : 1.0;
  return most_air_norm * reach * reach * (3.0 - 2.0 * reach);
}

}  // namespace stirbench::product
