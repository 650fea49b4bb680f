#include "sim_core/plant/freezer/freezer.h"

#include "sim_core/hands/handles.h"

// Batch freezer: inlet, lid, drain, selector, start and stop, gate, tub, rinse water.
namespace stirbench::hands {

namespace {

using plant::FreezerState;

Words setting_words() {
  static const auto words = [] {
    std::array<std::string_view, static_cast<std::size_t>(plant::FreezerSetting::count)> out;
    for (std::size_t i = 0; i < out.size(); ++i)
      out[i] = plant::freezer_setting_word(static_cast<plant::FreezerSetting>(i));
    return out;
  }();
  return words;
}

constexpr Flag open{"on", "true: open, false: shut"};
constexpr Number gate_opening_norm{"opening_norm", 0.0, 1.0, "-", "0 shut, 1 fully open"};
constexpr Text setting{
    "setting", setting_words,
    "freeze: dasher and refrigeration; dasher: the dasher alone; keep: both, only to keep a ready charge"};
constexpr Number rinse_kg{"kg", 0.1, 20.0, "kg", "how much"};
constexpr OptionalNumber rinse_degC{"degC", 1.0, 70.0, "degC", 15.0, "its temperature; 15 when left out"};

std::string why_not_turned(bool is, bool wanted, const char* what) {
  return is == wanted ? "The freezer's " + std::string(what) + " is already " + (wanted ? "open." : "shut.")
                      : "";
}

std::string why_not_inlet(const Machine&, const State& state, const Action& action) {
  return why_not_turned(state.plant.freezer.inlet_open, action.get(open), "inlet");
}
std::string why_not_lid(const Machine&, const State& state, const Action& action) {
  return why_not_turned(state.plant.freezer.lid_open, action.get(open), "lid");
}
std::string why_not_drain(const Machine&, const State& state, const Action& action) {
  return why_not_turned(state.plant.freezer.drain_open, action.get(open), "drain");
}

Outcome inlet_turned(Scene& scene, const Action& action) {
  scene.state.plant.freezer.inlet_open = action.get(open);
  return {};
}

Outcome lid_turned(Scene& scene, const Action& action) {
  FreezerState& freezer = scene.state.plant.freezer;
  freezer.lid_open = action.get(open);
  if (!freezer.lid_open || !freezer.running) return {};
  plant::stop_freezer(freezer);
  return "The lid's guard has stopped the dasher.";
}

Outcome drain_turned(Scene& scene, const Action& action) {
  scene.state.plant.freezer.drain_open = action.get(open);
  return {};
}

std::string why_not_start(const Machine&, const State& state, const Action&) {
  const FreezerState& freezer = state.plant.freezer;
  if (freezer.running) return "The freezer already runs.";
  if (freezer.tripped) return "The dasher's overload protection has tripped. Let it cool, then reset it.";
  if (freezer.lid_open) return "The freezer's lid is open: its guard holds the dasher.";
  return state.plant.environment.supply_norm > 0.7 ? "" : "The freezer has no power.";
}

Outcome started(Scene& scene, const Action&) {
  plant::start_freezer(scene.state.plant.freezer);
  return {};
}

std::string why_not_stop(const Machine&, const State& state, const Action&) {
  return state.plant.freezer.running ? "" : "The freezer is at rest.";
}

Outcome stopped(Scene& scene, const Action&) {
  plant::stop_freezer(scene.state.plant.freezer);
  return {};
}

Outcome gate_set(Scene& scene, const Action& action) {
  scene.state.plant.freezer.gate_norm = action.get(gate_opening_norm);
  return {};
}

std::string why_not_reset(const Machine&, const State& state, const Action&) {
  const FreezerState& freezer = state.plant.freezer;
  if (!freezer.tripped) return "The dasher's overload protection has not tripped.";
  return plant::may_reset_freezer(freezer) ? "" : "The dasher's motor is still hot. Wait, then reset it.";
}

Outcome freezer_reset(Scene& scene, const Action&) {
  plant::reset_freezer(scene.state.plant.freezer);
  return {};
}

std::string why_not_tub(const Machine&, const State& state, const Action&) {
  return state.plant.freezer.tub.total_kg() > 0.0 ? "" : "The tub is empty.";
}

Outcome tub_emptied(Scene& scene, const Action&) {
  plant::empty_tub(scene.state.plant.freezer);
  return {};
}

std::string why_not_setting(const Machine&, const State& state, const Action& action) {
  return index_of(setting, action.get(setting)) == static_cast<int>(state.plant.freezer.setting)
             ? "The freezer's selector stands there already."
             : "";
}

Outcome selector_turned(Scene& scene, const Action& action) {
  scene.state.plant.freezer.setting =
      static_cast<plant::FreezerSetting>(index_of(setting, action.get(setting)));
  return {};
}

std::string why_not_water(const Machine&, const State& state, const Action&) {
  return state.plant.freezer.lid_open ? "" : "The freezer's lid is shut.";
}

Outcome water_poured(Scene& scene, const Action& action) {
  plant::pour_water(scene.machine.plant.freezer, scene.state.plant, action.get(rinse_kg),
                    *action.get(rinse_degC));
  return {};
}

}  // namespace

constinit const HandOf<Flag> freezer_inlet{
    {
        .name = "freezer_inlet",
        .meaning = "Open or shut the inlet of the batch freezer.",
        .why_not = why_not_inlet,
        .effect = inlet_turned,
    },
    open,
};

constinit const HandOf<> freezer_start{{
    .name = "freezer_start",
    .meaning = "Start the batch freezer: dasher and refrigeration.",
    .why_not = why_not_start,
    .effect = started,
}};

constinit const HandOf<> freezer_stop{{
    .name = "freezer_stop",
    .meaning = "Stop the batch freezer's dasher and refrigeration.",
    .why_not = why_not_stop,
    .effect = stopped,
}};

constinit const HandOf<Number> freezer_draw{
    {
        .name = "freezer_draw",
        .meaning = "Set the batch freezer's outlet gate over the tub; refrigeration rests while it is open.",
        .effect = gate_set,
    },
    gate_opening_norm};

constinit const HandOf<> reset_freezer{{
    .name = "reset_freezer",
    .meaning = "Push the reset of the dasher's overload protection.",
    .why_not = why_not_reset,
    .effect = freezer_reset,
}};

constinit const HandOf<> empty_tub{{
    .name = "empty_tub",
    .meaning = "Carry the tub to the hardening cabinet and put an empty one.",
    .why_not = why_not_tub,
    .effect = tub_emptied,
}};

constinit const HandOf<Flag> freezer_lid{
    {
        .name = "freezer_lid",
        .meaning = "Open or shut the batch freezer's lid. Its guard stops the dasher.",
        .why_not = why_not_lid,
        .effect = lid_turned,
    },
    open};

constinit const HandOf<Flag> freezer_drain{
    {
        .name = "freezer_drain",
        .meaning = "Open or shut the batch freezer's drain, which leads to the gully.",
        .why_not = why_not_drain,
        .effect = drain_turned,
    },
    open};

constinit const HandOf<Text> freezer_setting{
    {
        .name = "freezer_setting",
        .meaning = "Turn the batch freezer's selector: what a start means.",
        .why_not = why_not_setting,
        .effect = selector_turned,
    },
    setting};

constinit const HandOf<Number, OptionalNumber> freezer_water{
    {
        .name = "freezer_water",
        .meaning = "Pour rinse water into the batch freezer through its open lid.",
        .why_not = why_not_water,
        .effect = water_poured,
    },
    rinse_kg,
    rinse_degC};

HandList freezer_hands() {
  static constexpr const Hand* list[] = {&freezer_inlet,   &freezer_start, &freezer_stop, &freezer_draw,
                                         &reset_freezer,   &empty_tub,     &freezer_lid,  &freezer_drain,
                                         &freezer_setting, &freezer_water};
  return list;
}

}  // namespace stirbench::hands
