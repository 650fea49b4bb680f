#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "sim_core/control/controller.h"
#include "sim_core/machine/fault_work.h"
#include "sim_core/machine/lockout.h"
#include "sim_core/machine/random.h"
#include "sim_core/machine/spills.h"
#include "sim_core/plant/state.h"

namespace stirbench::machine {

// Injuries and damage that the machine would have caused (taught without gore). Kept in the state so that
// replay and debrief show them at the same moment. harms.cpp says when each happens.
enum class HarmId : std::uint8_t {
  moving_agitator,  // hand reached a turning agitator
  hot_product,      // hand in hot product / splash when drawing hot
  hot_wall,
  hot_steam,       // hand above very hot product, or lid opened while the agitator turns in it
  live_terminals,  // hands on live parts or on a charged capacitor
  slipped,         // on a wet floor
  chemical_gas,    // chlorine and acid in one bucket
  chemical_burn,   // concentrate or a solution too strong on skin or in an eye
  hose_pressure,   // a hose taken off under pressure
  valve_spring,    // hit by the draw valve's spring
  refrigerant,     // its circuit opened
  colleague_hurt,  // another person, by what you did
  bushing_worn,    // bushing or shaft end beyond its limit
  product_scorched,
  product_curdled,
  boil_over,
  vanes_torn,  // of the circulation pump
  count
};
inline constexpr std::size_t harm_count = static_cast<std::size_t>(HarmId::count);
std::string_view harm_key(HarmId harm);  // "moving_agitator"
// The three parts of a harm's explanation, each one or two sentences, and all of it.
std::string_view harm_title(HarmId harm);     // "Crushed hand"
std::string_view harm_happened(HarmId harm);  // what would have happened
std::string_view harm_why(HarmId harm);       // why
std::string_view harm_instead(HarmId harm);   // what to do instead
std::string_view harm_text(HarmId harm);      // all three
std::string_view harm_sign(HarmId harm);      // ISO 7010 number: "W024"
bool harm_is_injury(HarmId harm);
// What the severity meant: "At 71 °C wet skin burns to its full depth in under 1 s." Empty when there is
// nothing to add.
std::string harm_detail(HarmId harm, double severity);

struct Harm {
  bool happened = false;
  std::uint64_t tick = 0;  // of the first time
  double severity = 0.0;   // greatest so far: rpm, degC, mm, kg or share (harms.cpp)
};

// The protective equipment that the person wears.
struct PpeWorn {
  std::array<bool, ppe_count> worn{};
  bool has(PpeItem item) const { return worn[static_cast<std::size_t>(item)]; }
};

// Everything that changes, as one plain value: a copy is a save point, a what-if and a rewind.
struct State {
  std::uint64_t tick = 0;
  plant::PlantState plant;
  control::ControlState control;
  Random random;
  std::array<std::uint32_t, control::key_count> key_ticks_left{};  // keys held down by a finger
  std::array<Harm, harm_count> harms{};
  double sample_degC = 0.0;  // last sample's thermometer reading
  std::uint64_t sample_tick = 0;
  Lockout lockout;
  PpeWorn wearing;
  Bucket bucket;
  FaultWork work;                           // instruments, causes named, repairs
  bool floor_sign_up = false;               // the wet-floor sign is up
  bool injured = false;                     // a person was hurt: all further actions of this run are refused
  HarmId injury = HarmId::moving_agitator;  // the first injury, when `injured`
  control::Outputs commands;                // what the controller asked for in the last tick,
  plant::Actuators contactors;              // and what the relays let through
};

inline double time_s(const State& state) { return static_cast<double>(state.tick) / 10.0; }

// 64-bit hash over every field of the state, in a fixed order (fields.h). Equal states have equal hashes;
// -0.0 counts as 0, all NaNs as equal; padding does not count. Two states that differ in a single field never
// have the same hash.
std::uint64_t state_hash(const State& state);

// Path of the first field in which two states differ, such as "plant.pail.mass_kg[0]"; empty when there is
// none.
std::string first_difference(const State& a, const State& b);

}  // namespace stirbench::machine
