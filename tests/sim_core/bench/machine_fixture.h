#pragma once

#include "sim_core/bench/machine.h"
#include "sim_core/bench/step.h"

// The invented HM-45 built in code, so that these tests need no content files.
namespace stirbench::bench_test {

bench::Machine small_kitchen_machine();

// Actions in short.
bench::Action hand(bench::ActionKind kind);
bench::Action press(const char* key, double held_s = 0.3);
bench::Action pour(const char* ingredient, double kg, double degC);
bench::Action choose(const char* recipe);
bench::Action valve(double opening_norm);

}  // namespace stirbench::bench_test
