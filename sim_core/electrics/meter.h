#pragma once

#include <span>
#include <string_view>

#include "sim_core/electrics/circuit_state.h"

// Electrical instruments on the simulated circuit. What they show is computed from the network with the
// instrument in it. On a real machine measuring on live parts is work for licensed people, by the site's
// rules, with instruments rated for the place.
namespace stirbench::electrics {

enum class MeterFunction : std::uint8_t { alternating_V, direct_V, Ohm, continuity, count };
std::string_view meter_function_word(MeterFunction function);  // "V~", "V=", "Ohm", "continuity"

// Who holds the probes, and how.
struct MeterUser {
  bool licensed = true;         // may work on live parts here
  bool shrouded_probes = true;  // only the last millimetres of the tips are bare
};

enum class Mishap : std::uint8_t {
  none,
  over_range,    // the display shows that it cannot show it
  live_reading,  // resistance on a circuit with voltage on it: the number means nothing
  fuse_blown,  // the same with more voltage: the meter is dead until its fuse is replaced, and shows nothing
               // where there is voltage
  unlicensed_live,   // somebody touched a live circuit who may not
  slip,              // bare tips between live parts: a short circuit and an arc are one slip away
  electronics_dead,  // test voltage on a controller's or sensor's terminals
  count
};
std::string_view mishap_key(Mishap mishap);
std::string_view mishap_words(Mishap mishap);  // what happened and what to do instead

struct Meter {
  double range = 0.0;  // full scale in V or Ohm; 0 chooses by itself
  double error = 0.0;  // -1 .. 1: where in its stated accuracy this instrument lies
  bool fuse_blown = false;
};

struct MeterReading {
  double value = 0.0;       // as shown, rounded to its last digit; V, Ohm or A
  double exact = 0.0;       // before accuracy and rounding
  double resolution = 0.0;  // of the last digit
  bool over_range = false;  // "OL"
  bool sounds = false;      // continuity
  Mishap mishap = Mishap::none;
};

// Digital multimeter, 6000 counts, 10 MOhm: V~ +-(1.0 % + 3 digits), V= +-(0.5 % + 2), Ohm +-(0.9 % + 2),
// sounds below 30 Ohm. Ranges 6, 60, 600 V; 600 Ohm .. 60 MOhm. The figures are those of a common hand
// instrument (choice). Red probe on `a`, black on `b`. Ohm and continuity above 1 V: live_reading; above 50 V
// the fuse goes: `meter.fuse_blown` is set.
MeterReading multimeter(const Network& network, const CircuitInputs& conditions, const Switchgear& gear,
                        MeterFunction function, Meter& meter, std::uint16_t a, std::uint16_t b,
                        const MeterUser& hands = {});

// Clamp meter round one or several wires (by index; each counted from -> to): effective value of the sum.
// +-(2 % + 5 digits), 0.01 A up to 40 A, 0.1 A up to 400 A. Nothing is touched.
MeterReading clamp_meter(const Network& network, const CircuitInputs& conditions, const Switchgear& gear,
                         const Meter& meter, std::span<const int> wires);

// Insulation tester: `test_V` (250, 500 or 1000 V) behind 1 mA of short-circuit current; shows up to 4 GOhm.
// +-(3 % + 5 digits). Only on a dead circuit. IEC 60204-1 18.3 wants at least 1 MOhm at 500 V (from memory).
MeterReading insulation_tester(const Network& network, const CircuitInputs& conditions,
                               const Switchgear& gear, Meter& meter, double test_V, std::uint16_t a,
                               std::uint16_t b, const MeterUser& hands = {});

inline constexpr double live_touch_V = 50.0;  // alternating (IEC 61140, from memory)
inline constexpr double live_touch_direct_V = 120.0;
inline constexpr double meter_Ohm = 10.0e6;

}  // namespace stirbench::electrics
