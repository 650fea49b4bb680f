#pragma once

#include <array>
#include <cstdint>
#include <string_view>

// What can be taken off the machine and put back by hand: draw valve and agitator, part by part. Places, the
// items in them, what blocks what, and how well an item works in its place. Values only.
namespace stirbench::plant {

// Places. An item of the same name belongs in each.
enum class PartId : std::uint8_t {
  valve_handle,
  valve_nut,
  valve_spring,
  valve_plunger,
  oring_rear,
  oring_front,
  guard_cover,
  agitator,
  agitator_bushing,
  sleeve_cap,
  shaft_end_bushing,
  shaft_sleeve,
  count
};
inline constexpr std::size_t part_count = static_cast<std::size_t>(PartId::count);
std::string_view part_key(PartId part);    // "oring_front"
std::string_view part_title(PartId part);  // "Front O-ring"
int find_part(std::string_view key);       // -1 when there is none

enum class Tool : std::uint8_t { hand, spanner, pick, press };
enum class Grip : std::uint8_t { pull, lift, click, right_thread, left_thread, press_fit };
std::string_view tool_key(Tool tool);
std::string_view grip_key(Grip grip);

// A set of places.
struct PartSet {
  std::uint32_t bits = 0;
  bool has(PartId part) const { return (bits >> static_cast<unsigned>(part) & 1U) != 0; }
  void add(PartId part) { bits |= 1U << static_cast<unsigned>(part); }
};

struct PartRule {
  bool known = false;  // this machine has it
  Tool tool = Tool::hand;
  Grip grip = Grip::pull;
  PartSet behind;       // these block it, both off and on
  PartSet on;           // these carry it: it cannot go on without them
  bool in_vat = false;  // reached through the open lid, with the shaft at rest
};

struct AssemblySpec {
  std::array<PartRule, part_count> rules{};
  double plunger_gap_m = 0.0;       // radial, between plunger and bore
  double seal_length_m = 0.0;       // of the gap that an O-ring closes
  double drift_opening_norm = 0.0;  // where the plunger comes to rest without its spring
  double shaft_leak_kg_per_h =
      0.0;                // runs into the sleeve without its cap, with product above it or splashing
  double stuck_kg = 0.0;  // product in the shaft at which the harm to the shaft end is greatest
};

enum class PartHealth : std::uint8_t { good, worn, cracked };
std::string_view part_health_key(PartHealth health);

// One item. The first `part_count` came with the machine, in the order of the places; the spares follow.
struct PartItem {
  PartId kind = PartId::count;
  PartHealth health = PartHealth::good;
  bool greased = true;  // O-rings and plunger
  bool other = false;   // bushing: of the other material (bronze for nylon, nylon for bronze)
  double wear =
      0.0;  // O-ring: 0 new .. 1 worn out; bushing: play [mm] while it is off (in place it is BushingState's)
  double run_in = 1.0;     // bushing: 0 new .. 1 its surface has settled
  bool oval = false;       // nylon that was pressed into a cold foot
  bool strained = false;   // thread: was forced the wrong way once
  double soil_norm = 0.0;  // part of the valve: share of a whole film of product on it
};
enum class Spare : std::uint8_t {
  oring_front,
  oring_rear,
  agitator_bushing,
  agitator_bushing_other,
  shaft_end_bushing,
  count
};
inline constexpr std::size_t item_count = part_count + static_cast<std::size_t>(Spare::count);
std::string_view item_key(
    std::size_t item);  // the place's key for the machine's own; "new_oring_front", ... for spares
int find_item(std::string_view key);

struct AssemblyState {
  std::array<PartItem, item_count> items{};
  std::array<std::int8_t, part_count> at{};  // the item in each place, -1 none; all others lie on the tray
  std::int8_t hand = -1;                     // the item in the hand
  double shaft_product_kg = 0.0;             // what ran into the sleeve
  double seen_opening_norm = 0.0;            // of the plunger, to count its strokes
  double agitator_degC = 22.0;  // of its foot: the vat's while it is in place, then slowly the room's
  double turned_s = 0.0;        // time for which the shaft has turned since the start
  double feeler_mm = -1.0;      // last reading of the feeler gauge as radial play; below 0: none was taken
};
// As it comes from the maker: everything in its place.
AssemblyState assembled();

bool in_place(const AssemblyState& state, PartId part);
int item_at(const AssemblyState& state, PartId part);  // -1 none
int place_of(const AssemblyState& state, int item);    // -1: on the tray or in the hand
bool on_tray(const AssemblyState& state, int item);
// O-rings fit either groove, bushings of the other material the place of the right one; all else fits only
// its own place.
bool fits(const PartItem& item, PartId place);

// Why it cannot be done, empty when it can. Guards and the turning shaft are checked by the callers.
std::string_view why_not_off(const AssemblySpec& spec, const AssemblyState& state, PartId part,
                             PartId* blocker = nullptr);
std::string_view why_not_on(const AssemblySpec& spec, const AssemblyState& state, PartId part,
                            PartId* blocker = nullptr);
void take_off(AssemblyState& state, PartId part);  // to the tray
void pick_up(AssemblyState& state, int item);
void lay_down(AssemblyState& state);
void put_on(AssemblyState& state, PartId part);  // what is in the hand

// The final inspection: what is missing, in a wrong place, worn, cracked, dry or of the other material.
struct Shortcomings {
  int missing = 0, misplaced = 0, worn = 0, dry = 0;
  int left_over = 0;  // own parts on the tray or in the hand
  bool none() const { return missing + misplaced + worn + dry + left_over == 0; }
};
Shortcomings look_over(const AssemblySpec& spec, const AssemblyState& state);

}  // namespace stirbench::plant
