#include "sim_core/hands/part_states.h"

#include <doctest/doctest.h>

#include "sim_core/bench/step.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::bench_test;

namespace {

machine::State left(const char* part, const char* how) {
  machine::StartSetup setup;
  setup.parts = {{part, how}};
  machine::State state;
  CHECK(bench::build_start(small_kitchen_machine(), setup, state) == "");
  return state;
}

}  // namespace

TEST_CASE("what people move is found as somebody left it; its usual position changes nothing") {
  CHECK(left("lid", "open").plant.fittings.lid_open);
  CHECK(left("shaft_cover", "open").plant.fittings.shaft_cover_open);
  CHECK(left("draw_handle", "ajar").plant.fittings.draw_opening_norm > 0.0);
  CHECK_FALSE(left("isolator", "off").plant.fittings.isolator_on);
  CHECK(left("emergency_stop", "pressed").plant.safety.emergency_stop_in);
  const std::uint64_t usual = machine::state_hash(left("lid", "shut"));
  for (const auto& [part, how] : {std::pair{"shaft_cover", "shut"},
                                  {"draw_handle", "shut"},
                                  {"isolator", "on"},
                                  {"emergency_stop", "out"}})
    CHECK(machine::state_hash(left(part, how)) == usual);
}

TEST_CASE("a position that a part does not have is refused by name") {
  machine::State state = left("lid", "shut");
  CHECK(hands::set_part(small_kitchen_machine(), state, "isolator", "ajar") == "it can only be on or off");
  CHECK(hands::set_part(small_kitchen_machine(), state, "lid", "worn") == "it can only be shut or open");
  CHECK(hands::set_part(small_kitchen_machine(), state, "door", "open") == "there is no part \"door\"");
  CHECK(hands::set_part(small_kitchen_machine(), state, "lid", "lost") == "there is no state \"lost\"");
}
