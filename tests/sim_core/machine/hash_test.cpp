#include <doctest/doctest.h>

#include <array>
#include <limits>
#include <set>
#include <string>
#include <tuple>
#include <type_traits>
#include <utility>
#include <vector>

#include "sim_core/machine/fields.h"
#include "sim_core/machine/random.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;

namespace {

// Changes the n-th field that is visited, in place, and keeps the way to it.
struct Flipper {
  std::size_t wanted;
  std::size_t at = 0;
  std::string path{};
  std::string found{};
  std::vector<std::string> before{};

  template <typename T>
  void operator()(const char* name, T& value, std::size_t index = alone) {
    if (at++ != wanted) return;
    if constexpr (std::is_same_v<T, bool>)
      value = !value;
    else if constexpr (std::is_enum_v<T>)
      value = static_cast<T>(static_cast<int>(value) ^ 1);
    else if constexpr (std::is_floating_point_v<T>)
      value = value * 1.0000000000000003 + 1.0e-300;
    else
      value = static_cast<T>(value ^ T{1});
    found = joined(path, name, index);
  }
  void enter(const char* name, std::size_t index) {
    before.push_back(path);
    path = joined(path, name, index);
  }
  void leave() {
    path = before.back();
    before.pop_back();
  }

  static std::string joined(const std::string& path, const std::string& name, std::size_t index) {
    const std::string place = index == alone ? "" : "[" + std::to_string(index) + "]";
    return path + (path.empty() || name.empty() ? "" : ".") + name + place;
  }
};

// The member's own identifier, as the compiler writes it in the name of this function: "... member =
// &Padlock::on; ...".
template <auto member>
std::string identifier() {
  const std::string text = __PRETTY_FUNCTION__;
  const std::size_t from = text.find("member = ");
  const std::string whole = text.substr(from, text.find_first_of(";]", from) - from);
  const std::string last = whole.substr(whole.rfind("::") + 2);
  return last.substr(0, last.find(')'));
}

template <typename S>
int check_names();

template <typename T>
int check_inside() {
  if constexpr (HasFields<T>)
    return check_names<T>();
  else if constexpr (machine::detail::IsArray<T>::value)
    return check_inside<typename T::value_type>();
  else
    return 0;
}

template <auto member>
int check_name(const char* name) {
  using S = decltype([]<typename C, typename T>(T C::*) { return C{}; }(member));
  if (*name != '\0') CHECK(name == identifier<member>());
  return 1 + check_inside<std::remove_cvref_t<decltype(std::declval<S&>().*member)>>();
}
template <auto member>
int check_of(const Field<member>& one) {
  return check_name<member>(one.name);
}
template <auto member, auto count>
int check_of(const CountedField<member, count>& one) {
  return check_name<member>(one.name);
}
template <auto member>
int check_of(const UnseenField<member>&) {
  return 0;
}

// Every name in the list of S, and in those of what S holds, is its member's; how many there are.
template <typename S>
int check_names() {
  return std::apply([](const auto&... each) { return (0 + ... + check_of(each)); }, Fields<S>::list);
}

struct Pair {
  double first = 0.0;
  std::array<int, 2> second{};
};
struct Forgetful {
  double first = 0.0;
  double second = 0.0;
};

State some_state() {
  StartSetup setup;
  setup.loaded = {{"whole_milk", 20.0, 5.0}};
  setup.recipe = "white_base";
  return initial_state(bench_test::small_kitchen_machine(), setup);
}

}  // namespace

namespace stirbench::machine {

template <>
struct Fields<Pair> {
  static constexpr auto list = std::tuple{field<&Pair::first>("first"), field<&Pair::second>("second")};
};
template <>
struct Fields<Forgetful> {
  static constexpr auto list = std::tuple{field<&Forgetful::first>("first")};
};

}  // namespace stirbench::machine

TEST_CASE("a list that leaves a member out is seen when it is compiled") {
  static_assert(lists_every_member<Pair>);
  static_assert(!lists_every_member<Forgetful>);
}

TEST_CASE("every name in the lists is the identifier of the member beside it") {
  CHECK(check_names<State>() > 350);
}

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
    if (flipper.found.empty()) break;
    CAPTURE(flipper.found);
    CHECK(state_hash(changed) != hash);
    CHECK(first_difference(before, changed) == flipper.found);
    names.insert(flipper.found);
    hashes.insert(state_hash(changed));
  }
  CHECK(count > 200);
  CHECK(hashes.size() == count);
  CHECK(names.size() == count);
  CHECK(names.contains("plant.pail.mass_kg[0]"));
  CHECK(names.contains("plant.pail.lethality_s"));
  CHECK(names.contains("plant.product.lethality_s"));
  CHECK(names.contains("control.key_down[5]"));
  CHECK(names.contains("random.word"));
  CHECK(names.contains("plant.assembly.items[3].wear"));
}

TEST_CASE("a field that is set is named, the ones beside it are not") {
  const State a = some_state();
  const auto difference = [&a](auto&& change) {
    State b = a;
    change(b);
    return first_difference(a, b);
  };
  CHECK(difference([](State& s) { s.lockout.yours.tag = true; }) == "lockout.yours.tag");
  CHECK(difference([](State& s) { s.lockout.colleagues.on = true; }) == "lockout.colleagues.on");
  CHECK(difference([](State& s) { s.plant.well_degC = 1.0; }) == "plant.well_degC");
  CHECK(difference([](State& s) { s.plant.vat_degC = 1.0; }) == "plant.vat_degC");
  CHECK(difference([](State& s) { s.plant.chiller.gauges.air_on_degC = 1.0; }) ==
        "plant.chiller.gauges.air_on_degC");
  CHECK(difference([](State& s) { s.control.alarms[2].latched = true; }) == "control.alarms[2].latched");
  CHECK(difference([](State& s) { s.harms[1].severity = 1.0; }) == "harms[1].severity");
  CHECK(difference([](State& s) { s.work.needless_parts_min = 1.0; }) == "work.needless_parts_min");
  // The index of the recipe is left out: its mark counts.
  CHECK(difference([](State& s) { s.control.recipe += 1; }) == "");
}

TEST_CASE("defects that only one of two states has") {
  const State a = some_state();
  State b = a;
  b.plant.circuit.gear.add({electrics::DefectKind::wire_Ohm, 4, 0, 1.0e12});
  b.plant.circuit.gear.add({electrics::DefectKind::wire_Ohm, 5, 0, 1.0e12});
  CHECK(state_hash(a) != state_hash(b));
  CHECK(first_difference(a, b) == "plant.circuit.gear.defects[0].kind");
  CHECK(first_difference(b, a) == "plant.circuit.gear.defect_count");
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
