#include "sim_core/training/batch_judge.h"

namespace stirbench::training {

namespace {

constexpr double turning_rpm = 5.0;  // as in bench/harms.cpp
constexpr double least_zone_kg = 0.1;

}  // namespace

product::VatSample sample_of(const machine::State& state) {
  const plant::PlantState& plant = state.plant;
  product::VatSample out;
  out.t_s = machine::time_s(state);
  out.mass_kg = plant.product.total_kg();
  out.brought_kg = plant.masses.poured_kg + plant.masses.rinsed_kg;
  out.well_degC = plant.well_degC;
  out.vat_degC = plant.vat_degC;
  // A zone without product has no temperature of its own.
  if (out.mass_kg - plant.well_kg < least_zone_kg) out.vat_degC = out.well_degC;
  if (plant.well_kg < least_zone_kg) out.well_degC = out.vat_degC;
  out.head_space_degC = plant.head_space_degC;
  out.stirred = plant.flows.agitator_rpm > turning_rpm;
  return out;
}

BatchJudge::BatchJudge(const machine::Machine& machine)
    : machine_(&machine),
      rows_(machine.rules.rows),
      lethality_(machine.rules.inactivation),
      cooling_(machine.rules),
      growth_(machine.rules.growth) {}

void BatchJudge::see(const machine::State& state) {
  const product::VatSample now = sample_of(state);
  const double poured_kg = state.plant.masses.poured_kg;
  const bool poured = poured_kg - poured_kg_ > product::addition_kg;
  poured_kg_ = poured_kg;
  if (emptied_ && !poured) return;  // rinse water is no batch
  emptied_ = had_batch_ && now.mass_kg < product::least_batch_kg;
  had_batch_ = now.mass_kg >= product::least_batch_kg;
  const bool added = now.brought_kg - brought_kg_ > product::addition_kg;
  brought_kg_ = now.brought_kg;
  rows_.see(now);
  if (!added && !emptied_ && state.tick % machine::ticks_per_second != 0) return;
  lethality_.see(now);
  cooling_.see(now);
  growth_.see(now);
}

product::QualityReport BatchJudge::quality(const machine::State& state) const {
  const bool aged = !machine_->rules.ageing.empty() && cooling_.ageing(0).done_s >= 0.0;
  return product::quality(state.plant.product, state.plant.deposit_kg_per_m2,
                          machine_->plant.well.heated_area_m2, aged);
}

bool BatchJudge::row_met(std::string_view id) const {
  if (rows_.met_count() == 0) return false;
  const auto& rows = machine_->rules.rows;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].id == id) return rows_.verdict(i).met;
  }
  return false;
}

std::string_view BatchJudge::cooling_state(std::string_view id) const {
  const auto& rules = machine_->rules.cooling;
  for (std::size_t i = 0; i < rules.size(); ++i) {
    if (rules[i].id == id) return cooling_word(cooling_.cooling(i).state);
  }
  return {};
}

std::string_view cooling_word(product::CoolingState state) {
  switch (state) {
    case product::CoolingState::waiting: return "waiting";
    case product::CoolingState::running: return "running";
    case product::CoolingState::kept: return "kept";
    case product::CoolingState::missed: return "missed";
    case product::CoolingState::does_not_apply: return "does_not_apply";
  }
  return {};
}

}  // namespace stirbench::training
