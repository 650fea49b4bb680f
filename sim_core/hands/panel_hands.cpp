#include <algorithm>
#include <cmath>

#include "sim_core/hands/handles.h"
#include "sim_core/hands/procedure.h"

// Keys and display.
namespace stirbench::hands {

namespace {

template <std::size_t count, typename Name>
std::array<std::string_view, count> names_in_order(Name name) {
  std::array<std::string_view, count> out;
  for (std::size_t i = 0; i < count; ++i) out[i] = name(i);
  return out;
}

Words key_words() {
  static const auto words = names_in_order<control::key_count>(
      [](std::size_t i) { return control::key_name(static_cast<control::Key>(i)); });
  return words;
}

// "all", then each alarm's key.
Words all_or_alarm_words() {
  static const auto words = names_in_order<control::alarm_count + 1>([](std::size_t i) {
    return i == 0 ? std::string_view("all") : control::alarm_key(static_cast<control::AlarmId>(i - 1));
  });
  return words;
}
Words alarm_words() { return all_or_alarm_words().subspan(1); }

constexpr Text key{"key", key_words, "heat, chill, stir, run, stop or rinse"};
constexpr OptionalNumber held_s{"held_s", 0.1, 600.0,
                                "s",      0.3, "how long it is held down; 0.3 when left out"};
constexpr Number target_degC{"degC", -20.0, 120.0, "degC",
                             "the target; the machine takes what lies in its own range"};
constexpr Text recipe{"recipe", Catalogue::recipe, "recipe id, as the content names it"};
constexpr Text all_or_alarm{"alarm", all_or_alarm_words, "all, or the key of one alarm"};
constexpr Text alarm{"alarm", alarm_words, "key of the alarm, as help alarms lists it"};
constexpr Number for_s{"for_s", 1.0, 86400.0, "s", "how long"};

Outcome pressed(Scene& scene, const Action& action) {
  State& state = scene.state;
  const int which = control::find_key(action.get(key));
  const auto ticks = static_cast<std::uint32_t>(std::lround(*action.get(held_s) * machine::ticks_per_second));
  std::uint32_t& left = state.key_ticks_left[static_cast<std::size_t>(which)];
  left = std::max(left, std::max(ticks, 1U));
  note_key(state, static_cast<control::Key>(which));
  return {};
}

std::string why_not_target(const Machine& machine, const State& state, const Action& action) {
  return std::string(control::why_not_target(machine.control, state.control, action.get(target_degC)));
}

Outcome target_entered(Scene& scene, const Action& action) {
  scene.panel.set_target = true;
  scene.panel.target_degC = action.get(target_degC);
  return {};
}

std::string why_not_choose(const Machine&, const State& state, const Action&) {
  return std::string(control::why_not_choose(state.control));
}

Outcome recipe_chosen(Scene& scene, const Action& action) {
  scene.panel.choose_recipe = scene.machine.recipe_index(action.get(recipe));
  return {};
}

std::string why_not_confirm(const Machine& machine, const State& state, const Action&) {
  const auto index = static_cast<std::size_t>(state.control.recipe);
  const bool chosen = state.control.recipe >= 0 && index < machine.recipes.size();
  return std::string(control::why_not_confirm(chosen ? &machine.recipes[index] : nullptr, state.control));
}

Outcome confirmed(Scene& scene, const Action&) {
  scene.panel.confirm = true;
  return {};
}

// -1 for "all".
std::int32_t alarm_of(const Action& action) {
  return static_cast<std::int32_t>(control::find_alarm(first_text(action)));
}

std::string why_not_acknowledge(const Machine&, const State& state, const Action& action) {
  return std::string(control::why_not_acknowledge(state.control, alarm_of(action)));
}

Outcome acknowledged(Scene& scene, const Action& action) {
  scene.panel.acknowledge = alarm_of(action);
  return {};
}

std::string why_not_shelve(const Machine& machine, const State& state, const Action& action) {
  return std::string(
      control::why_not_shelve(machine.control, state.control, alarm_of(action), action.get(for_s)));
}

Outcome shelved(Scene& scene, const Action& action) {
  scene.panel.shelve = alarm_of(action);
  scene.panel.shelve_s = action.get(for_s);
  return {};
}

std::string why_not_unshelve(const Machine&, const State& state, const Action& action) {
  return std::string(control::why_not_unshelve(state.control, alarm_of(action)));
}

Outcome unshelved(Scene& scene, const Action& action) {
  scene.panel.unshelve = alarm_of(action);
  return {};
}

}  // namespace

constinit const HandOf<Text, OptionalNumber> press{
    {
        .name = "press",
        .meaning = "Press a key and let it go.",
        .effect = pressed,
    },
    key,
    held_s,
};

constinit const HandOf<Number> set_target{
    {
        .name = "set_target",
        .meaning = "Enter the target for Heat and Chill on the display.",
        .why_not = why_not_target,
        .effect = target_entered,
    },
    target_degC};

constinit const HandOf<Text> choose_recipe{
    {
        .name = "choose_recipe",
        .meaning = "Choose a recipe on the display; gives up one that was under way.",
        .why_not = why_not_choose,
        .effect = recipe_chosen,
        .turns = {Contact::recipe, true},
    },
    recipe};

constinit const HandOf<> confirm{{
    .name = "confirm",
    .meaning = "Confirm on the display that what it asked for has been added.",
    .why_not = why_not_confirm,
    .effect = confirmed,
    .turns = {Contact::confirmation, true},
}};

constinit const HandOf<Text> acknowledge{
    {
        .name = "acknowledge",
        .meaning = "Acknowledge on the display that an alarm was seen. It clears nothing.",
        .group = Group::safety,
        .why_not = why_not_acknowledge,
        .effect = acknowledged,
        .turns = {Contact::acknowledgement, true},
    },
    all_or_alarm};

constinit const HandOf<Text, Number> shelve{
    {
        .name = "shelve",
        .meaning = "Put an alarm aside for a time, where the machine's content allows it.",
        .group = Group::safety,
        .why_not = why_not_shelve,
        .effect = shelved,
    },
    alarm,
    for_s};

constinit const HandOf<Text> unshelve{
    {
        .name = "unshelve",
        .meaning = "Take an alarm off the shelf before its time.",
        .group = Group::safety,
        .why_not = why_not_unshelve,
        .effect = unshelved,
    },
    alarm,
};

HandList panel_hands() {
  static constexpr const Hand* list[] = {&press,       &set_target, &choose_recipe, &confirm,
                                         &acknowledge, &shelve,     &unshelve};
  return list;
}

}  // namespace stirbench::hands
