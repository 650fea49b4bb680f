#pragma once

#include <cstddef>
#include <cstdint>

// Where everything outside the network stands that is on or off: it decides which contacts conduct.
namespace stirbench::electrics {

// One bit of Switches each, in this order. State hashes depend on it.
enum class Switch : std::uint8_t {
  // What the controller's program wants switched on.
  heat_wanted,
  drive_wanted,
  chill_wanted,
  // Hands: the isolator, and the guards as their switches stand, whatever lid and cover do.
  isolator_on,
  lid_closed,
  shaft_cover_closed,
  // What has tripped.
  cutout_tripped,
  overload_tripped,
  pressure_tripped,
  emergency_stop_open,  // the button's contacts
  // Contactors that stay closed whatever their coils do.
  heat_welded,
  drive_welded,
  chill_welded,
  emergency_welded,
  count
};
inline constexpr std::size_t switch_count = static_cast<std::size_t>(Switch::count);
// Every way the switches can stand.
inline constexpr std::uint32_t switch_combinations = std::uint32_t{1} << switch_count;

constexpr std::uint32_t bit_of(Switch one) { return std::uint32_t{1} << static_cast<unsigned>(one); }

// Initialised to a sound machine that is switched on, guards closed, nothing wanted.
struct Switches {
  std::uint32_t bits =
      bit_of(Switch::isolator_on) | bit_of(Switch::lid_closed) | bit_of(Switch::shaft_cover_closed);

  constexpr bool is(Switch one) const { return (bits & bit_of(one)) != 0; }
  constexpr void set(Switch one, bool on) { bits = on ? bits | bit_of(one) : bits & ~bit_of(one); }
  constexpr Switches with(Switch one, bool on = true) const {
    Switches out = *this;
    out.set(one, on);
    return out;
  }
  bool operator==(const Switches&) const = default;
};

}  // namespace stirbench::electrics
