#include "sim_core/plant/upkeep/assembly.h"

#include <cassert>

namespace stirbench::plant {

namespace {

struct PartWords {
  std::string_view key;
  std::string_view title;
};
constexpr std::array<PartWords, part_count> part_words = {{{"valve_handle", "Draw handle"},
                                                           {"valve_nut", "Valve nut"},
                                                           {"valve_spring", "Spring"},
                                                           {"valve_plunger", "Plunger"},
                                                           {"oring_rear", "Rear O-ring"},
                                                           {"oring_front", "Front O-ring"},
                                                           {"guard_cover", "Guard cover"},
                                                           {"agitator", "Agitator"},
                                                           {"agitator_bushing", "Agitator bushing"},
                                                           {"sleeve_cap", "Sleeve cap"},
                                                           {"shaft_end_bushing", "Shaft-end bushing"},
                                                           {"shaft_sleeve", "Shaft sleeve"}}};
constexpr std::array<std::string_view, static_cast<std::size_t>(Spare::count)> spare_keys = {
    "new_oring_front", "new_oring_rear", "new_agitator_bushing", "other_agitator_bushing",
    "new_shaft_end_bushing"};
constexpr std::array<std::string_view, 4> tool_keys = {"hand", "spanner", "pick", "press"};
constexpr std::array<std::string_view, 6> grip_keys = {"pull",         "lift",        "click",
                                                       "right_thread", "left_thread", "press_fit"};
constexpr std::array<std::string_view, 3> condition_keys = {"good", "worn", "cracked"};

std::size_t index_of(PartId part) { return static_cast<std::size_t>(part); }

bool is_ring(PartId part) { return part == PartId::oring_front || part == PartId::oring_rear; }

// The first of a set that is in its place (`there` false: that is not).
int first_of(const AssemblyState& state, PartSet set, bool there) {
  for (std::size_t i = 0; i < part_count; ++i) {
    const auto part = static_cast<PartId>(i);
    if (set.has(part) && in_place(state, part) == there) return static_cast<int>(i);
  }
  return -1;
}

}  // namespace

std::string_view part_key(PartId part) { return part_words.at(index_of(part)).key; }
std::string_view part_title(PartId part) { return part_words.at(index_of(part)).title; }
std::string_view tool_key(Tool tool) { return tool_keys.at(static_cast<std::size_t>(tool)); }
std::string_view grip_key(Grip grip) { return grip_keys.at(static_cast<std::size_t>(grip)); }
std::string_view part_health_key(PartHealth health) {
  return condition_keys.at(static_cast<std::size_t>(health));
}

int find_part(std::string_view key) {
  for (std::size_t i = 0; i < part_count; ++i)
    if (part_words[i].key == key) return static_cast<int>(i);
  return -1;
}

std::string_view item_key(std::size_t item) {
  return item < part_count ? part_words[item].key : spare_keys.at(item - part_count);
}

int find_item(std::string_view key) {
  for (std::size_t i = 0; i < item_count; ++i)
    if (item_key(i) == key) return static_cast<int>(i);
  return -1;
}

AssemblyState assembled() {
  AssemblyState state;
  for (std::size_t i = 0; i < part_count; ++i) {
    state.items[i].kind = static_cast<PartId>(i);
    state.at[i] = static_cast<std::int8_t>(i);
  }
  const auto spare = [&](Spare which) -> PartItem& {
    return state.items[part_count + static_cast<std::size_t>(which)];
  };
  // Spares come dry out of their bag.
  spare(Spare::oring_front) = {PartId::oring_front, PartHealth::good, false};
  spare(Spare::oring_rear) = {PartId::oring_rear, PartHealth::good, false};
  spare(Spare::agitator_bushing) = {PartId::agitator_bushing, PartHealth::good, true};
  spare(Spare::agitator_bushing_other) = {PartId::agitator_bushing, PartHealth::good, true, true};
  spare(Spare::shaft_end_bushing) = {PartId::shaft_end_bushing, PartHealth::good, true};
  for (const Spare which : {Spare::agitator_bushing, Spare::agitator_bushing_other, Spare::shaft_end_bushing})
    spare(which).run_in = 0.0;
  return state;
}

bool in_place(const AssemblyState& state, PartId part) { return state.at[index_of(part)] >= 0; }
int item_at(const AssemblyState& state, PartId part) { return state.at[index_of(part)]; }

int place_of(const AssemblyState& state, int item) {
  for (std::size_t i = 0; i < part_count; ++i)
    if (state.at[i] == item) return static_cast<int>(i);
  return -1;
}

bool on_tray(const AssemblyState& state, int item) { return state.hand != item && place_of(state, item) < 0; }

bool fits(const PartItem& item, PartId place) {
  return item.kind == place || (is_ring(item.kind) && is_ring(place));
}

std::string_view why_not_off(const AssemblySpec& spec, const AssemblyState& state, PartId part,
                             PartId* blocker) {
  const PartRule& rule = spec.rules[index_of(part)];
  if (!rule.known) return "This machine has no such part.";
  if (!in_place(state, part)) return "It is off already.";
  if (state.hand >= 0) return "Your hands are full. Lay down what you hold first.";
  const int in_the_way = first_of(state, rule.behind, true);
  if (in_the_way < 0) return {};
  if (blocker != nullptr) *blocker = static_cast<PartId>(in_the_way);
  return "Another part is in its way.";
}

std::string_view why_not_on(const AssemblySpec& spec, const AssemblyState& state, PartId part,
                            PartId* blocker) {
  const PartRule& rule = spec.rules[index_of(part)];
  if (!rule.known) return "This machine has no such part.";
  if (state.hand < 0) return "Pick up what you want to put there.";
  if (in_place(state, part)) return "Something is there already.";
  if (!fits(state.items[static_cast<std::size_t>(state.hand)], part))
    return "What you hold does not go there.";
  const int in_the_way = first_of(state, rule.behind, true);
  if (in_the_way >= 0) {
    if (blocker != nullptr) *blocker = static_cast<PartId>(in_the_way);
    return "Another part is in its way.";
  }
  const int missing = first_of(state, rule.on, false);
  if (missing < 0) return {};
  if (blocker != nullptr) *blocker = static_cast<PartId>(missing);
  return "The part that carries it is not there.";
}

void take_off(AssemblyState& state, PartId part) { state.at[index_of(part)] = -1; }

void pick_up(AssemblyState& state, int item) {
  assert(state.hand < 0 && on_tray(state, item));
  state.hand = static_cast<std::int8_t>(item);
}

void lay_down(AssemblyState& state) { state.hand = -1; }

void put_on(AssemblyState& state, PartId part) {
  assert(state.hand >= 0 && !in_place(state, part));
  state.at[index_of(part)] = state.hand;
  state.hand = -1;
}

Shortcomings look_over(const AssemblySpec& spec, const AssemblyState& state) {
  Shortcomings out;
  for (std::size_t i = 0; i < part_count; ++i) {
    if (!spec.rules[i].known) continue;
    const int item = state.at[i];
    if (item < 0) {
      ++out.missing;
    } else {
      const PartItem& thing = state.items[static_cast<std::size_t>(item)];
      if (thing.kind != static_cast<PartId>(i) || thing.other) ++out.misplaced;
      if (thing.health != PartHealth::good) ++out.worn;
      if (is_ring(thing.kind) && !thing.greased) ++out.dry;
    }
    // An own part left over counts when nothing else of its kind has taken its place.
    if (place_of(state, static_cast<int>(i)) < 0 && item < 0) ++out.left_over;
  }
  return out;
}

}  // namespace stirbench::plant
