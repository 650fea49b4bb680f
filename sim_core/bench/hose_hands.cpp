#include "sim_core/bench/lockout.h"
#include "sim_core/bench/service_hands.h"
#include "sim_core/plant/hose.h"

// What hands do to the transfer hose.
namespace stirbench::bench {

namespace {

using K = ActionKind;

std::string why_not_clamp(const plant::PlantState& plant, bool on) {
  if (plant.fittings.hose == plant::HoseEnd::none) return "No hose is fitted.";
  if (on == plant.line.clamped) return on ? "The clamp is shut already." : "The clamp is open already.";
  return "";
}

std::string why_not_gasket(const plant::PlantState& plant, bool on) {
  if (plant.fittings.hose != plant::HoseEnd::none) return "The gasket sits inside the joint. Take the hose off first.";
  if (on == plant.line.gasket) return on ? "The gasket is in already." : "The gasket is out already.";
  return "";
}

std::string why_not_drain(const plant::PlantState& plant) {
  if (plant.fittings.hose == plant::HoseEnd::none) return "No hose is fitted.";
  if (plant.fittings.draw_opening_norm > 0.0) return "Close the draw valve first.";
  if (plant.fittings.hose == plant::HoseEnd::pail) return "A hose that hangs into the pail empties itself.";
  if (!plant.freezer.inlet_open) return "The freezer's inlet is shut.";
  return plant.line.held.total_kg() > 0.0 ? "" : "The hose is empty.";
}

}  // namespace

std::string why_not_hose_work(const State& state, const Action& action) {
  const plant::PlantState& plant = state.plant;
  switch (action.kind) {
    case K::push_hose_on:
      if (action.name != "pail" && action.name != "freezer") return "A hose goes to \"pail\" or \"freezer\".";
      if (plant.fittings.hose != plant::HoseEnd::none) return "A hose is already fitted.";
      return plant.fittings.draw_opening_norm > 0.0 ? "Close the draw valve first." : "";
    case K::clamp_hose: return why_not_clamp(plant, action.on);
    case K::hose_gasket: return why_not_gasket(plant, action.on);
    case K::route_hose:
      if (choice_index("route", action.name) < 0) return "route is one of: straight, kinked, high.";
      if (plant.fittings.hose == plant::HoseEnd::none) return "No hose is fitted.";
      return static_cast<int>(plant.line.route) == choice_index("route", action.name) ? "It lies that way already." : "";
    default: return why_not_drain(plant);
  }
}

void put_hose_on(plant::PlantState& plant, std::string_view to, bool clamped) {
  plant.fittings.hose = to == "pail" ? plant::HoseEnd::pail : plant::HoseEnd::freezer;
  plant.line.clamped = clamped;
  plant.line.route = plant::HoseRoute::straight;
  plant.line.jumped = false;
}

void take_hose_off(const Machine& machine, plant::PlantState& plant) {
  plant::spray_from_hose(machine.plant, plant);
  plant::empty_hose(plant);
  plant.fittings.hose = plant::HoseEnd::none;
  plant.line.route = plant::HoseRoute::straight;
  plant.line.leak_L_per_min = 0.0;
}

void do_hose_work(const Machine& machine, State& state, const Action& action) {
  plant::PlantState& plant = state.plant;
  switch (action.kind) {
    case K::push_hose_on: put_hose_on(plant, action.name, false); break;
    case K::clamp_hose: plant.line.clamped = action.on; break;
    case K::hose_gasket: plant.line.gasket = action.on; break;
    case K::route_hose: plant.line.route = static_cast<plant::HoseRoute>(choice_index("route", action.name)); break;
    default: plant::drain_hose(machine.plant, plant); break;
  }
}

}  // namespace stirbench::bench
