#include "sim_core/plant/upkeep/service.h"

#include <algorithm>
#include <cmath>

#include "sim_core/plant/drive.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/plant/upkeep/seal.h"
#include "sim_core/plant/upkeep/vanes.h"
#include "sim_core/plant/upkeep/wear.h"

namespace stirbench::plant {

namespace {

constexpr double usual_degC = 5.0;
constexpr double strokes_per_h = 10.0;
constexpr double never_h = 1.0e5;
constexpr double running_in_s = 600.0;
constexpr double foot_cools_s = 900.0;

bool is_bushing(PartId part) { return part == PartId::agitator_bushing || part == PartId::shaft_end_bushing; }

ServiceLine bushing_line(const MachineSpec& spec, const PlantState& state, PartId part) {
  const bool foot = part == PartId::agitator_bushing;
  const BushingSpec& own = foot ? spec.agitator_bushing : spec.shaft_end_bushing;
  const BushingFit fit =
      foot ? agitator_bushing_fit(spec, state.assembly) : shaft_end_bushing_fit(spec, state.assembly);
  ServiceLine line{part, part_key(part), part_title(part), play_now_mm(spec, state, part), own.limit_mm, 0.0,
                   0.0};
  line.per_h = 3600.0 * fit.wear_factor *
               wear_mm_per_s(own, fit.bearing, {0.0, usual_degC}, 1.0, rated_agitator_rad_per_s(spec.drive));
  return line;
}

ServiceLine ring_line(const PlantState& state, PartId part) {
  ServiceLine line{part, part_key(part), part_title(part), 1.0, 1.0, 0.0, 0.0};
  if (const PartItem* ring = thing_at(state.assembly, part)) {
    line.now = ring->health == PartHealth::good ? ring->wear : 1.0;
    line.per_h = strokes_per_h * 2.0 * ring_wear_per_stroke(ring->greased);  // out and back
  }
  return line;
}

ServiceLine vane_line(const MachineSpec& spec, const PlantState& state) {
  return {PartId::count,
          "pump_vanes",
          "Pump's vanes",
          state.vanes.wear_norm,
          vanes_due_norm,
          1.0 / spec.pump.vane_life_h,
          0.0};
}

ServiceLine seal_line(const MachineSpec& spec, const PlantState& state) {
  const double now = std::max(state.seal.wear_norm, state.health.seal_gap_norm);
  return {PartId::count, "shaft_seal", "Shaft's seal", now, seal_due_norm, 1.0 / spec.seal.life_h, 0.0};
}

}  // namespace

double feeler_blade_mm(double radial_play_mm) {
  // A hair of rounding must not cost a blade.
  const double blades = std::floor(2.0 * radial_play_mm / blade_step_mm + 1.0e-9);
  return blade_step_mm * std::clamp(blades, 0.0, 40.0);
}

double play_now_mm(const MachineSpec& spec, const PlantState& state, PartId bushing) {
  if (bushing == PartId::agitator_bushing)
    return state.agitator_bushing.play_mm + agitator_bushing_fit(spec, state.assembly).extra_play_mm;
  return state.shaft_end_bushing.play_mm + shaft_end_bushing_fit(spec, state.assembly).extra_play_mm;
}

double play_limit_mm(const MachineSpec& spec, PartId bushing) {
  return bushing == PartId::agitator_bushing ? spec.agitator_bushing.limit_mm
                                             : spec.shaft_end_bushing.limit_mm;
}

bool on_thread(const PartRule& rule) {
  return rule.grip == Grip::right_thread || rule.grip == Grip::left_thread;
}

bool comes_off(const PartRule& rule, bool clockwise) { return clockwise == (rule.grip == Grip::left_thread); }

void strain_thread(AssemblyState& state, PartId part) {
  PartItem& item = state.items[static_cast<std::size_t>(item_at(state, part))];
  if (item.strained) item.health = PartHealth::cracked;
  item.strained = true;
}

bool is_nylon(const MachineSpec& spec, const PartItem& bushing) {
  if (bushing.kind != PartId::agitator_bushing) return false;
  return (spec.agitator_bushing.material == "nylon") != bushing.other;
}

double running_in_factor(const PartItem& bushing) { return 1.0 + 0.25 * (1.0 - bushing.run_in); }

void advance_service(const MachineSpec& spec, PlantState& state, double dt_s) {
  AssemblyState& a = state.assembly;
  const bool there = in_place(a, PartId::agitator);
  // In the product a foot follows within the minute, in air it takes a quarter of an hour.
  const bool covered = there && state.product.total_kg() > 1.0;
  const double around_degC = covered ? state.vat_degC : state.environment.ambient_degC;
  const double tau_s = covered ? 60.0 : foot_cools_s;
  a.agitator_degC += (around_degC - a.agitator_degC) * -std::expm1(-dt_s / tau_s);
  if (!(state.shaft_rad_per_s > 0.0)) return;
  a.turned_s += dt_s;
  const Wetting wet = wetting(spec, state);
  for (const PartId place : {PartId::agitator_bushing, PartId::shaft_end_bushing}) {
    const int item = item_at(a, place);
    if (item < 0 || (place == PartId::agitator_bushing && !there)) continue;
    const double share = place == PartId::agitator_bushing ? wet.agitator_norm : wet.shaft_end_norm;
    double& run_in = a.items[static_cast<std::size_t>(item)].run_in;
    if (run_in < 1.0) run_in = 1.0 - (1.0 - run_in) * std::exp(-dt_s * share / running_in_s);
  }
}

std::vector<ServiceLine> service_forecast(const MachineSpec& spec, const PlantState& state) {
  std::vector<ServiceLine> out;
  for (const PartId part :
       {PartId::agitator_bushing, PartId::shaft_end_bushing, PartId::oring_front, PartId::oring_rear}) {
    out.push_back(is_bushing(part) ? bushing_line(spec, state, part) : ring_line(state, part));
  }
  out.push_back(vane_line(spec, state));
  out.push_back(seal_line(spec, state));
  for (ServiceLine& line : out) {
    const double room = std::max(0.0, line.limit - line.now);
    line.hours_left = room <= 0.0 ? 0.0 : line.per_h > 0.0 ? std::min(never_h, room / line.per_h) : never_h;
  }
  return out;
}

}  // namespace stirbench::plant
