#pragma once

#include <array>
#include <string>
#include <vector>

#include "sim_core/bench/action.h"
#include "sim_core/bench/machine.h"
#include "sim_core/bench/state.h"

namespace stirbench::bench {

// What happened in a tick: what people did, what the controller decided, what went wrong.
enum class EventKind : std::uint8_t {
  acted,            // an action was carried out
  refused,          // an action or key could not be: text says why
  alarm_raised, alarm_cleared,
  phase_began, recipe_finished, hold_restarted, mode_changed,
  harm,
  spilled, boiled_over, overload_tripped, cutout_tripped,
  alarm_state,      // an alarm changed its state: name is its key, text the state, number the AlarmState
  other_person,     // another person came by or worked here: name says what they did
  instructor,       // an instructor changed, froze or marked something: subject is the ActionKind
  count
};
std::string_view event_name(EventKind kind);

struct Event {
  std::uint64_t tick = 0;
  EventKind kind = EventKind::acted;
  std::int32_t subject = -1;   // ActionKind, AlarmId, phase index, HarmId ...
  std::string text;            // plain words, empty for most
  double number = 0.0;         // e.g. kg poured; alarm_raised: its place in the cascade, 1: first out
  std::string name;            // e.g. the ingredient poured, the key pressed, the phase id
};

// All actions at the beginning of this tick, in order.
struct Inputs {
  std::vector<Action> actions;
};

struct StartSetup {
  plant::Environment environment;
  std::uint64_t seed = 1;
  // Contents at the start: ingredient id, kg, degC.
  struct Load { std::string ingredient; double kg = 0.0; double degC = 5.0; };
  std::vector<Load> loaded;
  // Faults and defeated safety parts from the start: id of a fault of content (at most four) or of the safety
  // parts (faults/safety.h), severity above 0, at most 1.
  struct Fault { std::string id; double severity = 1.0; };
  std::vector<Fault> faults;
  // Faults of content to be picked at random by the seed, each at a severity within its own range;
  // draw_faults() puts them into `faults`.
  struct Drawn { std::vector<std::string> from; int count = 1; };
  Drawn drawn;
  std::string recipe;          // chosen already, may be empty
  // Parts that were left in a bad state: place (or "hose_gasket") and state (part_states()).
  struct Part { std::string part; std::string state; };
  std::vector<Part> parts;
  Situation situation;         // other people, a stuck isolator, a broken meter
};

// Picks the faults that `setup.drawn` describes by `setup.seed`, adds them to `setup.faults` and empties
// `drawn`, so that the journal holds the result.
void draw_faults(const Machine& machine, StartSetup& setup);

// Throws std::invalid_argument naming the offending value (unknown ingredient or recipe, over the brim).
State initial_state(const Machine& machine, const StartSetup& setup);

// One tick: hands -> read sensors -> controller scan -> relays -> plant -> wear and harms -> events.
// The order's reasons are written in step.cpp. `events` is appended to; no allocation when nothing happens.
void step(const Machine& machine, State& state, const Inputs& inputs, std::vector<Event>& events);

// Why the action cannot be done now ("The lid is closed."); empty when it can. Used by the desk to disable
// what cannot be done, and by step() itself.
std::string why_not(const Machine& machine, const State& state, const Action& action);

}  // namespace stirbench::bench
