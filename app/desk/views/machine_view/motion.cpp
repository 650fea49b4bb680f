#include <algorithm>
#include <cmath>

#include "app/desk/views/machine_view/machine_view.h"

// How far everything that moves has come. All of it is linear in time, so that the size of the steps does not
// matter.
namespace stirbench::desk::views {

namespace {

constexpr double two_pi = 6.283185307179586;
constexpr double particle_L_per_s = 0.9;  // circulation that moves the particles on by one spacing

double wrapped(double value, double span) { return value - span * std::floor(value / span); }

double towards(double now, double goal, double most) { return now + std::clamp(goal - now, -most, most); }

bool moves_in(const plant::Flows& flows) {
  return flows.agitator_rpm > 0.5 || flows.circulation_L_per_min > 0.5 || flows.draw_L_per_min > 0.02 ||
         flows.steam_kg_per_h >= 0.02 || flows.spill_L_per_min > 0.0;
}

}  // namespace

void MachineMotion::advance(const machine::Machine& machine, const machine::State& state, double seconds,
                            bool running, bool reduced_motion) {
  const plant::Fittings& fittings = state.plant.fittings;
  const double lid = fittings.lid_open ? 1.0 : 0.0;
  const double cover = fittings.shaft_cover_open ? 1.0 : 0.0;
  const double way = seen && !reduced_motion ? seconds / kit::Motion::slow_s : 1.0;
  lid_norm = towards(lid_norm, lid, way);
  cover_norm = towards(cover_norm, cover, way);
  seen = true;
  if (!running || reduced_motion) return;
  const plant::Flows& flows = state.plant.flows;
  agitator_rad = wrapped(agitator_rad + two_pi * flows.agitator_rpm / 60.0 * seconds, two_pi);
  flow_m = wrapped(flow_m + flows.circulation_L_per_min / 60.0 / particle_L_per_s * 2.0 * seconds, 1.0);
  draw_m = wrapped(draw_m + flows.draw_L_per_min / 60.0 / particle_L_per_s * 8.0 * seconds, 1.0);
  // A third of its real speed: faster, the eye sees it stand or turn back.
  if (state.plant.freezer.running)
    dasher_rad = wrapped(dasher_rad + two_pi * machine.plant.freezer.dasher_rpm / 180.0 * seconds, two_pi);
  steam_s = wrapped(steam_s + seconds, 3600.0);
}

bool machine_animating(const machine::State& state, const MachineMotion& motion, bool running,
                       bool reduced_motion) {
  if (reduced_motion) return false;
  const double lid = state.plant.fittings.lid_open ? 1.0 : 0.0;
  const double cover = state.plant.fittings.shaft_cover_open ? 1.0 : 0.0;
  if (motion.seen && (motion.lid_norm != lid || motion.cover_norm != cover)) return true;
  return running && (moves_in(state.plant.flows) || state.plant.freezer.running ||
                     state.plant.freezer.outflow_L_per_min > 0.0);
}

}  // namespace stirbench::desk::views
