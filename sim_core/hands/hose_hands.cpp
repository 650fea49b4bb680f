#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/plant/hose.h"

// Transfer hose.
namespace stirbench::hands {

namespace {

constexpr std::array<std::string_view, 2> hose_ends{"pail", "freezer"};
constexpr std::array<std::string_view, 3> hose_routes{"straight", "kinked", "high"};

constexpr Text to{"to", listed<hose_ends>, "where its other end goes: pail or freezer"};
constexpr Flag clamp_on{"on", "true: shut, false: open"};
constexpr Flag gasket_on{"on", "true: in, false: out"};
constexpr Text route{"route", listed<hose_routes>, "straight, kinked or high"};

std::string why_not_fit(const Machine&, const State& state, const Action&) {
  if (state.plant.fittings.hose != plant::HoseEnd::none) return "A hose is already fitted.";
  return state.plant.fittings.draw_opening_norm > 0.0 ? "Close the draw valve first." : "";
}

template <bool clamped>
Outcome hose_fitted(Scene& scene, const Action& action) {
  plant::PlantState& plant = scene.state.plant;
  plant.fittings.hose = action.get(to) == "pail" ? plant::HoseEnd::pail : plant::HoseEnd::freezer;
  plant.line.clamped = clamped;
  plant.line.route = plant::HoseRoute::straight;
  plant.line.jumped = false;
  return {};
}

std::string why_not_remove(const Machine&, const State& state, const Action&) {
  if (state.plant.fittings.hose == plant::HoseEnd::none) return "No hose is fitted.";
  return state.plant.fittings.draw_opening_norm > 0.0 ? "Close the draw valve first." : "";
}

Outcome hose_removed(Scene& scene, const Action& action) {
  plant::PlantState& plant = scene.state.plant;
  const double floor_before_kg = plant.floor_kg;
  const bool pressed = plant.freezer.line_bar > 1.0e-3;
  plant::spray_from_hose(scene.machine.plant, plant);
  plant::empty_hose(plant);
  plant.fittings.hose = plant::HoseEnd::none;
  plant.line.route = plant::HoseRoute::straight;
  plant.line.leak_L_per_min = 0.0;
  tell_spill(scene, action, floor_before_kg,
             pressed ? "The hose was under pressure and sprayed."
                     : "The hose was not drained: what it held ran on to the floor.");
  return {};
}

std::string why_not_turn_clamp(const Machine&, const State& state, const Action& action) {
  const bool wanted = action.get(clamp_on);
  if (state.plant.fittings.hose == plant::HoseEnd::none) return "No hose is fitted.";
  if (wanted == state.plant.line.clamped)
    return wanted ? "The clamp is shut already." : "The clamp is open already.";
  return "";
}

Outcome clamp_turned(Scene& scene, const Action& action) {
  scene.state.plant.line.clamped = action.get(clamp_on);
  return {};
}

std::string why_not_gasket(const Machine&, const State& state, const Action& action) {
  const bool wanted = action.get(gasket_on);
  if (state.plant.fittings.hose != plant::HoseEnd::none)
    return "The gasket sits inside the joint. Take the hose off first.";
  if (wanted == state.plant.line.gasket)
    return wanted ? "The gasket is in already." : "The gasket is out already.";
  return "";
}

Outcome gasket_laid(Scene& scene, const Action& action) {
  scene.state.plant.line.gasket = action.get(gasket_on);
  return {};
}

std::string why_not_route(const Machine&, const State& state, const Action& action) {
  if (state.plant.fittings.hose == plant::HoseEnd::none) return "No hose is fitted.";
  return static_cast<int>(state.plant.line.route) == index_of(route, action.get(route))
             ? "It lies that way already."
             : "";
}

Outcome hose_laid(Scene& scene, const Action& action) {
  scene.state.plant.line.route = static_cast<plant::HoseRoute>(index_of(route, action.get(route)));
  return {};
}

std::string why_not_drain_hose(const Machine&, const State& state, const Action&) {
  const plant::PlantState& plant = state.plant;
  if (plant.fittings.hose == plant::HoseEnd::none) return "No hose is fitted.";
  if (plant.fittings.draw_opening_norm > 0.0) return "Close the draw valve first.";
  if (plant.fittings.hose == plant::HoseEnd::pail) return "A hose that hangs into the pail empties itself.";
  if (!plant.freezer.inlet_open) return "The freezer's inlet is shut.";
  return plant.line.held.total_kg() > 0.0 ? "" : "The hose is empty.";
}

Outcome hose_drained(Scene& scene, const Action&) {
  plant::drain_hose(scene.machine.plant, scene.state.plant);
  return {};
}

}  // namespace

constinit const HandOf<Text> fit_hose{
    {
        .name = "fit_hose",
        .meaning = "Clamp the transfer hose to the draw valve.",
        .why_not = why_not_fit,
        .effect = hose_fitted<true>,
        .needs_valve = true,
    },
    to,
};

constinit const HandOf<> remove_hose{{
    .name = "remove_hose",
    .meaning = "Take the transfer hose off.",
    .why_not = why_not_remove,
    .harms = hand_under_hose,
    .effect = hose_removed,
}};

constinit const HandOf<Text> push_hose_on{
    {
        .name = "push_hose_on",
        .meaning = "Push the transfer hose on to the draw valve, without its clamp.",
        .why_not = why_not_fit,
        .effect = hose_fitted<false>,
        .needs_valve = true,
    },
    to};

constinit const HandOf<Flag> clamp_hose{
    {
        .name = "clamp_hose",
        .meaning = "Shut or open the clamp of the transfer hose.",
        .why_not = why_not_turn_clamp,
        .effect = clamp_turned,
    },
    clamp_on,
};

constinit const HandOf<Flag> hose_gasket{
    {
        .name = "hose_gasket",
        .meaning = "Lay the gasket into the joint of the hose, or take it out.",
        .why_not = why_not_gasket,
        .effect = gasket_laid,
    },
    gasket_on};

constinit const HandOf<Text> route_hose{
    {
        .name = "route_hose",
        .meaning = "Lay the transfer hose another way.",
        .why_not = why_not_route,
        .effect = hose_laid,
    },
    route,
};

constinit const HandOf<> drain_hose{{
    .name = "drain_hose",
    .meaning = "Lift the transfer hose so that it empties into what it leads to.",
    .why_not = why_not_drain_hose,
    .effect = hose_drained,
}};

HandList hose_hands() {
  static constexpr const Hand* list[] = {&fit_hose,    &remove_hose, &push_hose_on, &clamp_hose,
                                         &hose_gasket, &route_hose,  &drain_hose};
  return list;
}

}  // namespace stirbench::hands
