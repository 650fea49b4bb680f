#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim_core/machine/event.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// The log of alarms and its load figures, made from a run's events. It runs beside the step, is not part of
// the state, and can be made again from a journal.
namespace stirbench::signals {

inline constexpr std::uint64_t not_yet = ~std::uint64_t{0};

// One occurrence of an alarm, from the moment it was raised.
struct AlarmOccurrence {
  control::AlarmId id = control::AlarmId::emergency_stop;
  std::uint64_t raised_tick = 0;
  std::uint64_t acknowledged_tick = not_yet;
  std::uint64_t returned_tick = not_yet;  // the cause was gone
  std::uint64_t cleared_tick = not_yet;   // neither active nor latched any more
  int order = 0;                          // place in its cascade, 1 first out; 0 for a prompt
};

// One step of an alarm's life.
struct AlarmTransition {
  control::AlarmId id = control::AlarmId::emergency_stop;
  std::uint64_t tick = 0;
  control::AlarmState to = control::AlarmState::normal;
};

// The alarm load on one operator in a shift. Bands of ISA-18.2 / IEC 62682, from memory: about 6 per hour are
// acceptable, 12 the most that can be managed; a flood begins with more than 10 in 10 min and ends below 5 in
// 10 min; less than 1 % of the time should be in flood.
struct AlarmLoad {
  double shift_s = 0.0;
  int alarms = 0;  // without prompts
  double per_hour = 0.0;
  double per_10min = 0.0;
  int peak_10min = 0;  // most in any 10 min
  int floods = 0;
  double flood_norm = 0.0;  // share of the shift in flood
  int unacknowledged = 0;   // never acknowledged
  int stale = 0;            // lasted for more than 24 h
  double longest_to_acknowledge_s = 0.0;
  int most_often = -1;           // AlarmId, -1 without any
  double most_often_norm = 0.0;  // its share of all
};
inline constexpr double acceptable_per_hour = 6.0;
inline constexpr double manageable_per_hour = 12.0;

class AlarmLog {
 public:
  void see(const std::vector<machine::Event>& events);
  const std::vector<AlarmOccurrence>& occurrences() const { return occurrences_; }
  const std::vector<AlarmTransition>& transitions() const { return transitions_; }
  // Figures up to a tick.
  AlarmLoad load(std::uint64_t until_tick) const;

 private:
  AlarmOccurrence* last_of(control::AlarmId id);
  std::vector<AlarmOccurrence> occurrences_;
  std::vector<AlarmTransition> transitions_;
};

// "within what one person can handle", "more than is comfortable", "more than can be managed".
std::string load_words(const AlarmLoad& load);

}  // namespace stirbench::signals
