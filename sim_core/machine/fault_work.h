#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>

#include "sim_core/electrics/meter.h"
#include "sim_core/plant/instruments.h"

// Finding and repairing a fault during a run: the instrument in hand, its probes and its reading; the causes
// named, repaired and proved; the time taken and the precautions omitted. Every reading is computed from the
// present state and updated once a second while the probes stay. On a real machine local codes and licensed
// people come first.
namespace stirbench::machine {

enum class Instrument : std::uint8_t {
  none,
  multimeter,
  clamp_meter,
  insulation_tester,
  gauge_set,
  contact_thermometer,
  count
};
std::string_view instrument_word(Instrument tool);

std::span<const std::string_view> instrument_words();
std::span<const std::string_view> meter_functions();

// A precaution that was omitted; counted each time.
enum class Lapse : std::uint8_t {
  no_lock,           // hands or probes in the open panel, isolated, but without one's own padlock
  not_proved,        // work in the panel without having proved it dead
  live_unlicensed,   // measured on live parts without the licence for it
  live_unprotected,  // measured on live parts without eyes and face covered
  ohms_live,         // resistance or insulation on a live circuit
  electronics,       // insulation test on controller or sensors
  count
};
inline constexpr std::size_t lapse_count = static_cast<std::size_t>(Lapse::count);
std::string_view lapse_word(Lapse lapse);
std::string_view lapse_words(Lapse lapse);  // what it means and what to do instead

struct InstrumentReading {
  bool taken = false;
  double value = 0.0;   // as shown: V, Ohm, A, degC; of a gauge set the low side's bar
  double second = 0.0;  // gauge set: the high side's bar
  double resolution = 0.0;
  bool over_range = false;
  bool sounds = false;
  electrics::Mishap mishap = electrics::Mishap::none;
  std::uint64_t tick = 0;
};

// A fault handed to a colleague who may mend it: called; here, with a padlock of their own on the isolator;
// given back.
enum class HandOverStage : std::uint8_t { none, called, here, given_back, count };

struct HandOver {
  HandOverStage stage = HandOverStage::none;
  std::uint64_t suspected = 0;     // mark of the cause that the report suspects; 0: not known
  std::uint64_t mends = 0;         // mark of the fault that the colleague finds; 0: none
  std::uint64_t next_tick = 0;     // when they come, or have finished
  bool as_suspected = false;       // they find what the report suspects
  bool found_switched_on = false;  // the machine was switched on again before they came
};

inline constexpr std::size_t most_wires_off = 6;
inline constexpr std::size_t most_causes = 8;

struct FaultWork {
  Instrument tool = Instrument::none;
  electrics::MeterFunction function = electrics::MeterFunction::alternating_V;
  std::int32_t red = -1;  // terminals of the probes; -1: not placed
  std::int32_t black = -1;
  std::int32_t round = -1;  // clamp meter: index of the wire
  std::int32_t point = -1;  // contact thermometer: where it is pressed on
  bool gauges_on = false;
  double instrument_error = 0.0;  // -1 .. 1 of the stated accuracy, of all instruments of this run
  bool fuse_blown = false;        // the multimeter's
  std::array<std::int32_t, most_wires_off> wires_off{};  // index + 1 of wires taken off; 0: none
  std::uint32_t dead_pairs = 0;  // pairs of supply conductors that were read and found dead since the
                                 // isolator was turned (proving.cpp)
  InstrumentReading reading;
  double hand_min = 0.0;   // minutes of the work clock beyond the run's own time
  double parts_min = 0.0;  // price of all parts fitted, as minutes
  double needless_parts_min = 0.0;
  std::uint32_t checks = 0;  // readings at a new place
  std::uint32_t repairs = 0;
  std::uint32_t needless_repairs = 0;
  std::uint32_t handed_off = 0;
  std::uint32_t names_taken_back = 0;
  HandOver hand_over;
  std::array<std::uint32_t, lapse_count> lapses{};
  std::array<std::uint64_t, most_causes> named{};   // marks of the causes that were named
  std::array<std::uint64_t, most_causes> mended{};  // marks of the faults that were put right
  std::uint8_t to_prove = 0;  // bits: 1 heat, 2 drive, 4 chill have to be seen running since the last repair
  std::array<std::uint32_t, 3> ran_ticks{};  // of heat, drive and chill since the last repair
  bool proved = false;
};

}  // namespace stirbench::machine
