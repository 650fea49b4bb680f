#include <algorithm>

#include "app/reports/debrief_paper.h"
#include "sim_core/hands/handles.h"
#include "sim_core/training/words.h"

namespace stirbench::reports {

namespace {

std::string plain(std::string_view name) {
  std::string words(name);
  std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

std::string capital(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

std::string done_text(const machine::Machine& machine, const machine::Event& event) {
  if (is_of(event, hands::pour)) {
    const int index = machine.ingredient_index(event.name);
    return "Poured " + training::value_text("event_kg", event.number) + " of " +
           (index < 0 ? plain(event.name) : machine.ingredients[static_cast<std::size_t>(index)].title);
  }
  if (is_of(event, hands::press)) return "Pressed " + capital(event.name);
  const hands::Hand* hand = hands::at(event.subject);
  return hand == nullptr ? std::string()
                         : capital(plain(hand->name)) + (event.name.empty() ? "" : ": " + plain(event.name));
}

std::string instructor_text(const machine::Event& event) {
  if (is_of(event, hands::set_room)) return "Room at " + training::value_text("room_degC", event.number);
  if (is_of(event, hands::set_supply_voltage))
    return "Supply at " + training::value_text("supply_norm", event.number) + " of its nominal voltage";
  if (is_of(event, hands::set_delivery))
    return event.text + " is delivered at " + training::value_text("delivered_degC", event.number);
  if (is_of(event, hands::set_fault))
    return event.number > 0.0 ? "Fault set: " + event.text : "Put right: " + event.text;
  if (is_of(event, hands::freeze_run)) return "Clock stopped to talk";
  if (is_of(event, hands::hand_back)) return "Handed back";
  return is_of(event, hands::mark_observation)
             ? (event.number > 0.5 ? "Well done: " : "To work on: ") + event.text
             : "";
}

}  // namespace

std::string event_text(const machine::Machine& machine, const machine::Event& event) {
  using K = machine::EventKind;
  switch (event.kind) {
    case K::acted: return done_text(machine, event);
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
    case K::instructor: return instructor_text(event);
    case K::mode_changed:
    case K::alarm_state:
    case K::count: break;
  }
  return {};
}

}  // namespace stirbench::reports
