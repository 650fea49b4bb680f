#include <doctest/doctest.h>

#include <atomic>
#include <cstdlib>
#include <new>
#include <type_traits>

#include "tests/sim_core/plant/machine.h"

// Cost and memory do not grow with the time that has passed. Timing itself is measured by bench_speed.
namespace {

std::atomic<long> allocations{0};

}  // namespace

// Kept out of line: inlined, the compiler sees free() meet a pointer from operator new and takes it for a
// mistake.
[[gnu::noinline]] void* operator new(std::size_t size) {
  ++allocations;
  if (void* p = std::malloc(size)) return p;
  throw std::bad_alloc();
}
[[gnu::noinline]] void operator delete(void* p) noexcept { std::free(p); }
[[gnu::noinline]] void operator delete(void* p, std::size_t) noexcept { std::free(p); }

using namespace stirbench;
using namespace stirbench::tests;
using namespace stirbench::plant;

static_assert(std::is_trivially_copyable_v<PlantState>, "a copy is a save point");

TEST_CASE("a long run allocates nothing") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 40.0, 8.0);
  const long before = allocations;
  rig.run(heat_and_stir, 1800.0);
  rig.state.fittings.lid_open = true;
  rig.run(heat_only, 120.0);
  rig.state.fittings.lid_open = false;
  rig.run(chill_and_stir, 3600.0);
  rig.state.fittings.draw_opening_norm = 0.3;
  rig.run(stir_only, 300.0);
  CHECK(allocations == before);
  ::operator delete(::operator new(1));  // the counter counts; a new-expression might be optimised away
  CHECK(allocations == before + 1);
}

TEST_CASE("refreshes of an hour: none more in the tenth hour than in the second") {
  Rig rig(hm45_spec());
  rig.pour(white_base(), 40.0, 4.0);
  const auto refreshes_of_an_hour = [&rig] {
    int count = 0;
    for (int tick = 0; tick < 36000; ++tick) {
      step(rig.spec, rig.state, stir_only, 0.1);
      if (rig.state.pace.coefficients_age_s < 0.15) ++count;
    }
    return count;
  };
  refreshes_of_an_hour();
  const int second = refreshes_of_an_hour();
  for (int hour = 3; hour < 10; ++hour) refreshes_of_an_hour();
  const int tenth = refreshes_of_an_hour();
  MESSAGE(second << " in the second hour, " << tenth << " in the tenth");
  CHECK(second >= 360);
  CHECK(tenth <= second);
}
