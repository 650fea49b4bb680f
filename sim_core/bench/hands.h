#pragma once

#include <string>
#include <vector>

#include "sim_core/bench/action.h"
#include "sim_core/bench/event.h"
#include "sim_core/bench/machine.h"
#include "sim_core/bench/state.h"

// What hands can do to the machine.
namespace stirbench::bench {

// Whether the action could be done now; the reason when not ("The lid is closed."). Used by the desk to
// disable what hands cannot do, and by step() itself.
std::string why_not(const Machine& machine, const State& state, const Action& action);

// hands.cpp: carries out one action, or refuses it with an event. Entries and keys go into `panel` and the finger timers.
void carry_out(const Machine& machine, State& state, const Action& action, control::PanelInputs& panel,
               std::vector<Event>& events);

// instructor.cpp: what an instructor changes in a run. Hands, guards and injuries have no say in it.
bool is_instructor_work(ActionKind kind);
std::string why_not_instructor_work(const Machine& machine, const State& state, const Action& action);
void do_instructor_work(const Machine& machine, State& state, const Action& action, std::vector<Event>& events);

// safety_hands.cpp: emergency stop, test buttons, the display's entries for alarms.
bool is_alarm_work(ActionKind kind);
std::string why_not_alarm_work(const Machine& machine, const State& state, const Action& action);
std::string do_alarm_work(State& state, const Action& action, control::PanelInputs& panel);
// What of the fingers on the keys reaches the controller.
void press_keys_as_wired(const plant::SafetyParts& parts, control::PanelInputs& panel);
// A loose wire of the guard loop opens for a moment, now and then, while the drive turns. Called once a tick.
void shake_guard_wire(plant::PlantState& plant);

}  // namespace stirbench::bench
