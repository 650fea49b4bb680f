#include <doctest/doctest.h>

#include <stdexcept>

#include "sim_core/diagnosis/levers.h"
#include "sim_core/diagnosis/part_reader.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::diagnosis;

namespace {

struct Shop {
  bench::Machine machine = bench_test::small_kitchen_machine();
  Model model;
  std::vector<Protocol> protocols;
  PartReader parts{machine};
  LeverFaults faults{{{"open", {{"elements.working", 2.0, 2.0}}}, {"worn", {{"agitator_bushing.play_mm", 0.5, 1.5}}}, {"sealed", {{"fittings.lid_open", 1.0, 1.0}}}}};

  Shop() {
    for (const char* id : {"open", "worn", "sealed"}) {
      Cause cause;
      cause.id = id;
      model.causes.push_back(cause);
    }
    const auto check = [this](const char* id, const char* signal) {
      Check one;
      one.id = id;
      one.reading = {"warming", 0.0, signal, 0.0, 0.0};
      one.outcomes = {{"low", "", -1.0e300, 0.5}, {"high", "", 0.5, 1.0e300}};
      model.checks.push_back(one);
    };
    for (const char* signal : {"mean:heaters_W", "part:elements_working", "agitator_play_mm", "lid_open", "when:heaters_W>1000", "rise:time_s", "max:motor_A", "min:motor_A"})
      check(signal, signal);
    Protocol protocol{"warming", "Heat pressed", {}, {{0.5, "", 0.0, bench_test::press("heat")}}, 30.0};
    protocol.start.loaded = {{"water", 30.0, 20.0}};
    protocols.push_back(protocol);
  }
  std::vector<double> read(std::size_t cause, double severity) const {
    MachineDraw draw;
    draw.cause = cause;
    draw.severity = severity;
    return read_all(machine, model, protocols, faults, draw, &parts);
  }
};

}  // namespace

TEST_CASE("faults change what is read, and only that") {
  const Shop shop;
  const std::vector<double> good = shop.read(Model::npos, 0.0);
  const std::vector<double> open = shop.read(0, 0.5);
  CHECK(open[0] == doctest::Approx(good[0] * 2.0 / shop.machine.plant.elements.count).epsilon(0.01));
  CHECK(open[1] == 2.0);
  CHECK(good[1] == shop.machine.plant.elements.count);
  CHECK(shop.read(1, 0.0)[2] == doctest::Approx(good[2] + 0.5).epsilon(0.01));
  CHECK(shop.read(1, 1.0)[2] == doctest::Approx(good[2] + 1.5).epsilon(0.01));
  const std::vector<double> lid = shop.read(2, 0.0);
  CHECK(lid[3] == 1.0);
  CHECK(lid[0] == 0.0);
  CHECK(lid[4] == 1.0e9);
  CHECK(good[4] < 5.0);
  CHECK(good[5] == doctest::Approx(29.0));
  CHECK(good[6] >= good[7]);
}

TEST_CASE("answers: the same draw gives the same, errors come from its seed alone") {
  Shop shop;
  shop.model.checks[2].reading.error_abs = 0.5;
  const MachineDraw draw = draw_machine(1, 0.0, 1.0, 42);
  CHECK(answer_all(shop.machine, shop.model, shop.protocols, shop.faults, draw, &shop.parts) ==
        answer_all(shop.machine, shop.model, shop.protocols, shop.faults, draw, &shop.parts));
  CHECK(draw.ambient_degC >= 16.0);
  CHECK(draw.ambient_degC <= 32.0);
  int high = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    MachineDraw one = draw_machine(1, 0.0, 0.0, seed);
    high += answer_all(shop.machine, shop.model, shop.protocols, shop.faults, one, &shop.parts)[2] == 1 ? 1 : 0;
  }
  // A play of 0.5 mm at the threshold with an error of 0.5 mm: sometimes one answer, sometimes the other.
  CHECK(high > 0);
  CHECK(high < 12);
}

TEST_CASE("readings and effects that cannot be are refused") {
  const Shop shop;
  CHECK_NOTHROW(check_reading({"warming", 0.0, "max:motor_A", 0.0, 0.0}, shop.protocols, nullptr));
  CHECK_THROWS_AS(check_reading({"warming", 0.0, "no_such", 0.0, 0.0}, shop.protocols, &shop.parts), std::invalid_argument);
  CHECK_THROWS_AS(check_reading({"warming", 0.0, "mode", 0.0, 0.0}, shop.protocols, &shop.parts), std::invalid_argument);
  CHECK_THROWS_AS(check_reading({"warming", 0.0, "when:motor_A>x", 0.0, 0.0}, shop.protocols, &shop.parts), std::invalid_argument);
  CHECK_THROWS_AS(check_reading({"nowhere", 0.0, "motor_A", 0.0, 0.0}, shop.protocols, &shop.parts), std::invalid_argument);
  CHECK_THROWS_AS(LeverFaults({{"x", {{"no.lever", 0.0, 1.0}}}}), std::invalid_argument);
  CHECK_THROWS_AS(LeverFaults({{"x", {{"chiller.fan_norm", 0.0, 9.0}}}}), std::invalid_argument);
}

TEST_CASE("every lever can be pulled at both ends of its range without harm to the model") {
  for (const Lever& lever : levers()) {
    CAPTURE(lever.name);
    CHECK((lever.before != nullptr) != (lever.after != nullptr));
    Shop shop;
    for (const double value : {lever.low, lever.high}) {
      const LeverFaults faults({{"open", {{std::string(lever.name), value, value}}}});
      MachineDraw draw;
      draw.cause = 0;
      std::vector<double> readings;
      // More than the vat holds cannot be put in; everything else runs.
      try {
        readings = read_all(shop.machine, shop.model, shop.protocols, faults, draw, &shop.parts);
      } catch (const std::invalid_argument&) {
        CHECK(lever.name == "load.amount_norm");
      }
      for (const double one : readings) CHECK(one == one);
    }
  }
}
