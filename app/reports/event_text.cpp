#include <algorithm>

#include "app/reports/debrief_paper.h"
#include "sim_core/training/words.h"

namespace stirbench::reports {

namespace {

std::string plain(std::string_view name) {
  std::string words(name);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string capital(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string hands(const bench::Machine& machine, const bench::Event& event) {
  const auto kind = static_cast<bench::ActionKind>(event.subject);
  if (kind == bench::ActionKind::pour) {
    const int index = machine.ingredient_index(event.name);
    return "Poured " + training::value_text("event_kg", event.number) + " of " +
           (index < 0 ? plain(event.name) : machine.ingredients[static_cast<std::size_t>(index)].title);
  }
  if (kind == bench::ActionKind::press) return "Pressed " + capital(event.name);
  return capital(plain(bench::action_entry(kind).name)) + (event.name.empty() ? "" : ": " + plain(event.name));
}

std::string instructor(const bench::Event& event) {
  using K = bench::ActionKind;
  switch (static_cast<K>(event.subject)) {
    case K::set_room: return "Room at " + training::value_text("room_degC", event.number);
    case K::set_supply_voltage: return "Supply at " + training::value_text("supply_norm", event.number) + " of its nominal voltage";
    case K::set_delivery: return event.text + " is delivered at " + training::value_text("delivered_degC", event.number);
    case K::set_fault: return event.number > 0.0 ? "Fault set: " + event.text : "Put right: " + event.text;
    case K::freeze_run: return "Clock stopped to talk";
    case K::hand_back: return "Handed back";
    case K::mark_observation: return (event.number > 0.5 ? "Well done: " : "To work on: ") + event.text;
    default: return "";
  }
}

}  // namespace

std::string event_text(const bench::Machine& machine, const bench::Event& event) {
  using K = bench::EventKind;
  switch (event.kind) {
    case K::acted: return hands(machine, event);
    case K::refused: return "Not possible: " + event.text;
    case K::alarm_raised: return "Alarm: " + event.text;
    case K::alarm_cleared: return "Cleared: " + event.text;
    case K::phase_began: return "Phase: " + plain(event.name);
    case K::recipe_finished: return "The recipe is finished";
    case K::hold_restarted: return "The hold started again";
    case K::harm: return event.text.empty() ? "Harm: " + plain(event.name) : event.text;
    case K::spilled: return "Product spilled on the floor";
    case K::boiled_over: return "Boiled over";
    case K::overload_tripped: return "The drive's overload relay tripped";
    case K::cutout_tripped: return "The heater cut-out tripped";
    case K::other_person: return event.text;
    case K::instructor: return instructor(event);
    case K::mode_changed:
    case K::alarm_state:
    case K::count: break;
  }
  return {};
}

}  // namespace stirbench::reports
