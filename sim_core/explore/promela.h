#pragma once

#include <span>
#include <string>
#include <string_view>

// The controller's stopping and starting as an independent Promela model, written by hand rule by rule, so
// that another program (spin) can check some of the invariants by a search of its own. It covers lid, shaft
// cover, emergency stop, overload, supply, the keys Stop and Stir, and the drive; its rules have the names of
// control/interlock_rules.h, its assertions those of bench/invariants.h.
namespace stirbench::explore {

// The model; `left_out` names a rule to leave out, as a violation to be found. Empty text when the model has
// no such rule.
std::string promela_model(std::string_view left_out = {});

std::span<const std::string_view> promela_rules();       // rules that can be left out
std::span<const std::string_view> promela_invariants();  // invariants that it asserts

}  // namespace stirbench::explore
