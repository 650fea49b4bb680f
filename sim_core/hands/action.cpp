#include "sim_core/hands/action.h"

#include <algorithm>
#include <stdexcept>

#include "sim_core/hands/hand.h"

namespace stirbench::hands {

namespace {

// Place of a type in Action::Value.
std::size_t index_of_type(Type type) {
  switch (type) {
    case Type::number: return 1;
    case Type::flag: return 2;
    case Type::text: return 3;
  }
  return 0;
}

std::logic_error misuse(const Hand* hand, const Parameter& parameter, const char* what) {
  return std::logic_error("\"" + std::string(parameter.name) + "\" of \"" +
                          std::string(hand != nullptr ? hand->name : "no hand") + "\" " + what);
}

}  // namespace

int index_of(const Parameter& parameter, std::string_view word) {
  if (parameter.words == nullptr) return -1;
  const Words known = parameter.words();
  const auto found = std::find(known.begin(), known.end(), word);
  return found == known.end() ? -1 : static_cast<int>(found - known.begin());
}

std::size_t Action::place_of(const Parameter& parameter) const {
  if (hand_ != nullptr) {
    const auto& its = hand_->parameters;
    const auto found = std::find(its.begin(), its.end(), &parameter);
    if (found != its.end()) return static_cast<std::size_t>(found - its.begin());
  }
  throw misuse(hand_, parameter, "is not one of its parameters");
}

const Action::Value& Action::value(const Parameter& parameter) const { return values_[place_of(parameter)]; }

void Action::set(const Parameter& parameter, Value value) {
  if (value.index() != index_of_type(parameter.type)) throw misuse(hand_, parameter, "is of another type");
  values_[place_of(parameter)] = std::move(value);
}

bool Action::has(const Parameter& parameter) const { return value(parameter).index() != 0; }

double Action::get(const Number& parameter) const {
  const auto* given = std::get_if<double>(&value(parameter));
  return given != nullptr ? *given : 0.0;
}

std::optional<double> Action::get(const OptionalNumber& parameter) const {
  const auto* given = std::get_if<double>(&value(parameter));
  return given != nullptr ? *given : parameter.otherwise;
}

const std::string& Action::get(const Text& parameter) const {
  static const std::string nothing;
  const auto* given = std::get_if<std::string>(&value(parameter));
  return given != nullptr ? *given : nothing;
}

bool Action::get(const Flag& parameter) const {
  const auto* given = std::get_if<bool>(&value(parameter));
  return given != nullptr && *given;
}

}  // namespace stirbench::hands
