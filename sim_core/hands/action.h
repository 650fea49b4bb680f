#pragma once

#include <array>
#include <string>
#include <string_view>
#include <variant>

#include "sim_core/hands/parameter.h"

namespace stirbench::hands {

struct Hand;
inline constexpr std::size_t most_parameters = 3;

// One thing that hands do, by value: which hand, and one place for each of its parameters. A parameter that
// the hand does not take cannot be set or read (std::logic_error), and none can overwrite another. Make one
// by calling the hand:
//   hands::pour("whole_milk", 20.0, 5.0)   hands::open_lid()   hands::isolate(true)
class Action {
 public:
  using Value = std::variant<std::monostate, double, bool, std::string>;  // monostate: not given

  Action() = default;  // no hand: refused by every machine
  explicit Action(const Hand& hand) : hand_(&hand) {}

  const Hand* hand() const { return hand_; }
  bool is(const Hand& hand) const { return hand_ == &hand; }

  // A number that was left out is its parameter's default; of one without default, nothing.
  double get(const Number& parameter) const;
  std::optional<double> get(const OptionalNumber& parameter) const;
  const std::string& get(const Text& parameter) const;
  bool get(const Flag& parameter) const;
  bool has(const Parameter& parameter) const;  // whether it was given

  // For readers that go through a row's parameters; the value's type must be the parameter's.
  void set(const Parameter& parameter, Value value);
  const Value& value(const Parameter& parameter) const;

  friend bool operator==(const Action&, const Action&) = default;

 private:
  std::size_t place_of(const Parameter& parameter) const;

  const Hand* hand_ = nullptr;
  std::array<Value, most_parameters> values_{};
};

// An actions file's entry: at a time, or when a phase begins (plus after_s).
struct TimedAction {
  double at_s = 0.0;
  std::string at_phase{};  // when not empty: waits for that phase id to begin, then after_s
  double after_s = 0.0;
  Action action{};
};

}  // namespace stirbench::hands
