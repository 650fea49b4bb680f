#include "sim_core/hands/part_states.h"

#include <algorithm>
#include <optional>
#include <string_view>

#include "sim_core/plant/upkeep/service.h"

// The states in which parts may be when a session begins.
namespace stirbench::hands {

namespace {

using machine::Machine;
using plant::PartId;

// Worn as a real one is: play over the limit, a ring without its edge.
void wear_out(const Machine& machine, plant::PlantState& plant, PartId part, plant::PartItem& item) {
  constexpr double over_limit = 1.4;
  if (part == PartId::agitator_bushing)
    plant.agitator_bushing.play_mm = over_limit * machine.plant.agitator_bushing.limit_mm;
  else if (part == PartId::shaft_end_bushing)
    plant.shaft_end_bushing.play_mm = over_limit * machine.plant.shaft_end_bushing.limit_mm;
  else
    item.health = plant::PartHealth::worn;
}

// What people move: its two positions, the usual one first, and what the other one does.
struct Moved {
  std::string_view part;
  std::string_view usual, other;
  void (*leave)(plant::PlantState& plant);
};

constexpr double ajar_norm = 0.1;  // a handle that somebody did not push home

constexpr Moved moved_parts[] = {
    {"lid", "shut", "open", [](plant::PlantState& p) { p.fittings.lid_open = true; }},
    {"shaft_cover", "shut", "open", [](plant::PlantState& p) { p.fittings.shaft_cover_open = true; }},
    {"draw_handle", "shut", "ajar", [](plant::PlantState& p) { p.fittings.draw_opening_norm = ajar_norm; }},
    {"isolator", "on", "off", [](plant::PlantState& p) { p.fittings.isolator_on = false; }},
    {"emergency_stop", "out", "pressed", [](plant::PlantState& p) { p.safety.emergency_stop_in = true; }}};

// Nothing when `part` is none that people move; else empty or what is wrong.
std::optional<std::string> leave_moved(plant::PlantState& plant, const std::string& part,
                                       const std::string& how) {
  for (const Moved& one : moved_parts) {
    if (one.part != part) continue;
    if (how == one.other) one.leave(plant);
    if (how == one.other || how == one.usual) return "";
    return "it can only be " + std::string(one.usual) + " or " + std::string(one.other);
  }
  return std::nullopt;
}

}  // namespace

const std::vector<std::string>& part_states() {
  static const std::vector<std::string> states = {"missing", "cracked", "worn",    "dry",  "other",
                                                  "soiled",  "swapped", "open",    "shut", "ajar",
                                                  "off",     "on",      "pressed", "out"};
  return states;
}

const std::vector<std::string>& left_parts() {
  static const std::vector<std::string> parts = [] {
    std::vector<std::string> out = {"hose_gasket", "lid",      "shaft_cover",
                                    "draw_handle", "isolator", "emergency_stop"};
    for (std::size_t i = 0; i < plant::part_count; ++i)
      out.emplace_back(plant::part_key(static_cast<PartId>(i)));
    return out;
  }();
  return parts;
}

std::string set_part(const machine::Machine& machine, machine::State& state, const std::string& part,
                     const std::string& how) {
  if (std::find(part_states().begin(), part_states().end(), how) == part_states().end())
    return "there is no state \"" + how + "\"";
  if (part == "hose_gasket") {
    state.plant.line.gasket = false;
    return how == "missing" ? "" : "the hose's gasket can only be missing";
  }
  if (const std::optional<std::string> moved = leave_moved(state.plant, part, how)) return *moved;
  const int place = plant::find_part(part);
  if (place < 0) return "there is no part \"" + part + "\"";
  plant::AssemblyState& a = state.plant.assembly;
  if (how == "missing") {
    plant::take_off(a, static_cast<PartId>(place));
    return "";
  }
  if (how == "swapped") {
    if (static_cast<PartId>(place) != PartId::oring_front && static_cast<PartId>(place) != PartId::oring_rear)
      return "only O-rings can be swapped";
    std::swap(a.at[static_cast<std::size_t>(PartId::oring_front)],
              a.at[static_cast<std::size_t>(PartId::oring_rear)]);
    return "";
  }
  plant::PartItem& item = a.items[static_cast<std::size_t>(place)];
  if (how == "cracked") item.health = plant::PartHealth::cracked;
  if (how == "worn") wear_out(machine, state.plant, static_cast<PartId>(place), item);
  if (how == "dry") item.greased = false;
  if (how == "other") item.other = true;
  if (how == "soiled") item.soil_norm = 1.0;
  return "";
}

std::string parts_text(const std::vector<machine::StartSetup::Part>& parts) {
  std::string text;
  for (const machine::StartSetup::Part& one : parts)
    text += (text.empty() ? "" : ",") + one.part + ":" + one.state;
  return text;
}

bool read_parts(const std::string& text, std::vector<machine::StartSetup::Part>& out) {
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(',', at), text.size());
    const std::size_t colon = text.find(':', at);
    if (colon == std::string::npos || colon >= end) return false;
    out.push_back({text.substr(at, colon - at), text.substr(colon + 1, end - colon - 1)});
    at = end + 1;
  }
  return true;
}

}  // namespace stirbench::hands
