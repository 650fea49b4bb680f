#include "app/desk/views/panel/panel.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "sim_core/control/controller.h"

// What the display says. Pure functions of the machine's state.
namespace stirbench::desk::views {

using kit::tr;

namespace {

const control::Recipe* recipe_of(const machine::Machine& machine, const machine::State& state) {
  const std::int32_t index = state.control.recipe;
  return index >= 0 && static_cast<std::size_t>(index) < machine.recipes.size()
             ? &machine.recipes[static_cast<std::size_t>(index)]
             : nullptr;
}

DisplayMessage phase_message(const control::Recipe* recipe, const machine::State& state,
                             const control::Phase& phase) {
  const double left_s = control::hold_left_s(recipe, state.control, machine::tick_s);
  const kit::TextArgs left{{"time", kit::show_duration(left_s)}};
  switch (phase.kind) {
    case control::PhaseKind::heat: return {tr("Heating to the target."), false};
    case control::PhaseKind::add:
      if (state.control.confirmed) return {tr("Going on."), false};
      return {phase.instruction.empty() ? tr("Add what the recipe asks for. Then Confirm.")
                                        : tr(phase.instruction),
              true};
    case control::PhaseKind::hold:
      if (state.control.hold_ticks == 0) return {tr("The hold begins when the target is reached."), false};
      return {tr("Holding. {time} to go. Keep the lid closed.", left), false};
    case control::PhaseKind::chill: return {tr("Chilling to the target."), false};
    case control::PhaseKind::age: return {tr("Ageing cold. {time} to go.", left), false};
    case control::PhaseKind::keep: return {tr("Keeping cold. Product may be drawn."), false};
  }
  return {};
}

}  // namespace

std::vector<ShownAlarm> shown_alarms(const machine::State& state) {
  std::vector<ShownAlarm> alarms;
  const std::string_view way_out = control::why_not_start(state.control);
  for (std::size_t i = 0; i < control::alarm_count; ++i) {
    const control::Alarm& alarm = state.control.alarms[i];
    const auto id = static_cast<control::AlarmId>(i);
    // Attentions without a latch are said by the message line.
    if (!alarm.stands() || !control::alarm_latches(id)) continue;
    alarms.push_back({tr(control::alarm_title(id)), tr(way_out), alarm.latched, alarm.active,
                      alarm.unacknowledged, alarm.order});
  }
  // The first of a cascade is named first: it is the one to put right first.
  std::stable_sort(alarms.begin(), alarms.end(),
                   [](const ShownAlarm& a, const ShownAlarm& b) { return a.order < b.order; });
  return alarms;
}

DisplayMessage display_message(const machine::Machine& machine, const machine::State& state) {
  const control::ControlState& c = state.control;
  const control::Recipe* recipe = recipe_of(machine, state);
  const control::Phase* phase = control::current_phase(recipe, c);
  switch (c.mode) {
    case control::Mode::off: return {tr("There is no supply."), false};
    case control::Mode::heating: return {tr("Heating to the target, then keeping it."), false};
    case control::Mode::chilling: return {tr("Chilling to the target, then keeping it."), false};
    case control::Mode::stirring: return {tr("Stirring, without heat or cold."), false};
    case control::Mode::rinsing: return {tr("Swilling rinse water round, without heat or cold."), false};
    case control::Mode::running:
      return phase != nullptr ? phase_message(recipe, state, *phase) : DisplayMessage{tr("Running."), false};
    case control::Mode::paused:
      return {phase != nullptr
                  ? tr("Stopped in “{phase}”. Press Run to go on.", {{"phase", tr(phase->title)}})
                  : tr("Stopped. Press Run to go on."),
              true};
    case control::Mode::standby: break;
  }
  if (recipe == nullptr) return {tr("Choose a recipe, or press Heat, Chill or Stir."), false};
  if (c.recipe_done) return {tr("The recipe is finished."), false};
  return {tr("{recipe} is chosen. Press Run to start.", {{"recipe", tr(recipe->title)}}), true};
}

}  // namespace stirbench::desk::views
