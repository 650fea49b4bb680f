#pragma once

#include "sim_core/bench/step.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/machine/machine.h"

// The invented HM-45 built in code, so that these tests need no content files.
namespace stirbench::bench_test {

machine::Machine small_kitchen_machine();

// Actions in short.
hands::Action press(const char* key, double held_s = 0.3);
hands::Action pour(const char* ingredient, double kg, double degC);
hands::Action choose(const char* recipe);
hands::Action valve(double opening_norm);

}  // namespace stirbench::bench_test
