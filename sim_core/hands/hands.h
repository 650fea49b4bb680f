#pragma once

#include "sim_core/hands/hand.h"

// Hands on a machine: whether something can be done, and doing it.
namespace stirbench::hands {

// Whether the action could be done now; the reason when not ("The lid is closed."). Used by the desk to
// disable what hands cannot do, and by carry_out itself. Asked in this order: what was said (ranges, unknown
// words, something left out), injuries and busy hands, then the hand's own reasons.
std::string why_not(const Machine& machine, const State& state, const Action& action);

// Carries out one action, or refuses it with an event. Entries and keys go into the panel and the finger
// timers.
void carry_out(Scene scene, const Action& action);

// Names that a text parameter takes on this machine, in the machine's order; empty when anything goes.
std::vector<std::string> names_of(const Machine& machine, const Parameter& parameter);
bool is_known(const Machine& machine, const Parameter& parameter, std::string_view word);

// "0.001 .. 60 kg", for messages and help; empty for parameters that are no numbers.
std::string range_words(const Parameter& parameter);
// What the hand takes, for messages: "ingredient, kg, degC"; "nothing".
std::string parameter_names(const Hand& hand);
// "\"degC\" is not a parameter of \"wipe_floor\"; it takes nothing"
std::string unknown_parameter(const Hand& hand, std::string_view parameter);

}  // namespace stirbench::hands
