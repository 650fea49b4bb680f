#pragma once

#include <string_view>
#include <vector>

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// Wear service: what a feeler gauge reads, threads, pressing in, running in, and how long each wear part still lasts.
namespace stirbench::plant {

// The gap that a feeler finds with the shaft pushed to one side is twice the radial play. Blades from 0.05 mm in steps of 0.05 mm up to 2 mm: the thickest
// that goes in (0: none), so the radial play lies in [blade / 2, blade / 2 + 0.025).
inline constexpr double blade_step_mm = 0.05;
double feeler_blade_mm(double radial_play_mm);
// Play of a bushing as it stands, with what is wrong with it [mm radial].
double play_now_mm(const MachineSpec& spec, const PlantState& state, PartId bushing);
double play_limit_mm(const MachineSpec& spec, PartId bushing);

bool on_thread(const PartRule& rule);
// A left-hand thread comes off clockwise. The wrong way with force strains it, a second time it strips: the part is cracked then.
bool comes_off(const PartRule& rule, bool clockwise);
void strain_thread(AssemblyState& state, PartId part);

// Nylon pressed into a foot colder than this goes in oval: it is stiff and the bore has shrunk (choice; common practice warms the foot first).
inline constexpr double cold_foot_degC = 12.0;
inline constexpr double oval_play_mm = 0.08;
bool is_nylon(const MachineSpec& spec, const PartItem& bushing);

// A new bushing rubs more until its surface has settled: friction x (1 + 0.25 (1 - run_in)), run_in' = (1 - run_in) / 600 s of wet turning (choice).
double running_in_factor(const PartItem& bushing);
// Foot's temperature, running in, hours; called with wear.
void follow_service(const MachineSpec& spec, PlantState& state, double dt_s);

// How long a wear part still lasts at the use of a usual day: wet, product at 5 degC, ten full strokes of the draw valve an hour (choice).
struct ServiceLine {
  PartId part = PartId::count;
  double now = 0.0;             // play [mm radial], or wear of an O-ring [share]
  double limit = 0.0;
  double per_h = 0.0;           // growth, an hour of turning
  double hours_left = 0.0;      // 0: due now
  bool due() const { return now >= limit; }
};
std::vector<ServiceLine> service_forecast(const MachineSpec& spec, const PlantState& state);

}  // namespace stirbench::plant
