#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "sim_core/bench/random.h"
#include "sim_core/control/controller.h"
#include "sim_core/plant/state.h"

namespace stirbench::bench {

// Injuries and damage the simulated machine would have caused (taught without gore). Kept in the state so that a replay and a debrief
// show them at the same moment. When each happens is written in harms.cpp.
enum class HarmId : std::uint8_t {
  moving_agitator,   // hand reached a turning agitator
  hot_product,       // hand in hot product / splash when drawing hot
  hot_wall,
  hot_steam,         // hand over, or lid opened with the agitator turning in, very hot product
  bushing_worn,      // bushing or shaft end beyond its limit
  product_scorched,
  product_curdled,
  boil_over,
  count
};
inline constexpr std::size_t harm_count = static_cast<std::size_t>(HarmId::count);
std::string_view harm_key(HarmId harm);   // "moving_agitator"
std::string_view harm_text(HarmId harm);  // hazard, what would have happened, what to do
bool harm_is_injury(HarmId harm);

struct Harm {
  bool happened = false;
  std::uint64_t tick = 0;   // of the first time
  double severity = 0.0;    // greatest so far: rpm, degC, mm, kg or share, as harms.cpp says
};

// Everything that changes, as one plain value: a copy is a save point, a what-if and a rewind.
struct State {
  std::uint64_t tick = 0;
  plant::PlantState plant;
  control::ControlState control;
  Random random;
  std::array<std::uint32_t, control::key_count> key_ticks_left{};  // keys held down by a finger
  std::array<Harm, harm_count> harms{};
  double sample_degC = 0.0;          // last sample's thermometer reading
  std::uint64_t sample_tick = 0;
};

inline double time_s(const State& state) { return static_cast<double>(state.tick) / 10.0; }

// 64-bit hash over every field of the state, in a fixed order (fields.h). Equal states, equal hashes; -0.0 counts as 0, every NaN
// as the same; padding does not count. Two states that differ in a single field never have the same hash.
std::uint64_t state_hash(const State& state);

// Path of the first field that differs between two states, such as "plant.pail.mass_kg[0]"; empty when none does.
std::string first_difference(const State& a, const State& b);

}  // namespace stirbench::bench
