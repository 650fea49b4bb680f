#pragma once

#include <span>
#include <string>
#include <string_view>

// The controller's stopping and starting once more, as a Promela model: written by hand rule by rule, so that another program (spin) can
// judge a sample of the invariants by a search of its own. It holds lid, shaft cover, emergency stop, overload, supply, the keys Stop and
// Stir and the drive; the rules have the names of control/rules.h, the assertions those of bench/invariants.h.
namespace stirbench::bench {

// The model; `left_out` names a rule to leave out, as a violation to be found. Empty text when the model has no such rule.
std::string promela_model(std::string_view left_out = {});

std::span<const std::string_view> promela_rules();        // rules that can be left out
std::span<const std::string_view> promela_invariants();   // invariants that it asserts

}  // namespace stirbench::bench
