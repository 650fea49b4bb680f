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
#include "sim_core/plant/upkeep/wear.h"
#include "sim_core/plant/zones.h"
#include "sim_core/product/properties.h"
#include "sim_core/refrigeration/r290.h"

namespace stirbench::tests {
namespace {

using namespace plant;
using namespace refrigeration;
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
  s.protein_film_kg_per_m2 = std::max(0.0, y[protein_film_kg_per_m2]);
  s.probe_pocket_degC = y[probe_pocket];
  s.probe_degC = y[probe];
  s.product.age_norm = std::max(0.0, y[age_norm]);
  s.shaft_rad_per_s = std::max(0.0, y[shaft_rad_per_s]);
  s.coefficients.evaporating_degC = y[evaporating];
  s.coefficients.condensing_degC = y[condensing];
  s.chiller.dry_norm = y[dry_norm];
  s.lid_water_kg = y[lid_water_kg];
  s.pace.trend = {};
  s.since_refresh_s = 0.0;
  // A full well, at the density of the mean temperature: twice round from the last known, because that mean
  // needs the well's mass.
  const double total_kg = s.product.total_kg();
  for (int i = 0; i < 2; ++i) {
    const double mean = (s.well_kg * y[well] + (total_kg - s.well_kg) * y[vat]) / total_kg;
    s.well_kg = 1.0e-3 * ode.spec.well.volume_L * product::density_kg_per_m3(s.product.mass_kg, mean);
    s.coefficients.density_kg_per_m3 = s.well_kg / (1.0e-3 * ode.spec.well.volume_L);
  }
  compute_coefficients(ode.spec, s);
  return s;
}

struct Shaft {
  double acceleration, vat_W, well_W;
};

Shaft shaft_of(const MachineOde& ode, const PlantState& s) {
  const DriveSpec& d = ode.spec.drive;
  const Coefficients& c = s.coefficients;
  const double w = s.shaft_rad_per_s;
  if (!ode.relays.drive_on && w <= 0.0) return {0.0, 0.0, 0.0};
  const double r = w / rated_agitator_rad_per_s(d);
  const double agitator = r * (c.viscous_torque_Nm + r * (c.agitator_torque_Nm - c.viscous_torque_Nm));
  const double others =
      c.pump_torque_Nm * std::min(1.0, r) + bushings_torque_Nm(ode.spec, s) * std::min(1.0, 100.0 * r);
  if (!ode.relays.drive_on) {
    // The brake lets go of a shaft that stands: within a thousandth of its speed here.
    const double brake = d.brake_torque_Nm * std::min(1.0, 1.0e3 * r);
    return {-(brake + agitator + others) / d.inertia_kgm2, agitator * w, others * w};
  }
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
  return heat_W + m.well.heated_area_m2 * h / (1.0 + h * layers_m2K_per_W(s)) * above_K *
                      std::min(1.0, (s.well_wall_degC - s.well_degC));
}

// The refrigerant's circuit. Heat taken from the evaporator [W].
double refrigerate(const MachineOde& ode, const Variables& y, PlantState& s, Variables& rate) {
  const ChillerSpec& chiller = ode.spec.chiller;
  if (!s.compressor_on) {
    const double room_degC = s.environment.ambient_degC;
    const double coldest_degC = std::clamp(std::min(y[evaporator], room_degC), -44.0, 60.0);
    const double gas_bar = r290_gas_pressure_bar(s.chiller.health.charge_norm * chiller.charge_kg,
                                                 chiller.evaporator_m3 + chiller.condenser_m3, room_degC);
    const double rest_degC = r290_saturation_degC(std::min(r290_pressure_bar(coldest_degC), gas_bar));
    rate[evaporating] = (rest_degC - y[evaporating]) / chiller.equalise_s;
    rate[condensing] = (rest_degC - y[condensing]) / chiller.equalise_s;
    rate[dry_norm] = ((y[evaporator] > room_degC ? 0.95 : 0.3) - y[dry_norm]) / chiller.equalise_s;
    return 0.0;
  }
  const CycleRate now =
      cycle_rate(chiller, cycle_setting(ode.spec, s), {y[evaporating], y[condensing], y[dry_norm]});
  rate[evaporating] = now.per_s.evaporating_degC;
  rate[condensing] = now.per_s.condensing_degC;
  rate[dry_norm] = now.per_s.dry_norm;
  s.chiller.gauges = now.gauges;
  return chiller_heat_W(s, y[evaporator], 0.0);
}

// Fat crystallises below 12 degC, at full pace from 7 degC down, and melts from 15 degC up.
double ageing_per_s(double age, double t_degC) {
  if (t_degC < 12.0) return (1.0 - age) * std::min(1.0, (12.0 - t_degC) / 5.0) / 5400.0;
  return t_degC > 15.0 ? -age * std::min(1.0, (t_degC - 15.0) / 10.0) / 600.0 : 0.0;
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
  y[protein_film_kg_per_m2] = s.protein_film_kg_per_m2;
  y[shaft_rad_per_s] = s.shaft_rad_per_s;
  y[evaporating] = s.coefficients.evaporating_degC;
  y[condensing] = s.coefficients.condensing_degC;
  y[dry_norm] = s.chiller.dry_norm;
  y[lid_water_kg] = s.lid_water_kg;
  y[probe_pocket] = s.probe_pocket_degC;
  y[probe] = s.probe_degC;
  y[age_norm] = s.product.age_norm;
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
  rate[vat_wall] = (into_wall - wall_coil - m.vat.loss_W_per_K * (y[vat_wall] - room) + c.dew_W) /
                   (m.vat.wall_mass_kg * m.vat.wall_cp_J_per_kgK);
  rate[evaporator] = (wall_coil + well_coil - chiller_W) /
                     (m.chiller.evaporator_mass_kg * m.chiller.evaporator_cp_J_per_kgK);
  rate[lid] = ((s.fittings.lid_open ? 0.0 : into_lid) - c.lid_room_W_per_K * (y[lid] - room)) /
              (m.vat.lid_mass_kg * m.vat.lid_cp_J_per_kgK);
  rate[lid_water_kg] = lid_water_kg_per_s(s, c.lid_drip_kg_per_s);
  rate[water_kg] = -evaporation - rate[lid_water_kg];
  const double shear = shear_per_s(m, s);
  if (y[well_wall] > 70.0) {
    rate[deposit_kg_per_m2] = (1.0 - s.deposit_kg_per_m2 / 3.0) *
                              scorch_kg_per_m2s(c.scorch_kg_per_m2s, y[well_wall], y[well], shear);
    const double protein = s.product.mass_kg[product::Component::milk_protein] / s.product.total_kg();
    rate[protein_film_kg_per_m2] =
        (1.0 - s.protein_film_kg_per_m2) * film_kg_per_m2s(protein, y[well_wall], y[well], shear);
  }
  rate[deposit_kg_per_m2] -= s.deposit_kg_per_m2 / 1800.0 * std::min(1.0, shear / 30.0);
  rate[shaft_rad_per_s] = shaft.acceleration;
  const double seen = m.probe.vat_share_norm * y[vat] + (1.0 - m.probe.vat_share_norm) * y[well];
  const double tip = seen + c.probe_stem_norm * (room - seen);
  rate[probe_pocket] = (tip - y[probe_pocket]) / (m.probe.pocket_share_norm * m.probe.tau_s);
  rate[probe] = (y[probe_pocket] - y[probe]) / ((1.0 - m.probe.pocket_share_norm) * m.probe.tau_s);
  rate[age_norm] = ageing_per_s(y[age_norm], mean);
  return rate;
}

plant::PlantState MachineOde::state_of(const Variables& y) const {
  PlantState s = state_at(*this, y);
  s.well_J = enthalpy_at_J(s, s.well_kg, y[well]);
  s.vat_J = enthalpy_at_J(s, s.product.total_kg() - s.well_kg, y[vat]);
  return s;
}

namespace {

struct Data {
  MachineOde ode;
  long evaluations = 0;
};

int right_hand_side(realtype, N_Vector in, N_Vector out, void* data) {
  auto& [ode, evaluations] = *static_cast<Data*>(data);
  Variables y{};
  std::copy_n(N_VGetArrayPointer(in), variable_count, y.begin());
  const Variables rate = ode.rate(y);
  std::copy(rate.begin(), rate.end(), N_VGetArrayPointer(out));
  ++evaluations;
  return 0;
}

void demand(bool good, const char* what) {
  if (!good) throw std::runtime_error(std::string("CVODE: ") + what);
}

SUNContext new_context() {
  SUNContext made = nullptr;
  demand(SUNContext_Create(nullptr, &made) == 0, "no context");
  return made;
}

struct Free {
  void operator()(SUNContext c) const { SUNContext_Free(&c); }
  void operator()(N_Vector v) const { N_VDestroy(v); }
  void operator()(SUNMatrix m) const { SUNMatDestroy(m); }
  void operator()(SUNLinearSolver l) const { SUNLinSolFree(l); }
  void operator()(void* solver) const { CVodeFree(&solver); }
};
using Vector = std::unique_ptr<_generic_N_Vector, Free>;

}  // namespace

struct Cvode::Parts {
  Data data;
  double tolerance;
  double reached_s = 0.0;
  bool begun = false;
  bool fresh = true;  // not a step since the start
  Variables shown{};
  std::unique_ptr<_SUNContext, Free> context{new_context()};
  Vector y{N_VNew_Serial(variable_count, context.get())};
  Vector off{N_VNew_Serial(variable_count, context.get())};
  std::unique_ptr<_generic_SUNMatrix, Free> matrix{
      SUNDenseMatrix(variable_count, variable_count, context.get())};
  std::unique_ptr<_generic_SUNLinearSolver, Free> linear{
      SUNLinSol_Dense(y.get(), matrix.get(), context.get())};
  std::unique_ptr<void, Free> solver{CVodeCreate(CV_BDF, context.get())};
};

Cvode::Cvode(double tolerance) : parts_(std::make_unique<Parts>()) {
  parts_->tolerance = tolerance;
  constexpr double scale[variable_count] = {100, 100, 100, 100, 100, 100, 100, 10,  0.1,
                                            0.1, 10,  100, 100, 1,   0.1, 100, 100, 1};
  for (std::size_t i = 0; i < variable_count; ++i)
    N_VGetArrayPointer(parts_->off.get())[i] = tolerance * scale[i];
}

Cvode::~Cvode() = default;

void Cvode::start(const MachineOde& ode, double t_s, const Variables& y) {
  Parts& p = *parts_;
  p.data.ode = ode;
  p.reached_s = t_s;
  p.fresh = true;
  p.shown = y;
  std::copy(y.begin(), y.end(), N_VGetArrayPointer(p.y.get()));
  void* solver = p.solver.get();
  if (p.begun) {
    demand(CVodeReInit(solver, t_s, p.y.get()) == 0, "not started again");
    return;
  }
  demand(CVodeInit(solver, right_hand_side, t_s, p.y.get()) == 0, "not started");
  demand(CVodeSVtolerances(solver, p.tolerance, p.off.get()) == 0, "tolerances refused");
  demand(CVodeSetUserData(solver, &p.data) == 0, "no data");
  demand(CVodeSetLinearSolver(solver, p.linear.get(), p.matrix.get()) == 0, "no linear solver");
  demand(CVodeSetMaxNumSteps(solver, 500000) == 0, "step count refused");
  p.begun = true;
}

const Variables& Cvode::at(double t_s) {
  Parts& p = *parts_;
  if (p.fresh && t_s <= p.reached_s) return p.shown;
  while (p.reached_s < t_s) {
    demand(CVode(p.solver.get(), t_s, p.y.get(), &p.reached_s, CV_ONE_STEP) >= 0, "gave up");
    p.fresh = false;
  }
  demand(CVodeGetDky(p.solver.get(), t_s, 0, p.y.get()) == 0, "no interpolation");
  std::copy_n(N_VGetArrayPointer(p.y.get()), variable_count, p.shown.begin());
  return p.shown;
}

long Cvode::evaluations() const { return parts_->data.evaluations; }

Solution solve_by_cvode(const MachineOde& ode, const Variables& start, double span_s, double tolerance) {
  Cvode solver(tolerance);
  solver.start(ode, 0.0, start);
  return {solver.at(span_s), solver.evaluations()};
}

}  // namespace stirbench::tests
