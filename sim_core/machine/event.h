#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace stirbench::machine {

// Things that happened in a tick: what hands did, what the controller decided, what went wrong.
enum class EventKind : std::uint8_t {
  acted,    // an action was carried out
  refused,  // an action or key could not be: text says why
  alarm_raised,
  alarm_cleared,
  phase_began,
  recipe_finished,
  hold_restarted,
  mode_changed,
  harm,
  spilled,
  boiled_over,
  overload_tripped,
  cutout_tripped,
  alarm_state,   // an alarm's life went on: name is its key, text the state, number the AlarmState
  other_person,  // somebody else came by or worked here: name says what they did
  instructor,    // an instructor changed something, froze the run or marked something: subject is the hand
  count
};
std::string_view event_name(EventKind kind);

struct Event {
  std::uint64_t tick = 0;
  EventKind kind = EventKind::acted;
  std::int32_t subject = -1;  // number of the hand (hands/hand.h), AlarmId, phase index, HarmId ...
  std::string text{};         // plain words, empty for most
  double number = 0.0;        // e.g. kg poured; alarm_raised: its place in the cascade, 1 first out
  std::string name{};         // e.g. the ingredient poured, the key pressed, the phase id
};

}  // namespace stirbench::machine
