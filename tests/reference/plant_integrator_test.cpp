#include <doctest/doctest.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "sim_core/plant/coefficients.h"
#include "sim_core/plant/drive.h"
#include "sim_core/plant/heat.h"
#include "sim_core/plant/plant.h"
#include "sim_core/plant/zones.h"
#include "sim_core/product/properties.h"
#include "tests/support/hm45_spec.h"

// The tick against an adaptive Runge-Kutta integrator written here (classical fourth order, one step against
// two halves) of the same seven nodes, without any library: what ticks and trends of coefficients cost. CVODE
// has the whole machine (cvode_test.cpp).
using namespace stirbench;
using namespace stirbench::plant;

namespace {

using Temperatures = std::array<double, 7>;  // element, well wall, well, vat, vat wall, evaporator, lid

Temperatures temperatures(const PlantState& s) {
  return {s.element_degC,  s.well_wall_degC,  s.well_degC, s.vat_degC,
          s.vat_wall_degC, s.evaporator_degC, s.lid_degC};
}

// Right-hand side written out by hand; only the coefficients come from the plant.
struct Machine {
  MachineSpec m;
  PlantState base;
  double heaters_W;
  double mix_J_per_K(double kg, double t) const {
    return kg * product::heat_capacity_J_per_kgK(base.product.mass_kg, t);
  }
  void operator()(const Temperatures& t, Temperatures& rate, double) const {
    PlantState s = base;
    s.element_degC = t[0];
    s.well_wall_degC = t[1];
    s.well_degC = t[2];
    s.vat_degC = t[3];
    s.vat_wall_degC = t[4];
    s.evaporator_degC = t[5];
    s.lid_degC = t[6];
    const Zones z = zones(s);
    s.well_J = enthalpy_at_J(s, z.well_kg, t[2]);
    s.vat_J = enthalpy_at_J(s, z.vat_kg, t[3]);
    refresh(m, s);
    const Coefficients& c = s.coefficients;
    const double room = s.environment.ambient_degC;
    const double w = s.shaft_rad_per_s;
    const double r = w / rated_agitator_rad_per_s(m.drive);
    const double stir_W = w * r * (c.viscous_torque_Nm + r * (c.agitator_torque_Nm - c.viscous_torque_Nm));
    const double pump_W = base.flows.torque_Nm * w - stir_W;
    const double cp = 0.5 * (c.well_cp_J_per_kgK + c.vat_cp_J_per_kgK);
    const double contact = m.elements.contact_W_per_K * (t[0] - t[1]);
    const double into_well = c.well_wall_W_per_K * (t[1] - t[2]);
    const double up = c.exchange_kg_per_s * cp * (t[2] - t[3]);
    const double into_wall = c.vat_wall_W_per_K * (t[3] - t[4]);
    const double into_lid = c.surface_W_per_K * (t[3] - t[6]);
    const double share = m.well.evaporator_share_norm;
    const double wall_coil = m.chiller.wall_W_per_K * (1.0 - share) * (t[4] - t[5]);
    const double well_coil = m.chiller.wall_W_per_K * share * (t[1] - t[5]);
    rate[0] = (heaters_W - contact) / (m.elements.mass_kg * m.elements.cp_J_per_kgK);
    rate[1] = (contact - into_well - well_coil - m.well.loss_W_per_K * (t[1] - room)) /
              (m.well.wall_mass_kg * m.well.wall_cp_J_per_kgK);
    rate[2] = (into_well - up + pump_W) / mix_J_per_K(z.well_kg, t[2]);
    rate[3] = (up - into_wall - into_lid + stir_W) / mix_J_per_K(z.vat_kg, t[3]);
    rate[4] = (into_wall - wall_coil - m.vat.loss_W_per_K * (t[4] - room)) /
              (m.vat.wall_mass_kg * m.vat.wall_cp_J_per_kgK);
    rate[5] = (wall_coil + well_coil) / (m.chiller.evaporator_mass_kg * m.chiller.evaporator_cp_J_per_kgK);
    rate[6] = (into_lid - c.lid_room_W_per_K * (t[6] - room)) / (m.vat.lid_mass_kg * m.vat.lid_cp_J_per_kgK);
  }
};

Temperatures rk4(const Machine& f, const Temperatures& t, double h) {
  Temperatures k1, k2, k3, k4, at;
  const auto shifted = [&](const Temperatures& k, double part) {
    for (std::size_t i = 0; i < t.size(); ++i) at[i] = t[i] + part * h * k[i];
  };
  f(t, k1, 0.0);
  shifted(k1, 0.5);
  f(at, k2, 0.0);
  shifted(k2, 0.5);
  f(at, k3, 0.0);
  shifted(k3, 1.0);
  f(at, k4, 0.0);
  for (std::size_t i = 0; i < t.size(); ++i) at[i] = t[i] + h / 6.0 * (k1[i] + 2.0 * (k2[i] + k3[i]) + k4[i]);
  return at;
}

// One step against two halves; they may differ by 1e-7 K.
Temperatures integrate(const Machine& f, Temperatures t, double span_s) {
  double h = 0.1;
  for (double done = 0.0; done < span_s - 1.0e-9;) {
    h = std::min(h, span_s - done);
    const Temperatures whole = rk4(f, t, h);
    const Temperatures halves = rk4(f, rk4(f, t, 0.5 * h), 0.5 * h);
    double off = 1.0e-12;
    for (std::size_t i = 0; i < t.size(); ++i) off = std::max(off, std::abs(whole[i] - halves[i]));
    if (off < 1.0e-7) {
      t = halves;
      done += h;
    }
    h *= std::clamp(0.9 * std::pow(1.0e-7 / off, 0.2), 0.2, 3.0);
  }
  return t;
}

}  // namespace

TEST_CASE("heating up: every node within 0.05 K of an adaptive integrator") {
  MachineSpec m = tests::hm45_spec();
  m.vat.lid_vapour_leak_norm = 0.0;  // constant mass
  PlantState s = initial_state(m, {});
  product::Ingredient water;
  water.fraction[product::Component::water] = 1.0;
  pour(m, s, water, 40.0, 15.0);
  for (int i = 0; i < 300; ++i) step(m, s, {0.0, true, false}, 0.1);

  for (const double spell_s : {60.0, 300.0, 1200.0}) {
    CAPTURE(spell_s);
    PlantState ticked = s;
    for (long n = std::lround(10.0 * spell_s); n > 0; --n) step(m, ticked, {1.0, true, false}, 0.1);
    const Temperatures exact = integrate(Machine{m, s, heater_W(m, 1.0, 1.0)}, temperatures(s), spell_s);
    const Temperatures ours = temperatures(ticked);
    for (std::size_t i = 0; i < ours.size(); ++i) {
      CAPTURE(i);
      CHECK(std::abs(ours[i] - exact[i]) < 0.05);
    }
  }
}
