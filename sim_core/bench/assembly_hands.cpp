#include "sim_core/bench/assembly_hands.h"

#include "sim_core/bench/service_hands.h"
#include "sim_core/plant/assembly_effects.h"

namespace stirbench::bench {

namespace {

using K = ActionKind;
using plant::PartId;

std::string named(PartId part) { return std::string(plant::part_title(part)); }

std::string counted(int n, const char* one, const char* many) {
  return std::to_string(n) + " " + (n == 1 ? one : many);
}

std::string why_not_place(const Machine& machine, const State& state, const Action& action) {
  const int place = plant::find_part(action.name);
  if (place < 0) return "There is no part \"" + action.name + "\".";
  const auto part = static_cast<PartId>(place);
  const plant::AssemblySpec& spec = machine.plant.assembly;
  PartId other = PartId::count;
  const bool off = action.kind == K::take_part_off;
  const std::string_view reason = off ? plant::why_not_off(spec, state.plant.assembly, part, &other)
                                      : plant::why_not_on(spec, state.plant.assembly, part, &other);
  if (reason.empty()) return why_not_reach(machine, state, part);
  if (other == PartId::count) return std::string(reason);
  const bool is_there = plant::in_place(state.plant.assembly, other);
  return is_there ? named(other) + " is in the way. Take it off first." : named(other) + " must be in place first.";
}

std::string why_not_thing(const State& state, const Action& action) {
  const plant::AssemblyState& a = state.plant.assembly;
  const int item = plant::find_item(action.name);
  if (item < 0) return "There is no \"" + action.name + "\" here.";
  if (a.hand >= 0) return "Your hands are full. Lay down what you hold first.";
  return plant::on_tray(a, item) ? "" : "It is in the machine.";
}

std::string why_not_grease(const plant::AssemblyState& a) {
  if (a.hand < 0) return "Pick up an O-ring first.";
  const plant::PartItem& thing = a.items[static_cast<std::size_t>(a.hand)];
  if (thing.kind != PartId::oring_front && thing.kind != PartId::oring_rear) return "Only the O-rings want lubricant.";
  return thing.greased ? "It is lubricated already." : "";
}

std::string condition_words(const plant::PartItem& thing) {
  const bool ring = thing.kind == PartId::oring_front || thing.kind == PartId::oring_rear;
  std::string words;
  if (thing.condition == plant::PartCondition::cracked) words = "It is cracked.";
  if (thing.condition == plant::PartCondition::worn || (ring && thing.wear > 0.5)) words = "It is worn.";
  if (ring && !thing.greased) words += std::string(words.empty() ? "" : " ") + "It is dry.";
  return words;
}

std::string looked_over(const Machine& machine, const State& state) {
  const plant::Shortcomings found = plant::look_over(machine.plant.assembly, state.plant.assembly);
  if (found.none()) return "Every part is in its place and sound.";
  std::string words;
  const auto add = [&](int n, const char* one, const char* many) {
    if (n > 0) words += (words.empty() ? "" : ", ") + counted(n, one, many);
  };
  add(found.missing, "part missing", "parts missing");
  add(found.misplaced, "part in a wrong place or of a wrong kind", "parts in wrong places or of wrong kinds");
  add(found.worn, "part worn or cracked", "parts worn or cracked");
  add(found.dry, "O-ring dry", "O-rings dry");
  add(found.left_over, "part left over", "parts left over");
  return words + ".";
}

}  // namespace

// The vat's parts are reached through the open lid, and nobody reaches beside a turning shaft.
std::string why_not_reach(const Machine& machine, const State& state, PartId part) {
  const plant::PartRule& rule = machine.plant.assembly.rules[static_cast<std::size_t>(part)];
  if (!rule.in_vat) return {};
  if (!state.plant.fittings.lid_open) return "The lid is closed.";
  return state.plant.shaft_rad_per_s > 0.0 ? "The shaft still turns. Press Stop and wait." : "";
}

bool is_part_work(ActionKind kind) { return kind >= K::take_part_off && kind <= K::look_over; }

std::string why_not_part_work(const Machine& machine, const State& state, const Action& action) {
  switch (action.kind) {
    case K::take_part_off:
    case K::put_part_on: return why_not_place(machine, state, action);
    case K::pick_up: return why_not_thing(state, action);
    case K::lay_down: return state.plant.assembly.hand >= 0 ? "" : "Your hands are empty.";
    case K::grease: return why_not_grease(state.plant.assembly);
    default: return "";  // look_over
  }
}

std::string do_part_work(const Machine& machine, State& state, const Action& action) {
  plant::AssemblyState& a = state.plant.assembly;
  switch (action.kind) {
    case K::take_part_off: {
      const auto part = static_cast<PartId>(plant::find_part(action.name));
      const int item = plant::item_at(a, part);
      plant::take_part_off(machine.plant, state.plant, part);
      return condition_words(a.items[static_cast<std::size_t>(item)]);
    }
    case K::pick_up: plant::pick_up(a, plant::find_item(action.name)); break;
    case K::lay_down: plant::lay_down(a); break;
    case K::grease: a.items[static_cast<std::size_t>(a.hand)].greased = true; break;
    case K::put_part_on: plant::put_part_on(machine.plant, state.plant, static_cast<PartId>(plant::find_part(action.name))); break;
    case K::look_over: return looked_over(machine, state);
    default: break;
  }
  return {};
}

std::vector<Action> possible_part_work(const Machine& machine, const State& state) {
  std::vector<Action> out;
  const auto offer = [&](K kind, std::string_view name) {
    Action action;
    action.kind = kind;
    action.name = std::string(name);
    if (why_not(machine, state, action).empty()) out.push_back(std::move(action));
  };
  for (const K kind : {K::put_part_on, K::take_part_off})
    for (std::size_t i = 0; i < plant::part_count; ++i) offer(kind, plant::part_key(static_cast<PartId>(i)));
  for (std::size_t i = 0; i < plant::item_count; ++i) offer(K::pick_up, plant::item_key(i));
  offer(K::grease, "");
  offer(K::lay_down, "");
  offer(K::look_over, "");
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

}  // namespace stirbench::bench
