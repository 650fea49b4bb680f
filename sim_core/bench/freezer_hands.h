#pragma once

#include <string>
#include <string_view>

#include "sim_core/bench/machine.h"
#include "sim_core/bench/state.h"
#include "sim_core/bench/hands.h"

// What hands do at the batch freezer: inlet, lid, drain, selector, start and stop, gate, tub.
namespace stirbench::bench {

bool is_freezer_work(ActionKind kind);
std::string why_not_freezer(const plant::PlantState& plant, const Action& action);
// Returns what is seen by it, in words.
std::string do_freezer(const Machine& machine, plant::PlantState& plant, const Action& action);

// "freeze", "dasher", "keep"; -1 for another word.
int freezer_setting(std::string_view word);
std::string_view freezer_setting_word(plant::FreezerSetting setting);

}  // namespace stirbench::bench
