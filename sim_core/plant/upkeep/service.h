#pragma once

#include <string_view>
#include <vector>

#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// Wear service: what a feeler gauge reads, threads, pressing in, running in, and the remaining life of each
// wear part.
namespace stirbench::plant {

// With the shaft pushed to one side, the gap that a feeler gauge finds is twice the radial play. Blades from
// 0.05 mm in steps of 0.05 mm up to 2 mm: the thickest that goes in (0: none), so the radial play lies in
// [blade / 2, blade / 2 + 0.025).
inline constexpr double blade_step_mm = 0.05;
double feeler_blade_mm(double radial_play_mm);
// Present play of a bushing, its defects included [mm radial].
double play_now_mm(const MachineSpec& spec, const PlantState& state, PartId bushing);
double play_limit_mm(const MachineSpec& spec, PartId bushing);

bool on_thread(const PartRule& rule);
// A left-hand thread comes off clockwise. Forced the wrong way it is strained; a second time it strips, and
// the part is then cracked.
bool comes_off(const PartRule& rule, bool clockwise);
void strain_thread(AssemblyState& state, PartId part);

// Nylon pressed into a foot colder than this becomes oval: it is stiff and the bore has shrunk (choice;
// common practice is to warm the foot first).
inline constexpr double cold_foot_degC = 12.0;
inline constexpr double oval_play_mm = 0.08;
bool is_nylon(const MachineSpec& spec, const PartItem& bushing);

// A new bushing has more friction until it has run in: friction x (1 + 0.25 (1 - run_in)), run_in' =
// (1 - run_in) / 600 s of wet turning (choice).
double running_in_factor(const PartItem& bushing);
// Foot's temperature, running in, hours; called with wear.
void advance_service(const MachineSpec& spec, PlantState& state, double dt_s);

// Remaining life of a wear part in ordinary use: wet, product at 5 degC, ten full strokes of the draw valve
// per hour (choice).
struct ServiceLine {
  PartId part = PartId::count;  // count: of none that a hand takes off, the pump's vanes or the shaft's seal
  std::string_view key;         // "oring_front", "pump_vanes", "shaft_seal"
  std::string_view title;
  double now = 0.0;  // play [mm radial], or wear of the others [share]
  double limit = 0.0;
  double per_h = 0.0;       // growth, an hour of turning
  double hours_left = 0.0;  // 0: due now
  bool due() const { return now >= limit; }
};
std::vector<ServiceLine> service_forecast(const MachineSpec& spec, const PlantState& state);

}  // namespace stirbench::plant
