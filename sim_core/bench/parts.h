#pragma once

#include <string>
#include <vector>

#include "sim_core/bench/step.h"

// What step.cpp is put together from.
namespace stirbench::bench {

// step.cpp: initial_state without an exception; the answer is empty, or what is wrong with the start.
std::string build_start(const Machine& machine, const StartSetup& setup, State& state);

// hands.cpp: carries out one action, or refuses it with an event. Entries and keys go into `panel` and the finger timers.
void carry_out(const Machine& machine, State& state, const Action& action, control::PanelInputs& panel,
               std::vector<Event>& events);

// instructor.cpp: what an instructor changes in a run. Hands, guards and injuries have no say in it.
bool is_instructor_work(ActionKind kind);
std::string why_not_instructor_work(const Machine& machine, const State& state, const Action& action);
void do_instructor_work(const Machine& machine, State& state, const Action& action, std::vector<Event>& events);

// harms.cpp: injuries that an action itself causes; called with the state before the action.
void harms_of_action(const Machine& machine, State& state, const Action& action, std::vector<Event>& events);

// safety_hands.cpp: emergency stop, test buttons, the display's entries for alarms.
bool is_alarm_work(ActionKind kind);
std::string why_not_alarm_work(const Machine& machine, const State& state, const Action& action);
std::string do_alarm_work(State& state, const Action& action, control::PanelInputs& panel);
// What of the fingers on the keys reaches the controller.
void press_keys_as_wired(const plant::SafetyParts& parts, control::PanelInputs& panel);
// A loose wire of the guard loop opens for a moment, now and then, while the drive turns. Called once a tick.
void shake_guard_wire(plant::PlantState& plant);

// What of the last tick the harms and events of this one are told apart from.
struct Before {
  double splash_L_per_min = 0.0;
  bool hose_jumped = false;
  bool freezer_running_over = false;
  bool freezer_tripped = false;
  bool spilling = false;
  bool overload_tripped = false;
  bool cutout_tripped = false;
};
Before look_before(const State& state);
// Injuries and damage that the tick brought; called with the state after the plant's step, its tick not yet counted.
void harms_of_tick(const Machine& machine, State& state, const Before& before, std::vector<Event>& events);

}  // namespace stirbench::bench
