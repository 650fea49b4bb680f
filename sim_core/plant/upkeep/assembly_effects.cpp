#include "sim_core/plant/upkeep/assembly_effects.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/plant/coefficients.h"
#include "sim_core/plant/drive.h"
#include "sim_core/plant/pace.h"
#include "sim_core/plant/plant.h"
#include "sim_core/plant/upkeep/service.h"
#include "sim_core/plant/upkeep/vanes.h"
#include "sim_core/plant/upkeep/wear.h"
#include "sim_core/plant/zones.h"

namespace stirbench::plant {

const PartItem* thing_at(const AssemblyState& state, PartId place) {
  const int item = item_at(state, place);
  return item < 0 ? nullptr : &state.items[static_cast<std::size_t>(item)];
}

namespace {

double ring_gap(const AssemblySpec& spec, const AssemblyState& state, PartId place) {
  const PartItem* ring = thing_at(state, place);
  if (ring == nullptr) return spec.plunger_gap_m;
  double share = 0.2 * std::clamp(ring->wear, 0.0, 1.0);
  if (ring->health == PartHealth::worn) share = std::max(share, 0.2);
  if (ring->health == PartHealth::cracked) share = std::max(share, 0.4);
  if (ring->kind != place) share = std::max(share, 0.15);
  return share * spec.plunger_gap_m;
}

BushingFit bushing_fit(const BushingSpec& spec, const PartItem* bushing) {
  BushingFit fit;
  if (bushing == nullptr) {
    fit.bearing = Bearing::metal;
    fit.extra_play_mm = spec.wall_mm;
    return fit;
  }
  fit.bearing = (spec.material == "nylon") != bushing->other ? Bearing::nylon : Bearing::bronze;
  if (bushing->other) {
    fit.friction_factor = 1.4;
    fit.wear_factor = 6.0;
  }
  fit.friction_factor *= running_in_factor(*bushing) * (bushing->oval ? 1.15 : 1.0);
  if (bushing->health == PartHealth::worn) fit.extra_play_mm = 0.6 * spec.limit_mm;
  if (bushing->health == PartHealth::cracked) {
    fit.extra_play_mm = 1.2 * spec.limit_mm;
    fit.friction_factor *= 1.3;
    fit.wear_factor *= 4.0;
  }
  return fit;
}

// Less than 0.06 mL/min wets the ring and dries again.
double runs(double flow_m3_per_s) { return flow_m3_per_s > 1.0e-9 ? flow_m3_per_s : 0.0; }

void run_to_floor(const MachineSpec& spec, PlantState& state, double kg) {
  const TakenLiquid taken = take_liquid(spec, state, kg, true);
  state.masses.spilled_kg += taken.kg;
  state.ledger.material_J -= taken.enthalpy_J;
  state.floor_kg += taken.kg;
}

double head_Pa(const MachineSpec& spec, const PlantState& state) {
  const double area = 0.25 * std::numbers::pi * spec.vat.diameter_m * spec.vat.diameter_m;
  const double above_m =
      std::max(0.0, fill_L(state) - spec.well.volume_L) * 1.0e-3 / area + spec.draw.outlet_height_m;
  return state.product.total_kg() > least_kg ? state.coefficients.density_kg_per_m3 * 9.81 * above_m : 0.0;
}

void wear_rings(PlantState& state) {
  AssemblyState& a = state.assembly;
  const double stroke = std::abs(state.fittings.draw_opening_norm - a.seen_opening_norm);
  a.seen_opening_norm = state.fittings.draw_opening_norm;
  if (stroke <= 0.0) return;
  for (const PartId place : {PartId::oring_front, PartId::oring_rear}) {
    const int item = item_at(a, place);
    if (item < 0) continue;
    PartItem& ring = a.items[static_cast<std::size_t>(item)];
    ring.wear = std::min(1.0, ring.wear + stroke * ring_wear_per_stroke(ring.greased));
  }
}

}  // namespace

double ring_wear_per_stroke(bool greased) { return greased ? 1.0 / 2.0e4 : 1.0 / 1.0e3; }

double front_gap_m(const AssemblySpec& spec, const AssemblyState& state) {
  return ring_gap(spec, state, PartId::oring_front);
}
double rear_gap_m(const AssemblySpec& spec, const AssemblyState& state) {
  return ring_gap(spec, state, PartId::oring_rear);
}

double ring_gap_flow_m3_per_s(double diameter_m, double gap_m, double length_m, double pressure_Pa,
                              double viscosity_Pa_s) {
  if (!(gap_m > 0.0) || !(pressure_Pa > 0.0) || !(length_m > 0.0)) return 0.0;
  return std::numbers::pi * diameter_m * gap_m * gap_m * gap_m * pressure_Pa /
         (12.0 * viscosity_Pa_s * length_m);
}

double plunger_opening_norm(const AssemblySpec& spec, const PlantState& state) {
  const AssemblyState& a = state.assembly;
  if (!in_place(a, PartId::valve_plunger)) return 1.0;
  const bool held = in_place(a, PartId::valve_spring) && in_place(a, PartId::valve_nut);
  return held ? state.fittings.draw_opening_norm
              : std::max(state.fittings.draw_opening_norm, spec.drift_opening_norm);
}

bool valve_can_be_turned(const AssemblyState& state) {
  return in_place(state, PartId::valve_handle) && in_place(state, PartId::valve_plunger) &&
         in_place(state, PartId::valve_nut);
}

double front_leak_m3_per_s(const MachineSpec& spec, const PlantState& state, double pressure_Pa,
                           double viscosity_Pa_s) {
  return runs(ring_gap_flow_m3_per_s(spec.draw.valve_bore_m, front_gap_m(spec.assembly, state.assembly),
                                     spec.assembly.seal_length_m, pressure_Pa, viscosity_Pa_s));
}

double rear_leak_m3_per_s(const MachineSpec& spec, const PlantState& state, double pressure_Pa,
                          double viscosity_Pa_s) {
  // Product reaches the rear ring when the plunger is drawn back, or past a bad front ring.
  const double front = front_gap_m(spec.assembly, state.assembly);
  const double rear = rear_gap_m(spec.assembly, state.assembly);
  const bool open = plunger_opening_norm(spec.assembly, state) > 0.03;
  if (!in_place(state.assembly, PartId::valve_plunger)) return 0.0;  // then everything runs out in front
  const double gap = open ? rear : std::min(rear, front);
  return runs(ring_gap_flow_m3_per_s(spec.draw.valve_bore_m, gap, 2.0 * spec.assembly.seal_length_m,
                                     pressure_Pa, viscosity_Pa_s));
}

double prime_limit_norm(const MachineSpec& spec, const PlantState& state) {
  if (!(spec.assembly.plunger_gap_m > 0.0)) return 1.0;
  const double gap = rear_gap_m(spec.assembly, state.assembly) / spec.assembly.plunger_gap_m;
  if (!in_place(state.assembly, PartId::valve_plunger)) return 0.5;
  return plunger_opening_norm(spec.assembly, state) > 0.03 ? 1.0 - 0.4 * gap : 1.0;
}

BushingFit agitator_bushing_fit(const MachineSpec& spec, const AssemblyState& state) {
  if (!in_place(state, PartId::agitator))
    return {Bearing::bronze, 0.0, 0.0, 0.0};  // nothing runs on the sleeve
  BushingFit fit = bushing_fit(spec.agitator_bushing, thing_at(state, PartId::agitator_bushing));
  if (!in_place(state, PartId::guard_cover)) fit.wear_factor *= 2.0;
  return fit;
}

BushingFit shaft_end_bushing_fit(const MachineSpec& spec, const AssemblyState& state) {
  BushingFit fit = bushing_fit(spec.shaft_end_bushing, thing_at(state, PartId::shaft_end_bushing));
  if (!in_place(state, PartId::guard_cover) && in_place(state, PartId::agitator)) fit.wear_factor *= 2.0;
  if (spec.assembly.stuck_kg > 0.0) {
    const double stuck = std::clamp(state.shaft_product_kg / spec.assembly.stuck_kg, 0.0, 1.0);
    fit.friction_factor *= 1.0 + stuck;
    fit.wear_factor *= 1.0 + 4.0 * stuck;
  }
  return fit;
}

bool agitator_turns(const AssemblyState& state) { return in_place(state, PartId::agitator); }

double noise_dB(const MachineSpec& spec, const PlantState& state) {
  if (!(state.shaft_rad_per_s > 0.05 * rated_agitator_rad_per_s(spec.drive))) return 0.0;
  const auto rattle = [](double play_mm, double limit_mm) {
    const double over = play_mm / std::max(0.1 * limit_mm, 1e-6);
    return over > 1.0 ? 6.0 * std::log2(over) : 0.0;
  };
  double level = 52.0;
  if (agitator_turns(state.assembly)) {
    const double play =
        state.agitator_bushing.play_mm + agitator_bushing_fit(spec, state.assembly).extra_play_mm;
    level += rattle(play, spec.agitator_bushing.limit_mm);
    if (!in_place(state.assembly, PartId::guard_cover)) level += 5.0;
  }
  level += rattle(state.shaft_end_bushing.play_mm + shaft_end_bushing_fit(spec, state.assembly).extra_play_mm,
                  spec.shaft_end_bushing.limit_mm);
  if (state.prime_norm < 0.9) level += 8.0;
  level += 14.0 * squeal_norm(spec, state);
  // Vanes that flap: heard from a tenth of their wear on, 7 dB when torn (choice).
  level += 24.0 * std::max(0.0, vane_pulse_norm(state.vanes) - 0.03);
  return std::min(level, 95.0);
}

namespace {

// How open the way into the shaft is: 1 without the sleeve's cap, ten times as much without the sleeve. A
// shaft end with more play than its limit whirls and its cap no longer seals, at twice the limit not at all
// (choice).
double shaft_opening_norm(const MachineSpec& spec, const PlantState& state) {
  const AssemblyState& a = state.assembly;
  if (!in_place(a, PartId::shaft_sleeve)) return 10.0;
  if (!in_place(a, PartId::sleeve_cap)) return 1.0;
  const double limit_mm = spec.shaft_end_bushing.limit_mm;
  const double play_mm = state.shaft_end_bushing.play_mm + shaft_end_bushing_fit(spec, a).extra_play_mm;
  return std::clamp(play_mm / limit_mm - 1.0, 0.0, 1.0);
}

}  // namespace

void advance_assembly(const MachineSpec& spec, PlantState& state, double dt_s) {
  AssemblyState& a = state.assembly;
  wear_rings(state);
  const bool product = state.product.total_kg() > least_kg;
  const bool sleeve = in_place(a, PartId::shaft_sleeve);
  const double open = shaft_opening_norm(spec, state);
  if (product && open > 0.0) {
    // Splashed up by the turning agitator, or standing above the open sleeve.
    const bool splashes =
        agitator_turns(a) && state.shaft_rad_per_s > 0.3 * rated_agitator_rad_per_s(spec.drive);
    const bool covered = fill_L(state) > 0.8 * spec.vat.working_L;
    const double kg = spec.assembly.shaft_leak_kg_per_h * open * dt_s / 3600.0;
    if (splashes || covered || !sleeve) {
      a.shaft_product_kg += kg;
      // What the sleeve cannot hold drips out below.
      if (a.shaft_product_kg > spec.assembly.stuck_kg) run_to_floor(spec, state, kg);
    }
  }
  // What leaks past the rear ring runs to the floor.
  const double flow = rear_leak_m3_per_s(spec, state, head_Pa(spec, state),
                                         std::max(state.coefficients.viscosity_Pa_s, 5e-4));
  if (flow > 0.0 && product) run_to_floor(spec, state, flow * state.coefficients.density_kg_per_m3 * dt_s);
}

namespace {

BushingState* bushing_in(PlantState& state, PartId place) {
  if (place == PartId::agitator_bushing) return &state.agitator_bushing;
  return place == PartId::shaft_end_bushing ? &state.shaft_end_bushing : nullptr;
}

}  // namespace

void take_part_off(const MachineSpec& spec, PlantState& state, PartId part) {
  refresh(spec, state);  // what the machine went through until now comes before
  const int item = item_at(state.assembly, part);
  if (BushingState* bushing = bushing_in(state, part)) {
    state.assembly.items[static_cast<std::size_t>(item)].wear = bushing->play_mm;
    bushing->play_mm = 0.0;
  }
  take_off(state.assembly, part);
  if (part == PartId::shaft_sleeve) state.assembly.shaft_product_kg = 0.0;  // rinsed out with it in the hand
  refresh(spec, state);
  invalidate_pace(state);
}

void put_part_on(const MachineSpec& spec, PlantState& state, PartId part) {
  refresh(spec, state);
  const int item = state.assembly.hand;
  put_on(state.assembly, part);
  if (BushingState* bushing = bushing_in(state, part)) {
    PartItem& put = state.assembly.items[static_cast<std::size_t>(item)];
    const bool pressed = spec.assembly.rules[static_cast<std::size_t>(part)].grip == Grip::press_fit;
    if (pressed && !put.oval && is_nylon(spec, put) && state.assembly.agitator_degC < cold_foot_degC) {
      put.oval = true;
      put.wear += oval_play_mm;
    }
    bushing->play_mm = put.wear;
  }
  refresh(spec, state);
  invalidate_pace(state);
}

}  // namespace stirbench::plant
