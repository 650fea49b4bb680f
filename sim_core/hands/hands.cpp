#include "sim_core/hands/hands.h"

#include "sim_core/machine/number_words.h"

// What holds for every hand, whatever it does.
namespace stirbench::hands {

namespace {

using machine::plain_number;

// "kg must lie between 0.001 and 60 kg." for a number outside its range, NaN included.
std::string wrong_number(const Parameter& parameter, double value) {
  if (value >= parameter.low && value <= parameter.high) return {};
  return std::string(parameter.name) + " must lie between " + plain_number(parameter.low) + " and " +
         plain_number(parameter.high) +
         (parameter.unit == "-" ? "." : " " + std::string(parameter.unit) + ".");
}

std::string_view noun_of(Catalogue catalogue) {
  switch (catalogue) {
    case Catalogue::words:
    case Catalogue::anything: break;
    case Catalogue::ingredient: return "ingredient";
    case Catalogue::recipe: return "recipe";
    case Catalogue::chemical: return "chemical";
    case Catalogue::fault:
    case Catalogue::suspicion: return "fault";
    case Catalogue::check: return "check";
    case Catalogue::body_part: return "part";
    case Catalogue::terminal: return "terminal";
    case Catalogue::wire: return "wire";
    case Catalogue::breaker: return "breaker";
  }
  return "";
}

std::string wrong_word(const Machine& machine, const Parameter& parameter, const std::string& word) {
  if (is_known(machine, parameter, word)) return {};
  if (parameter.catalogue == Catalogue::anything) return "Write down what was seen.";
  if (parameter.catalogue != Catalogue::words) {
    return "There is no " + std::string(noun_of(parameter.catalogue)) + " \"" + word + "\" here.";
  }
  std::string list;
  for (const std::string_view one : parameter.words()) list += (list.empty() ? "" : ", ") + std::string(one);
  return std::string(parameter.name) + " is one of: " + list + ".";
}

std::string wrong_value(const Machine& machine, const Action& action) {
  for (const Parameter* parameter : action.hand()->takes()) {
    const Action::Value& value = action.value(*parameter);
    std::string wrong;
    if (const auto* number = std::get_if<double>(&value))
      wrong = wrong_number(*parameter, *number);
    else if (const auto* word = std::get_if<std::string>(&value))
      wrong = wrong_word(machine, *parameter, *word);
    else if (value.index() == 0 && parameter->required)
      wrong = std::string(action.hand()->name) + " needs " + std::string(parameter->name) + ".";
    if (!wrong.empty()) return wrong;
  }
  return {};
}

// Who is hurt, whose hands are in the machine, and what has no draw valve to go through.
std::string why_not_anything(const State& state, const Hand& hand) {
  const machine::Lockout& lockout = state.lockout;
  if (state.injured) return "This run has stopped: " + std::string(harm_title(state.injury)) + ".";
  if (lockout.working_at != machine::WorkPlace::none && !hand.frees_hands)
    return "Your hands are in the machine. Take them out first.";
  return lockout.valve_out && hand.needs_valve ? "The draw valve is out. Put it back first." : "";
}

double minutes_of(const Machine& machine, const Action& action) {
  const Hand& hand = *action.hand();
  return hand.minutes_of != nullptr ? hand.minutes_of(machine, action) : hand.minutes;
}

}  // namespace

std::string why_not(const Machine& machine, const State& state, const Action& action) {
  if (action.hand() == nullptr) return "There is no such action.";
  const Hand& hand = *action.hand();
  std::string reason = wrong_value(machine, action);
  if (reason.empty() && !hand.by_instructor) reason = why_not_anything(state, hand);
  if (reason.empty() && hand.why_not != nullptr) reason = hand.why_not(machine, state, action);
  return reason;
}

void carry_out(Scene scene, const Action& action) {
  const std::int32_t subject = action.hand() != nullptr ? number_of(*action.hand()) : -1;
  std::string reason = why_not(scene.machine, scene.state, action);
  Outcome outcome;
  if (reason.empty()) {
    const Hand& hand = *action.hand();
    if (hand.harms != nullptr) hand.harms(scene, action);
    if (hand.effect != nullptr) outcome = hand.effect(scene, action);
    if (!outcome.done) reason = std::move(outcome.words);
  }
  if (!reason.empty()) {
    scene.events.push_back({scene.state.tick, EventKind::refused, subject, std::move(reason),
                            asked_value(action), first_text(action)});
    return;
  }
  const Hand& hand = *action.hand();
  scene.state.work.hand_min += minutes_of(scene.machine, action);
  const double value = hand.value != nullptr ? hand.value(scene.state, action) : asked_value(action);
  scene.events.push_back({scene.state.tick, hand.by_instructor ? EventKind::instructor : EventKind::acted,
                          subject, std::move(outcome.words), value, first_text(action)});
}

std::string range_words(const Parameter& parameter) {
  if (parameter.type != Type::number) return {};
  return machine::plain_number(parameter.low) + " .. " + plain_number(parameter.high) +
         (parameter.unit.empty() ? "" : " " + std::string(parameter.unit));
}

std::string parameter_names(const Hand& hand) {
  std::string names;
  for (const Parameter* one : hand.takes()) names += (names.empty() ? "" : ", ") + std::string(one->name);
  return names.empty() ? "nothing" : names;
}

std::string unknown_parameter(const Hand& hand, std::string_view parameter) {
  return "\"" + std::string(parameter) + "\" is not a parameter of \"" + std::string(hand.name) +
         "\"; it takes " + parameter_names(hand);
}

}  // namespace stirbench::hands
