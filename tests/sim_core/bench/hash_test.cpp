#include <doctest/doctest.h>

#include <limits>
#include <set>
#include <string>
#include <type_traits>
#include <vector>

#include "sim_core/bench/fields.h"
#include "sim_core/bench/random.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::bench;

namespace {

// Changes the n-th field that is visited, in place. The visit hands out the fields of a State that is not const itself.
struct Flipper {
  std::size_t wanted;
  std::size_t at = 0;
  bool done = false;

  template <typename T>
  void operator()(const char*, const T& value, std::size_t = 0) {
    if (at++ != wanted) return;
    T& field = const_cast<T&>(value);
    if constexpr (std::is_same_v<T, bool>) field = !field;
    else if constexpr (std::is_enum_v<T>) field = static_cast<T>(static_cast<int>(field) ^ 1);
    else if constexpr (std::is_floating_point_v<T>) field = field * 1.0000000000000003 + 1.0e-300;
    else field = static_cast<T>(field ^ T{1});
    done = true;
  }
  void enter(const char*) {}
  void leave() {}
};

State some_state() {
  StartSetup setup;
  setup.loaded = {{"whole_milk", 20.0, 5.0}};
  setup.recipe = "white_base";
  return initial_state(bench_test::small_kitchen_machine(), setup);
}

}  // namespace

TEST_CASE("every single field is in the hash and has a name of its own") {
  const State before = some_state();
  const std::uint64_t hash = state_hash(before);
  std::set<std::string> names;
  std::set<std::uint64_t> hashes;
  std::size_t count = 0;
  for (;; ++count) {
    State changed = before;
    Flipper flipper{count};
    visit(flipper, changed);
    if (!flipper.done) break;
    CAPTURE(count);
    CHECK(state_hash(changed) != hash);
    const std::string name = first_difference(before, changed);
    CHECK(name != "");
    names.insert(name);
    hashes.insert(state_hash(changed));
  }
  CHECK(count > 200);
  CHECK(hashes.size() == count);
  // Alarms, harms, steps and things are lists of the same struct; all other names differ.
  CHECK(names.size() >= count - control::alarm_count * 8 - harm_count * 3 - lockout_step_count * 3 -
                            plant::item_count * 9);
  CHECK(names.contains("plant.pail.mass_kg[0]"));
  CHECK(names.contains("plant.pail.lethality_s"));
  CHECK(names.contains("plant.product.lethality_s"));
  CHECK(names.contains("control.key_down[5]"));
  CHECK(names.contains("random.word"));
}

TEST_CASE("equal states, equal hashes: sign of zero, kind of NaN and padding do not count") {
  State a = some_state();
  State b = a;
  CHECK(state_hash(a) == state_hash(b));
  CHECK(first_difference(a, b) == "");
  a.plant.floor_kg = 0.0;
  b.plant.floor_kg = -0.0;
  CHECK(state_hash(a) == state_hash(b));
  a.plant.floor_kg = std::numeric_limits<double>::quiet_NaN();
  b.plant.floor_kg = -std::numeric_limits<double>::quiet_NaN();
  CHECK(state_hash(a) == state_hash(b));
  CHECK(first_difference(a, b) == "");
  b.plant.floor_kg = 0.0;
  CHECK(state_hash(a) != state_hash(b));
  CHECK(first_difference(a, b) == "plant.floor_kg");
}

TEST_CASE("the first difference is the first in the order of the state") {
  const State a = some_state();
  State b = a;
  b.sample_degC = 5.0;
  b.plant.pail.mass_kg[product::Component::milk_fat] = 1.0;
  CHECK(first_difference(a, b) == "plant.pail.mass_kg[1]");
}

TEST_CASE("splitmix64 gives its published stream") {
  // Reference values of the generator from seed 0; doubles are the upper 53 bits times 2^-53.
  Random random{0};
  CHECK(random.next() == 0xe220a8397b1dcdafULL);
  CHECK(random.next() == 0x6e789e6aa1b965f4ULL);
  Random again{0};
  CHECK(again.uniform() == static_cast<double>(0xe220a8397b1dcdafULL >> 11) / 9007199254740992.0);
  for (int i = 0; i < 100000; ++i) {
    const double u = again.uniform();
    REQUIRE((u >= 0.0 && u < 1.0));
  }
}
