#pragma once

#include <tuple>
#include <type_traits>
#include <utility>

#include "sim_core/hands/action.h"
#include "sim_core/machine/event.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// The row of one hand: everything that is known about it stands here, and all else follows from it: actions
// files, journal, help, schema, the desk's list, the exploration. Each kind of work is one file that defines
// its rows and hands them out as a list (table.cpp); handles.h names those that other code uses.
namespace stirbench::hands {

using machine::Event;
using machine::EventKind;
using machine::Machine;
using machine::State;

// What a hand acts on.
struct Scene {
  const Machine& machine;
  State& state;
  control::PanelInputs& panel;
  std::vector<Event>& events;
};

// What came of it: words that eyes and hands learn by it, or why the thing itself resisted.
struct Outcome {
  Outcome(std::string learnt = {}) : words(std::move(learnt)) {}
  Outcome(const char* learnt) : words(learnt) {}
  static Outcome resisted(std::string why);
  std::string words;
  bool done = true;
};

// The desk's list that shows it.
enum class Group : std::uint8_t { machine, safety, cleaning, parts, faults, instructor };

// A position that guards and supply look at, and where the hand puts it: what the exploration moves
// (explore/explore_moves.cpp).
enum class Contact : std::uint8_t {
  none,
  lid,
  shaft_cover,
  emergency_stop,
  supply,
  overload,
  cutout,
  pressure,
  recipe,
  confirmation,
  acknowledgement
};
struct Turns {
  Contact contact = Contact::none;
  bool on = false;  // lid or cover open, stop pressed, supply there, device tripped
};

struct Hand {
  std::string_view name;     // "pour": in files, journals and conditions
  std::string_view meaning;  // one sentence for people
  std::string_view title{};  // on its button; empty: the desk has its own words for it
  Group group = Group::machine;
  // The desk's list of its group shows it, with a button for each choice: for hands without parameter, or
  // with one that is a flag or a text. False: a screen has a place of its own for it.
  bool listed = false;

  // Why it cannot be done now; empty when it can. Ranges, unknown words and busy or injured hands are looked
  // at before (hands.cpp).
  std::string (*why_not)(const Machine&, const State&, const Action&) = nullptr;
  // Injuries that it causes by itself, with the state before it.
  void (*harms)(Scene&, const Action&) = nullptr;
  Outcome (*effect)(Scene&, const Action&) = nullptr;
  // Minutes of the work clock beyond the run's own time. Estimates of the trade, from memory, as in the fault
  // guides.
  double minutes = 0.0;
  double (*minutes_of)(const Machine&, const Action&) = nullptr;  // where they depend on what is done
  // The event's number; null: what was asked for (asked_value).
  double (*value)(const State&, const Action&) = nullptr;

  bool by_instructor =
      false;  // done to the run, not to the machine: busy hands, guards and injuries have no say in it
  bool needs_valve = false;  // refused while the draw valve is out
  bool frees_hands = false;  // may be done with the hands in the machine
  Turns turns{};

  std::array<const Parameter*, most_parameters>
      parameters{};  // in the order of file and journal; null after the last

  std::span<const Parameter* const> takes() const;
  const Parameter* find(std::string_view parameter) const;  // null when it takes none of that name
};

// A row with its parameters' types: called with their values it makes the action. Optional ones at the end
// may be left out.
template <typename... Parameters>
struct HandOf : Hand {
  constexpr explicit HandOf(const Hand& row, const Parameters&... its_parameters) : Hand(row) {
    parameters = {&its_parameters...};
  }

  template <typename... Values>
  Action operator()(const Values&... values) const {
    static_assert(sizeof...(Values) <= sizeof...(Parameters), "more values than the hand has parameters");
    return made(std::index_sequence_for<Values...>{}, values...);
  }

 private:
  using Types = std::tuple<typename Parameters::Value...>;

  // Values beyond those given are optional ones.
  template <std::size_t given>
  static constexpr bool enough() {
    return []<std::size_t... i>(std::index_sequence<i...>) {
      return ((i < given || std::is_same_v<std::tuple_element_t<i, Types>, std::optional<double>>)&&...);
    }
    (std::index_sequence_for<Parameters...>{});
  }

  template <std::size_t... i, typename... Values>
  Action made(std::index_sequence<i...>, const Values&... values) const {
    static_assert(enough<sizeof...(Values)>(), "a value is missing");
    static_assert((fits<std::tuple_element_t<i, Types>, Values>() && ...),
                  "a value is not of its parameter's type");
    Action action(*this);
    (put(action, *parameters[i], std::tuple_element_t<i, Types>(values)), ...);
    return action;
  }

  // No number for a flag, and no flag for a number.
  template <typename Wanted, typename Given>
  static constexpr bool fits() {
    return std::is_convertible_v<const Given&, Wanted> &&
           std::is_same_v<Wanted, bool> == std::is_same_v<Given, bool>;
  }

  static void put(Action& action, const Parameter& parameter, double value) { action.set(parameter, value); }
  static void put(Action& action, const Parameter& parameter, bool value) { action.set(parameter, value); }
  static void put(Action& action, const Parameter& parameter, std::string_view value) {
    action.set(parameter, std::string(value));
  }
  static void put(Action& action, const Parameter& parameter, std::optional<double> value) {
    if (value) action.set(parameter, *value);
  }
};

// All hands, kind of work by kind of work; a hand's place is its number, which an event's subject holds.
std::span<const Hand* const> all();
const Hand* find(std::string_view name);  // null when there is none
const Hand* at(std::int32_t number);      // null outside the list
std::int32_t number_of(const Hand& hand);

// Whether an event tells of this hand: carried out, refused or an instructor's.
bool is_of(const Event& event, const Hand& hand);
bool was_done(const Event& event, const Hand& hand);  // carried out

// The first text of an action, as its event's name: the ingredient poured, the key pressed.
const std::string& first_text(const Action& action);
// The first number, else the first flag as 1 or 0, else 0.
double asked_value(const Action& action);

}  // namespace stirbench::hands
