#include "sim_core/hands/part_hands.h"

#include "sim_core/hands/contact.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/machine/number_words.h"
#include "sim_core/plant/pace.h"
#include "sim_core/plant/upkeep/assembly_effects.h"
#include "sim_core/plant/upkeep/service.h"

// Draw valve and agitator, part by part.
namespace stirbench::hands {

namespace {

using plant::AssemblyState;
using plant::PartId;

Words part_words() {
  static const auto words = [] {
    std::array<std::string_view, plant::part_count> out;
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = plant::part_key(static_cast<PartId>(i));
    return out;
  }();
  return words;
}

Words thing_words() {
  static const auto words = [] {
    std::array<std::string_view, plant::item_count> out;
    for (std::size_t i = 0; i < out.size(); ++i) out[i] = plant::item_key(i);
    return out;
  }();
  return words;
}

constexpr std::array<std::string_view, 2> bushings{"agitator_bushing", "shaft_end_bushing"};

constexpr Text part{
    "part", part_words,
    "valve_handle, valve_nut, valve_spring, valve_plunger, oring_rear, oring_front, guard_cover, agitator, "
    "agitator_bushing, sleeve_cap, shaft_end_bushing or shaft_sleeve"};
constexpr Text thing{"thing", thing_words,
                     "a part by its place's name, or new_oring_front, new_oring_rear, new_agitator_bushing, "
                     "other_agitator_bushing, "
                     "new_shaft_end_bushing"};
constexpr Text threaded_part{"part", part_words, "valve_nut, shaft_end_bushing or shaft_sleeve"};
constexpr Flag clockwise{"clockwise", "which way, seen from the end that you hold"};
constexpr Text bushing{"bushing", listed<bushings>, "agitator_bushing or shaft_end_bushing"};

std::string title_of(PartId one) { return std::string(plant::part_title(one)); }

PartId place_of(const Action& action, const Text& parameter) {
  return static_cast<PartId>(plant::find_part(action.get(parameter)));
}

const plant::PartRule& rule_of(const Machine& machine, PartId one) {
  return machine.plant.assembly.rules[static_cast<std::size_t>(one)];
}

// The vat's parts are reached through the open lid, and nobody reaches beside a turning shaft.
std::string why_not_reach(const Machine& machine, const State& state, PartId one) {
  if (!rule_of(machine, one).in_vat) return {};
  if (!state.plant.fittings.lid_open) return "The lid is closed.";
  return state.plant.shaft_rad_per_s > 0.0 ? "The shaft still turns. Press Stop and wait." : "";
}

// The assembly's own reason, with the part that is in the way or missing; then what keeps hands from it.
std::string why_not_place(const Machine& machine, const State& state, PartId one, std::string_view reason,
                          PartId other) {
  if (reason.empty()) return why_not_reach(machine, state, one);
  if (other == PartId::count) return std::string(reason);
  const bool is_there = plant::in_place(state.plant.assembly, other);
  return is_there ? title_of(other) + " is in the way. Take it off first."
                  : title_of(other) + " must be in place first.";
}

std::string why_not_off(const Machine& machine, const State& state, PartId one) {
  PartId other = PartId::count;
  const std::string_view reason =
      plant::why_not_off(machine.plant.assembly, state.plant.assembly, one, &other);
  return why_not_place(machine, state, one, reason, other);
}

std::string why_not_take_off(const Machine& machine, const State& state, const Action& action) {
  return why_not_off(machine, state, place_of(action, part));
}

std::string condition_words(const plant::PartItem& item) {
  const bool ring = item.kind == PartId::oring_front || item.kind == PartId::oring_rear;
  std::string words;
  if (item.health == plant::PartHealth::cracked) words = "It is cracked.";
  if (item.health == plant::PartHealth::worn || (ring && item.wear > 0.5)) words = "It is worn.";
  if (ring && !item.greased) words += std::string(words.empty() ? "" : " ") + "It is dry.";
  return words;
}

Outcome part_taken_off(Scene& scene, const Action& action) {
  const AssemblyState& assembly = scene.state.plant.assembly;
  const PartId one = place_of(action, part);
  const int item = plant::item_at(assembly, one);
  plant::take_part_off(scene.machine.plant, scene.state.plant, one);
  return condition_words(assembly.items[static_cast<std::size_t>(item)]);
}

std::string why_not_put_on(const Machine& machine, const State& state, const Action& action) {
  const PartId one = place_of(action, part);
  PartId other = PartId::count;
  const std::string_view reason =
      plant::why_not_on(machine.plant.assembly, state.plant.assembly, one, &other);
  return why_not_place(machine, state, one, reason, other);
}

Outcome part_put_on(Scene& scene, const Action& action) {
  plant::put_part_on(scene.machine.plant, scene.state.plant, place_of(action, part));
  return {};
}

std::string why_not_pick_up(const Machine&, const State& state, const Action& action) {
  const AssemblyState& assembly = state.plant.assembly;
  if (assembly.hand >= 0) return "Your hands are full. Lay down what you hold first.";
  return plant::on_tray(assembly, plant::find_item(action.get(thing))) ? "" : "It is in the machine.";
}

Outcome picked_up(Scene& scene, const Action& action) {
  plant::pick_up(scene.state.plant.assembly, plant::find_item(action.get(thing)));
  return {};
}

std::string why_not_lay_down(const Machine&, const State& state, const Action&) {
  return state.plant.assembly.hand >= 0 ? "" : "Your hands are empty.";
}

Outcome laid_down(Scene& scene, const Action&) {
  plant::lay_down(scene.state.plant.assembly);
  return {};
}

std::string why_not_grease(const Machine&, const State& state, const Action&) {
  const AssemblyState& assembly = state.plant.assembly;
  if (assembly.hand < 0) return "Pick up an O-ring first.";
  const plant::PartItem& held = assembly.items[static_cast<std::size_t>(assembly.hand)];
  if (held.kind != PartId::oring_front && held.kind != PartId::oring_rear)
    return "Only the O-rings want lubricant.";
  return held.greased ? "It is lubricated already." : "";
}

Outcome greased(Scene& scene, const Action&) {
  AssemblyState& assembly = scene.state.plant.assembly;
  assembly.items[static_cast<std::size_t>(assembly.hand)].greased = true;
  return {};
}

Outcome looked_over(Scene& scene, const Action&) {
  const plant::Shortcomings found =
      plant::look_over(scene.machine.plant.assembly, scene.state.plant.assembly);
  if (found.none()) return "Every part is in its place and sound.";
  std::string words;
  const auto add = [&](int n, const char* one, const char* many) {
    if (n > 0) words += (words.empty() ? "" : ", ") + std::to_string(n) + " " + (n == 1 ? one : many);
  };
  add(found.missing, "part missing", "parts missing");
  add(found.misplaced, "part in a wrong place or of a wrong kind", "parts in wrong places or of wrong kinds");
  add(found.worn, "part worn or cracked", "parts worn or cracked");
  add(found.dry, "O-ring dry", "O-rings dry");
  add(found.left_over, "part left over", "parts left over");
  return words + ".";
}

std::string why_not_unscrew(const Machine& machine, const State& state, const Action& action) {
  const PartId one = place_of(action, threaded_part);
  if (!plant::on_thread(rule_of(machine, one))) return "It does not sit on a thread.";
  return why_not_off(machine, state, one);
}

Outcome unscrewed(Scene& scene, const Action& action) {
  plant::PlantState& plant = scene.state.plant;
  const PartId one = place_of(action, threaded_part);
  if (plant::comes_off(rule_of(scene.machine, one), action.get(clockwise))) {
    plant::take_part_off(scene.machine.plant, plant, one);
    return "It comes off.";
  }
  const int item = plant::item_at(plant.assembly, one);
  const bool again = plant.assembly.items[static_cast<std::size_t>(item)].strained;
  plant::strain_thread(plant.assembly, one);
  plant::invalidate_pace(plant);
  return again ? "The thread strips." : "It only gets tighter. Stop: this thread turns off the other way.";
}

std::string why_not_feel(const Machine& machine, const State& state, const Action& action) {
  const PartId one = place_of(action, bushing);
  const AssemblyState& assembly = state.plant.assembly;
  const bool foot = one == PartId::agitator_bushing;
  std::string reason = why_not_reach(machine, state, PartId::sleeve_cap);
  if (!reason.empty()) return reason;
  if (!plant::in_place(assembly, one)) return "It is not in its place.";
  if (foot && !plant::in_place(assembly, PartId::agitator)) return "The agitator must stand on its shaft.";
  if (plant::in_place(assembly, PartId::guard_cover)) return "Guard cover is in the way. Take it off first.";
  if (foot) return "";
  if (plant::in_place(assembly, PartId::agitator)) return "Agitator is in the way. Take it off first.";
  return plant::in_place(assembly, PartId::sleeve_cap) ? "Sleeve cap is in the way. Take it off first." : "";
}

Outcome gap_felt(Scene& scene, const Action& action) {
  const PartId one = place_of(action, bushing);
  const double blade =
      plant::feeler_blade_mm(plant::play_now_mm(scene.machine.plant, scene.state.plant, one));
  const double limit = plant::play_limit_mm(scene.machine.plant, one);
  scene.state.plant.assembly.feeler_mm = 0.5 * blade;
  const std::string reads =
      blade > 0.0 ? "The " + machine::with_unit(blade, 2, "mm") + " blade goes in, the next one does not: "
                  : std::string("Not even the thinnest blade goes in: ");
  return reads + machine::with_unit(0.5 * blade, 3, "mm") + " of play to each side. The limit is " +
         machine::with_unit(limit, 2, "mm") + (0.5 * blade >= limit ? ": replace it." : ".");
}

double felt_mm(const State& state, const Action&) { return state.plant.assembly.feeler_mm; }

}  // namespace

constinit const HandOf<Text> take_part_off{
    {
        .name = "take_part_off",
        .meaning = "Take a part off the draw valve or the agitator and lay it on the tray.",
        .group = Group::parts,
        .why_not = why_not_take_off,
        .effect = part_taken_off,
    },
    part};

constinit const HandOf<Text> pick_up{
    {
        .name = "pick_up",
        .meaning = "Pick up a thing that lies on the tray or in the box of spares.",
        .group = Group::parts,
        .why_not = why_not_pick_up,
        .effect = picked_up,
    },
    thing};

constinit const HandOf<> lay_down{{
    .name = "lay_down",
    .meaning = "Lay down what you hold.",
    .group = Group::parts,
    .why_not = why_not_lay_down,
    .effect = laid_down,
}};

constinit const HandOf<> grease{{
    .name = "grease",
    .meaning = "Put food-grade lubricant on the O-ring that you hold.",
    .group = Group::parts,
    .why_not = why_not_grease,
    .effect = greased,
}};

constinit const HandOf<Text> put_part_on{
    {
        .name = "put_part_on",
        .meaning = "Put what you hold into its place.",
        .group = Group::parts,
        .why_not = why_not_put_on,
        .effect = part_put_on,
    },
    part,
};

constinit const HandOf<> look_over{{
    .name = "look_over",
    .meaning = "Count the parts and look at their condition.",
    .group = Group::parts,
    .effect = looked_over,
}};

constinit const HandOf<Text, Flag> unscrew{
    {
        .name = "unscrew",
        .meaning = "Turn a part that sits on a thread.",
        .group = Group::parts,
        .why_not = why_not_unscrew,
        .effect = unscrewed,
    },
    threaded_part,
    clockwise,
};

constinit const HandOf<Text> feel_gap{
    {
        .name = "feel_gap",
        .meaning = "Measure the play of a bushing with the feeler gauge.",
        .group = Group::parts,
        .why_not = why_not_feel,
        .effect = gap_felt,
        .value = felt_mm,
    },
    bushing,
};

HandList part_hands() {
  static constexpr const Hand* list[] = {&take_part_off, &pick_up,   &lay_down, &grease,
                                         &put_part_on,   &look_over, &unscrew,  &feel_gap};
  return list;
}

std::vector<Action> possible_part_work(const Machine& machine, const State& state) {
  std::vector<Action> out;
  const auto offer = [&](Action action) {
    if (why_not(machine, state, action).empty()) out.push_back(std::move(action));
  };
  for (const std::string_view one : part_words()) offer(put_part_on(one));
  for (const std::string_view one : part_words()) offer(take_part_off(one));
  for (const std::string_view one : thing_words()) offer(pick_up(one));
  offer(grease());
  offer(lay_down());
  offer(look_over());
  return out;
}

std::string how_on(const plant::PartRule& rule) {
  switch (rule.grip) {
    case plant::Grip::pull: return "Push it straight on, without force.";
    case plant::Grip::lift: return "Lower it straight down and turn it until it drops on the drive.";
    case plant::Grip::click: return "Press it on until it clicks.";
    case plant::Grip::right_thread: return "Screw it in clockwise by hand first: a right-hand thread.";
    case plant::Grip::left_thread: return "Screw it in anticlockwise by hand first: a left-hand thread.";
    case plant::Grip::press_fit: return "Press it in square to its bore, to the stop.";
  }
  return {};
}

std::string how_off(const plant::PartRule& rule) {
  std::string words;
  switch (rule.grip) {
    case plant::Grip::pull: words = "Pull it straight off."; break;
    case plant::Grip::lift: words = "Lift it straight up."; break;
    case plant::Grip::click: words = "Press the catch and lift; on again it clicks."; break;
    case plant::Grip::right_thread: words = "Unscrew it anticlockwise: a right-hand thread."; break;
    case plant::Grip::left_thread: words = "Unscrew it clockwise: a left-hand thread."; break;
    case plant::Grip::press_fit: words = "Press it out, and the new one in, square to its bore."; break;
  }
  switch (rule.tool) {
    case plant::Tool::hand: return words;
    case plant::Tool::spanner: return words + " You need a spanner.";
    case plant::Tool::pick: return words + " Use the blunt pick, never a knife.";
    case plant::Tool::press: return words + " You need the bushing press.";
  }
  return words;
}

}  // namespace stirbench::hands
