#include <algorithm>

#include "sim_core/hands/handles.h"

namespace stirbench::hands {

std::span<const Hand* const> all() {
  static const std::vector<const Hand*> table = [] {
    std::vector<const Hand*> out;
    for (const auto work :
         {guard_hands, vat_hands, panel_hands, draw_hands, hose_hands, supply_hands, freezer_hands,
          lockout_hands, inside_hands, protection_hands, washing_hands, part_hands, pump_hands,
          instrument_hands, checking_hands, mending_hands, handing_hands, pointing_hands, instructor_hands}) {
      const auto list = work();
      out.insert(out.end(), list.begin(), list.end());
    }
    return out;
  }();
  return table;
}

const Hand* find(std::string_view name) {
  const auto list = all();
  const auto found =
      std::find_if(list.begin(), list.end(), [name](const Hand* one) { return one->name == name; });
  return found == list.end() ? nullptr : *found;
}

const Hand* at(std::int32_t number) {
  const auto list = all();
  return number < 0 || static_cast<std::size_t>(number) >= list.size()
             ? nullptr
             : list[static_cast<std::size_t>(number)];
}

std::int32_t number_of(const Hand& hand) {
  const auto list = all();
  const auto found = std::find(list.begin(), list.end(), &hand);
  return found == list.end() ? -1 : static_cast<std::int32_t>(found - list.begin());
}

bool is_of(const Event& event, const Hand& hand) {
  const bool of_hands = event.kind == EventKind::acted || event.kind == EventKind::refused ||
                        event.kind == EventKind::instructor;
  return of_hands && event.subject == number_of(hand);
}

bool was_done(const Event& event, const Hand& hand) {
  return event.kind == EventKind::acted && event.subject == number_of(hand);
}

Outcome Outcome::resisted(std::string why) {
  Outcome out(std::move(why));
  out.done = false;
  return out;
}

std::span<const Parameter* const> Hand::takes() const {
  const auto end = std::find(parameters.begin(), parameters.end(), nullptr);
  return {parameters.begin(), end};
}

const Parameter* Hand::find(std::string_view parameter) const {
  for (const Parameter* one : takes()) {
    if (one->name == parameter) return one;
  }
  return nullptr;
}

const std::string& first_text(const Action& action) {
  static const std::string nothing;
  if (action.hand() == nullptr) return nothing;
  for (const Parameter* one : action.hand()->takes()) {
    if (const auto* text = std::get_if<std::string>(&action.value(*one))) return *text;
  }
  return nothing;
}

double asked_value(const Action& action) {
  if (action.hand() == nullptr) return 0.0;
  double flag = 0.0;
  for (const Parameter* one : action.hand()->takes()) {
    const Action::Value& value = action.value(*one);
    if (one->type == Type::number) {
      const auto* given = std::get_if<double>(&value);
      return given != nullptr ? *given : one->otherwise.value_or(0.0);
    }
    if (const auto* given = std::get_if<bool>(&value)) flag = *given ? 1.0 : 0.0;
  }
  return flag;
}

}  // namespace stirbench::hands
