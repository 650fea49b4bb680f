#include "tests/reference/machine_ode.h"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <cmath>
#include <memory>
#include <stdexcept>

#include "sim_core/plant/chiller.h"
#include "sim_core/plant/coefficients.h"
#include "sim_core/plant/drive.h"
#include "sim_core/plant/evaporation.h"
#include "sim_core/plant/heat.h"
#include "sim_core/plant/scorch.h"
#include "sim_core/plant/transfer.h"
#include "sim_core/plant/wear.h"
#include "sim_core/plant/zones.h"
#include "sim_core/product/properties.h"

namespace stirbench::tests {
namespace {

using namespace plant;
using product::Component;

// The plant's state that `y` means, with coefficients of this very moment.
PlantState state_at(const MachineOde& ode, const Variables& y) {
  PlantState s = ode.base;
  s.element_degC = y[element];
  s.well_wall_degC = y[well_wall];
  s.well_degC = y[well];
  s.vat_degC = y[vat];
  s.vat_wall_degC = y[vat_wall];
  s.evaporator_degC = y[evaporator];
  s.lid_degC = y[lid];
  s.product.mass_kg[Component::water] = y[water_kg];
  s.deposit_kg_per_m2 = std::max(0.0, y[deposit_kg_per_m2]);
  s.shaft_rad_per_s = y[shaft_rad_per_s];
  s.coefficients.evaporating_degC = y[evaporating];
  s.coefficients.condensing_degC = y[condensing];
  s.chiller.dry_norm = y[dry_norm];
  s.lid_water_kg = y[lid_water_kg];
  s.since_refresh_s = 0.0;
  // A full well, at the density of the mean temperature: twice round, because that mean needs the well's
  // mass.
  const double total_kg = s.product.total_kg();
  for (int i = 0; i < 3; ++i) {
    const double mean = (s.well_kg * y[well] + (total_kg - s.well_kg) * y[vat]) / total_kg;
    s.well_kg = 1.0e-3 * ode.spec.well.volume_L * product::density_kg_per_m3(s.product.mass_kg, mean);
    s.coefficients.density_kg_per_m3 = s.well_kg / (1.0e-3 * ode.spec.well.volume_L);
  }
  s.well_J = enthalpy_at_J(s, s.well_kg, y[well]);
  s.vat_J = enthalpy_at_J(s, total_kg - s.well_kg, y[vat]);
  refresh(ode.spec, s);
  return s;
}

struct Shaft {
  double acceleration, vat_W, well_W;
};

Shaft shaft_of(const MachineOde& ode, const PlantState& s) {
  const DriveSpec& d = ode.spec.drive;
  const Coefficients& c = s.coefficients;
  const double w = s.shaft_rad_per_s;
  if (!ode.relays.drive_on) return {0.0, 0.0, 0.0};
  const double r = w / rated_agitator_rad_per_s(d);
  const double agitator = r * (c.viscous_torque_Nm + r * (c.agitator_torque_Nm - c.viscous_torque_Nm));
  const double others = c.pump_torque_Nm * std::min(1.0, r) + bushings_torque_Nm(ode.spec, s);
  const double motor =
      d.gear_ratio * d.gear_efficiency_norm *
      kloss_torque_Nm(d, w * d.gear_ratio * 30.0 / 3.14159265358979323846, s.environment.supply_norm);
  return {(motor - agitator - others) / d.inertia_kgm2, agitator * w, others * w};
}

// Wall to well product, with boiling at the wall on top.
double into_well_W(const MachineSpec& m, const PlantState& s) {
  const Coefficients& c = s.coefficients;
  double heat_W = c.well_wall_W_per_K * (s.well_wall_degC - s.well_degC);
  const double above_K = s.well_wall_degC - c.boiling_point_degC;
  if (above_K <= 0.0) return heat_W;
  const double h = boiling_flux_W_per_m2(above_K) / above_K;
  return heat_W + m.well.heated_area_m2 * h / (1.0 + h * deposit_m2K_per_W(s.deposit_kg_per_m2)) * above_K *
                      std::min(1.0, (s.well_wall_degC - s.well_degC));
}

// The refrigerant's circuit. Heat taken from the evaporator [W].
double refrigerate(const MachineOde& ode, const Variables& y, PlantState& s, Variables& rate) {
  if (!s.compressor_on) return 0.0;
  const CircuitRate now = circuit_rate(ode.spec.chiller, circuit_setting(ode.spec, s),
                                       {y[evaporating], y[condensing], y[dry_norm]});
  rate[evaporating] = now.per_s.evaporating_degC;
  rate[condensing] = now.per_s.condensing_degC;
  rate[dry_norm] = now.per_s.dry_norm;
  s.chiller.gauges = now.gauges;
  return chiller_heat_W(ode.spec, s);
}

}  // namespace

Variables variables_of(const PlantState& s) {
  Variables y{};
  y[element] = s.element_degC;
  y[well_wall] = s.well_wall_degC;
  y[well] = s.well_degC;
  y[vat] = s.vat_degC;
  y[vat_wall] = s.vat_wall_degC;
  y[evaporator] = s.evaporator_degC;
  y[lid] = s.lid_degC;
  y[water_kg] = s.product.mass_kg[Component::water];
  y[deposit_kg_per_m2] = s.deposit_kg_per_m2;
  y[shaft_rad_per_s] = s.shaft_rad_per_s;
  y[evaporating] = s.coefficients.evaporating_degC;
  y[condensing] = s.coefficients.condensing_degC;
  y[dry_norm] = s.chiller.dry_norm;
  y[lid_water_kg] = s.lid_water_kg;
  return y;
}

Variables MachineOde::rate(const Variables& y) const {
  const MachineSpec& m = spec;
  PlantState s = state_at(*this, y);
  const Coefficients& c = s.coefficients;
  const double room = s.environment.ambient_degC;
  const double vat_kg = s.product.total_kg() - s.well_kg;
  const Shaft shaft = shaft_of(*this, s);
  Variables rate{};

  const double contact = m.elements.contact_W_per_K * (y[element] - y[well_wall]);
  const double into_well = into_well_W(m, s);
  const double up =
      c.exchange_kg_per_s * 0.5 * (c.well_cp_J_per_kgK + c.vat_cp_J_per_kgK) * (y[well] - y[vat]);
  const double into_wall = c.vat_wall_W_per_K * (y[vat] - y[vat_wall]);
  const double into_lid = c.surface_W_per_K * (y[vat] - (s.fittings.lid_open ? room : y[lid]));
  const double share = m.well.evaporator_share_norm;
  const double wall_coil = m.chiller.wall_W_per_K * (1.0 - share) * (y[vat_wall] - y[evaporator]);
  const double well_coil = m.chiller.wall_W_per_K * share * (y[well_wall] - y[evaporator]);

  const double chiller_W = refrigerate(*this, y, s, rate);
  const double evaporation = c.evaporation_kg_per_s;
  const double heat_well = into_well - up + shaft.well_W;
  const double heat_vat =
      up - into_wall - into_lid + shaft.vat_W - evaporation * product::evaporation_heat_J_per_kg(y[vat]);
  // The well's liquid swells out into the vat, or the vat's sinks in, at its own temperature.
  const double mean = (s.well_kg * y[well] + vat_kg * y[vat]) / (s.well_kg + vat_kg);
  const double swelling = product::density_kg_per_m3(s.product.mass_kg, mean + 0.05) -
                          product::density_kg_per_m3(s.product.mass_kg, mean - 0.05);
  const double mean_rate =
      (heat_well / c.well_cp_J_per_kgK + heat_vat / c.vat_cp_J_per_kgK) / (s.well_kg + vat_kg);
  const double sinking = 1.0e-3 * m.well.volume_L * swelling / 0.1 * mean_rate;  // kg/s into the well

  rate[element] = (heater_W(m, relays.heat_norm, s.environment.supply_norm) - contact) /
                  (m.elements.mass_kg * m.elements.cp_J_per_kgK);
  rate[well_wall] = (contact - into_well - well_coil - m.well.loss_W_per_K * (y[well_wall] - room)) /
                    (m.well.wall_mass_kg * m.well.wall_cp_J_per_kgK);
  rate[well] =
      heat_well / (s.well_kg * c.well_cp_J_per_kgK) + std::max(0.0, sinking) / s.well_kg * (y[vat] - y[well]);
  rate[vat] =
      heat_vat / (vat_kg * c.vat_cp_J_per_kgK) + std::max(0.0, -sinking) / vat_kg * (y[well] - y[vat]);
  rate[vat_wall] = (into_wall - wall_coil - m.vat.loss_W_per_K * (y[vat_wall] - room)) /
                   (m.vat.wall_mass_kg * m.vat.wall_cp_J_per_kgK);
  rate[evaporator] = (wall_coil + well_coil - chiller_W) /
                     (m.chiller.evaporator_mass_kg * m.chiller.evaporator_cp_J_per_kgK);
  rate[lid] = ((s.fittings.lid_open ? 0.0 : into_lid) - c.lid_room_W_per_K * (y[lid] - room)) /
              (m.vat.lid_mass_kg * m.vat.lid_cp_J_per_kgK);
  rate[lid_water_kg] = lid_water_kg_per_s(s);
  rate[water_kg] = -evaporation - rate[lid_water_kg];
  const double shear = shear_per_s(m, s);
  if (y[well_wall] > 70.0) {
    rate[deposit_kg_per_m2] =
        (1.0 - s.deposit_kg_per_m2 / 3.0) * scorch_kg_per_m2s(c.scorch_kg_per_m2s, y[well_wall], shear);
  }
  rate[deposit_kg_per_m2] -= s.deposit_kg_per_m2 / 1800.0 * std::min(1.0, shear / 30.0);
  rate[shaft_rad_per_s] = shaft.acceleration;
  return rate;
}

namespace {

int right_hand_side(realtype, N_Vector in, N_Vector out, void* data) {
  auto& [ode, evaluations] = *static_cast<std::pair<const MachineOde*, long>*>(data);
  Variables y{};
  std::copy_n(N_VGetArrayPointer(in), variable_count, y.begin());
  const Variables rate = ode->rate(y);
  std::copy(rate.begin(), rate.end(), N_VGetArrayPointer(out));
  ++evaluations;
  return 0;
}

void demand(bool good, const char* what) {
  if (!good) throw std::runtime_error(std::string("CVODE: ") + what);
}

}  // namespace

Solution solve_by_cvode(const MachineOde& ode, const Variables& start, double span_s, double tolerance,
                        double read_each_s) {
  SUNContext made = nullptr;
  demand(SUNContext_Create(nullptr, &made) == 0, "no context");
  const auto free_context = [](SUNContext c) { SUNContext_Free(&c); };
  const std::unique_ptr<_SUNContext, decltype(free_context)> context(made, free_context);
  const std::unique_ptr<_generic_N_Vector, decltype(&N_VDestroy)> y(N_VNew_Serial(variable_count, made),
                                                                    &N_VDestroy);
  const std::unique_ptr<_generic_N_Vector, decltype(&N_VDestroy)> off(N_VNew_Serial(variable_count, made),
                                                                      &N_VDestroy);
  const double scale[variable_count] = {100, 100, 100, 100, 100, 100, 100, 10, 0.1, 10, 100, 100, 1, 0.1};
  for (std::size_t i = 0; i < variable_count; ++i) {
    N_VGetArrayPointer(y.get())[i] = start[i];
    N_VGetArrayPointer(off.get())[i] = tolerance * scale[i];
  }
  std::pair<const MachineOde*, long> data{&ode, 0};
  const auto free_solver = [](void* p) { CVodeFree(&p); };
  const std::unique_ptr<void, decltype(free_solver)> solver(CVodeCreate(CV_BDF, made), free_solver);
  const std::unique_ptr<_generic_SUNMatrix, decltype(&SUNMatDestroy)> matrix(
      SUNDenseMatrix(variable_count, variable_count, made), &SUNMatDestroy);
  const std::unique_ptr<_generic_SUNLinearSolver, decltype(&SUNLinSolFree)> linear(
      SUNLinSol_Dense(y.get(), matrix.get(), made), &SUNLinSolFree);
  demand(CVodeInit(solver.get(), right_hand_side, 0.0, y.get()) == 0, "not started");
  demand(CVodeSVtolerances(solver.get(), tolerance, off.get()) == 0, "tolerances refused");
  demand(CVodeSetUserData(solver.get(), &data) == 0, "no data");
  demand(CVodeSetLinearSolver(solver.get(), linear.get(), matrix.get()) == 0, "no linear solver");
  demand(CVodeSetMaxNumSteps(solver.get(), 500000) == 0, "step count refused");
  demand(CVodeSetStopTime(solver.get(), span_s) == 0, "stop time refused");
  realtype reached = 0.0;
  for (long n = 1; read_each_s > 0.0 && static_cast<double>(n) * read_each_s < span_s; ++n) {
    demand(CVode(solver.get(), static_cast<double>(n) * read_each_s, y.get(), &reached, CV_NORMAL) >= 0,
           "gave up");
  }
  demand(CVode(solver.get(), span_s, y.get(), &reached, CV_NORMAL) >= 0 && reached >= span_s, "gave up");
  Solution solution;
  std::copy_n(N_VGetArrayPointer(y.get()), variable_count, solution.y.begin());
  solution.evaluations = data.second;
  return solution;
}

}  // namespace stirbench::tests
