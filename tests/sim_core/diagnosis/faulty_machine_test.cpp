#include <doctest/doctest.h>

#include <stdexcept>

#include "sim_core/diagnosis/faulty_machine.h"
#include "sim_core/diagnosis/part_reader.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::diagnosis;

namespace {

faults::Fault fault(const char* id, faults::FaultTarget target, double mild, double full) {
  faults::Fault out;
  out.id = id;
  out.changes = {{target, "", mild, full}};
  return out;
}

machine::Machine machine_with_faults() {
  machine::Machine machine = bench_test::small_kitchen_machine();
  machine.faults = {fault("half_load", faults::FaultTarget::pour_factor, 0.5, 0.5),
                    fault("sealed", faults::FaultTarget::lid_open, 1.0, 1.0),
                    fault("weak", faults::FaultTarget::supply_factor, 1.0, 0.8),
                    fault("worn", faults::FaultTarget::agitator_play_mm, 0.5, 1.5)};
  return machine;
}

struct Shop {
  machine::Machine machine = machine_with_faults();
  Model model;
  std::vector<Protocol> protocols;

  Shop() {
    model.causes = machine.faults;
    for (const char* signal : {"mean:heaters_W", "fill_L", "agitator_play_mm", "lid_open",
                               "when:heaters_W>1000", "rise:time_s", "max:motor_A", "min:motor_A",
                               "off(agitator_play_mm, lid_open)", "max:most(agitator_play_mm, lid_open)"}) {
      Check one;
      one.id = signal;
      one.reading = {"warming", 0.0, signal, 0.0, 0.0};
      one.outcomes = {{"low", "", -1.0e300, 0.5}, {"high", "", 0.5, 1.0e300}};
      model.checks.push_back(one);
    }
    Protocol protocol{"warming", "Heat pressed", {}, {{0.5, "", 0.0, bench_test::press("heat")}}, 30.0};
    protocol.start.loaded = {{"water", 30.0, 20.0}};
    protocols.push_back(protocol);
  }
  FaultyMachines machines() const { return FaultyMachines(machine, model, protocols); }
  std::vector<double> read(std::size_t cause, double severity, std::size_t also = Model::npos) const {
    RandomMachine draw;
    draw.cause = cause;
    draw.severity = severity;
    draw.also = also;
    return machines().read_all(draw);
  }
};

}  // namespace

TEST_CASE("faults change what is read, and only that") {
  const Shop shop;
  const std::vector<double> good = shop.read(Model::npos, 1.0);
  const std::vector<double> half = shop.read(0, 1.0);
  CHECK(half[1] == doctest::Approx(0.5 * good[1]).epsilon(0.01));
  // Power of a resistance goes with the square of the voltage.
  CHECK(shop.read(2, 1.0)[0] == doctest::Approx(0.64 * good[0]).epsilon(0.01));
  CHECK(shop.read(3, 0.01)[2] == doctest::Approx(good[2] + 0.51).epsilon(0.01));
  CHECK(shop.read(3, 1.0)[2] == doctest::Approx(good[2] + 1.5).epsilon(0.01));
  const std::vector<double> lid = shop.read(1, 1.0);
  CHECK(lid[3] == 1.0);
  CHECK(lid[0] == 0.0);
  CHECK(lid[4] == 1.0e9);
  CHECK(good[4] < 5.0);
  CHECK(good[5] == doctest::Approx(29.0));
  CHECK(good[6] >= good[7]);
  // Two at once: each shows its own.
  const std::vector<double> both = shop.read(1, 1.0, 3);
  CHECK(both[3] == 1.0);
  CHECK(both[2] == doctest::Approx(1.5).epsilon(0.01));
  CHECK(both[8] == doctest::Approx(0.5).epsilon(0.03));
  CHECK(both[9] == doctest::Approx(1.5).epsilon(0.01));
}

TEST_CASE("answers: the same draw gives the same, errors come from its seed alone") {
  Shop shop;
  shop.model.checks[2].reading.error_abs = 0.5;
  const FaultyMachines machines = shop.machines();
  const RandomMachine draw = random_machine(3, 0.01, 1.0, 42);
  CHECK(machines.answer_all(draw) == machines.answer_all(draw));
  CHECK(draw.ambient_degC >= 16.0);
  CHECK(draw.ambient_degC <= 32.0);
  int high = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed)
    high += machines.answer_all(random_machine(3, 0.001, 0.001, seed))[2] == 1 ? 1 : 0;
  // A play of 0.5 mm at the threshold with an error of 0.5 mm: sometimes one answer, sometimes the other.
  CHECK(high > 0);
  CHECK(high < 12);
}

TEST_CASE("of three readings the one out of line") {
  struct Row {
    double a, b, c, is;
  };
  // Worked by hand: currents of three elements in delta (53.3 Ohm a pair), one open, one line open, one left;
  // voltages of a lost line.
  for (const Row& row : {Row{8.7, 8.7, 8.6, 0}, Row{5.0, 5.0, 8.7, 3}, Row{8.7, 5.0, 5.0, 1},
                         Row{7.5, 0.0, 7.5, -2}, Row{5.0, 5.0, 0.0, -3}, Row{0.0, 400.0, 0.0, 2},
                         Row{0.0, 0.0, 0.0, 8}, Row{1.0, 2.0, 3.0, 9}, Row{1e9, 1e9, 25.0, -3}}) {
    CAPTURE(row.a);
    CAPTURE(row.b);
    CHECK(odd_one(row.a, row.b, row.c) == row.is);
  }
}

TEST_CASE("readings that cannot be are refused") {
  const Shop shop;
  const auto check = [&](const char* protocol, const char* signal) {
    check_reading(shop.machine, {protocol, 0.0, signal, 0.0, 0.0}, shop.protocols);
  };
  CHECK_NOTHROW(check("warming", "max:motor_A"));
  CHECK_NOTHROW(check("warming", "gauge:low_bar"));
  CHECK_NOTHROW(check("warming", "odd(motor_A, drive_W, part:dog_norm)"));
  for (const char* signal :
       {"no_such", "mode", "when:motor_A>x", "when:motor_A", "part:soul", "odd(motor_A, drive_W)",
        "mean of(motor_A)", "least(motor_A", "most()", "off(motor_A)", ""}) {
    CAPTURE(signal);
    CHECK_THROWS_AS(check("warming", signal), std::invalid_argument);
  }
  CHECK_THROWS_AS(check("nowhere", "motor_A"), std::invalid_argument);
  Shop unknown;
  unknown.model.causes[0].id = "no_such_fault";
  CHECK_THROWS_AS(unknown.machines(), std::invalid_argument);
}
