#include "sim_core/identification/fit.h"

#include <doctest/doctest.h>

#include <cmath>

#include "sim_core/identification/causes.h"
#include "sim_core/identification/words.h"
#include "tests/sim_core/bench/machine_fixture.h"
#include "tests/support/batch_logs.h"

namespace {

using namespace stirbench;
using namespace stirbench::batch_logs;

// Half a load, so that the runs are short: a simulated hour.
Plan short_batch() {
  Plan plan;
  plan.kg = 20.0;
  plan.off_s = 1000.0;
  plan.chill_s = 1300.0;
  plan.until_s = 3000.0;
  return plan;
}

FitRequest request_of(const machine::Machine& machine, const Plan& plan) {
  FitRequest out;
  out.machine = machine;
  out.course = course_of(plan);
  out.course.start.loaded.clear();
  out.course.spells.clear();
  out.course.actions = actions_of(plan);
  out.mass_known = true;
  out.profiles = false;
  return out;
}

const Found* found_of(const Fit& fit, Quantity quantity) {
  for (const Found& one : fit.found)
    if (one.quantity == quantity) return &one;
  return nullptr;
}

bool has(const Fit& fit, Misfit misfit) {
  for (const Objection& one : fit.objections)
    if (one.misfit == misfit) return true;
  return false;
}

}  // namespace

TEST_CASE("true values lie in the stated 95 % intervals: a small sample, noise of 0.1 and 0.5 K") {
  const machine::Machine file = bench_test::small_kitchen_machine();
  const Plan plan = short_batch();
  int inside = 0, asked = 0, objected = 0;
  for (std::uint64_t draw = 0; draw < 12; ++draw) {
    machine::Random random{0x5eedULL + draw};
    FitRequest request = request_of(file, plan);
    Trial truth{file, request.course, 0.0};
    const auto vary = [&](Quantity quantity, double low, double high) {
      set_value(truth, quantity, (low + (high - low) * random.uniform()) * value(truth, quantity));
    };
    vary(Quantity::element_power, 0.9, 1.05);
    vary(Quantity::chiller, 0.85, 1.15);
    vary(Quantity::probe_lag, 2.0, 6.0);
    // What half an hour cannot tell is held here, and true.
    request.held = {Quantity::losses};
    request.log = log_of(truth.machine, truth.course, plan, {draw % 2 == 0 ? 0.1 : 0.5, 0.1}, random.next());
    const Fit found = fit(request);
    REQUIRE(found.done);
    objected += found.objections.empty() ? 0 : 1;
    for (const Found& one : found.found) {
      const double true_value = value(truth, one.quantity);
      ++asked;
      inside += one.low <= true_value && true_value <= one.high ? 1 : 0;
    }
  }
  CAPTURE(inside);
  CAPTURE(asked);
  CHECK(asked >= 48);
  // Of 48 intervals of 95 % fewer than 41 hold the true value once in a thousand times.
  CHECK(inside >= asked - 7);
  CHECK(objected == 0);
}

TEST_CASE("a measured power gives the mass, and neither measured is said plainly") {
  const machine::Machine file = bench_test::small_kitchen_machine();
  const Plan plan = short_batch();
  FitRequest request = request_of(file, plan);
  request.held = {Quantity::losses};
  request.log = log_of(file, request.course, plan, {0.1, 0.0}, 5);
  request.mass_known = false;
  request.power_known = true;
  scale_mass(request.course, 0.9);
  const Fit by_power = fit(request);
  REQUIRE(found_of(by_power, Quantity::mass) != nullptr);
  CHECK(found_of(by_power, Quantity::mass)->low < 20.0);
  CHECK(found_of(by_power, Quantity::mass)->high > 20.0);
  CHECK(found_of(by_power, Quantity::element_power) == nullptr);
  request.power_known = false;
  CHECK(identifiability_words(request, by_power).front().find("only their ratio") != std::string::npos);
}

TEST_CASE("deposit and condensing side are called unknown without a sensor that sees them") {
  const machine::Machine file = bench_test::small_kitchen_machine();
  const Plan plan = short_batch();
  FitRequest request = request_of(file, plan);
  request.log = log_of(file, request.course, plan, {0.1, 0.1}, 6);
  const Fit found = fit(request);
  REQUIRE(found.done);
  CHECK(found_of(found, Quantity::wall_scale) == nullptr);
  CHECK(found_of(found, Quantity::condenser) == nullptr);
  CHECK(found_of(found, Quantity::chiller) != nullptr);
}

TEST_CASE("a wrong log is recognised: other machine, element open") {
  const machine::Machine file = bench_test::small_kitchen_machine();
  const Plan plan = short_batch();
  FitRequest request = request_of(file, plan);
  SUBCASE("a smaller machine") {
    Trial other{file, request.course, 0.0};
    set_value(other, Quantity::element_power, 3000.0);
    set_value(other, Quantity::chiller, 0.5 * value(other, Quantity::chiller));
    request.log = log_of(other.machine, other.course, plan, {0.1, 0.1}, 8);
    const Fit found = fit(request);
    REQUIRE(found.done);
    CHECK(has(found, Misfit::implausible));
  }
  SUBCASE("a curve that no machine of this kind makes") {
    request.log = log_of(file, request.course, plan, {0.1, 0.1}, 9);
    // A ten-minute plateau in the middle of heating, as when the supply fails.
    for (LogSample& one : request.log.samples)
      if (one.t_s > 500.0) one.product_degC -= std::min(8.0, 0.02 * (one.t_s - 500.0));
    const Fit found = fit(request);
    REQUIRE(found.done);
    CHECK(has(found, Misfit::residuals));
  }
}

TEST_CASE("two batches in one log are found, one batch with a cold addition is not") {
  BatchLog log;
  const auto go_to = [&](double degC, double seconds) {
    const double from = log.samples.empty() ? 8.0 : log.samples.back().product_degC;
    const double begin = log.samples.empty() ? 0.0 : log.samples.back().t_s;
    for (double t = 10.0; t <= seconds; t += 10.0)
      log.samples.push_back({begin + t, from + (degC - from) * t / seconds});
  };
  go_to(42.0, 1000.0);
  go_to(33.0, 60.0);  // sugar and cream
  go_to(85.0, 1500.0);
  go_to(4.0, 4000.0);
  CHECK(second_batch_s(log) < 0.0);
  const double end_s = log.end_s();
  go_to(60.0, 1500.0);
  CHECK(second_batch_s(log) == doctest::Approx(end_s).epsilon(0.01));
}

TEST_CASE("a curve that bends before its end is one of a controller that tapers, a straight one is not") {
  for (const double last_share : {1.0, 0.9, 0.6}) {
    CAPTURE(last_share);
    BatchLog log;
    const double K_per_s = 0.035;
    double degC = 10.0;
    const auto go_on = [&](double slope, double seconds) {
      for (double s = 0.0; s < seconds; s += 10.0, degC += 10.0 * slope)
        log.samples.push_back({log.samples.empty() ? 0.0 : log.samples.back().t_s + 10.0, degC});
    };
    go_on(K_per_s, 1600.0);
    go_on(last_share * K_per_s, 500.0);
    const double end_degC = degC;
    go_on(-0.0005, 900.0);
    const Spells spells = spells_of(log, thresholds_of(bench_test::small_kitchen_machine(), 40.0));
    REQUIRE(spells.spells.size() >= 2);
    // The beginning is level, if only for a moment.
    CHECK(spells.spells.front().doing == Doing::stir);
    const Spell& heating = spells.spells[1];
    REQUIRE(heating.doing == Doing::heat);
    CHECK(heating.tapers == (last_share < 0.8));
    if (!heating.tapers) continue;
    CHECK(heating.end_K_per_s == doctest::Approx(last_share * K_per_s).epsilon(0.1));
    CHECK(heating.end_degC == doctest::Approx(end_degC).epsilon(0.03));
  }
}

TEST_CASE("switchings are read from power and from the curve") {
  const machine::Machine file = bench_test::small_kitchen_machine();
  const Plan plan = short_batch();
  for (const bool power : {true, false}) {
    CAPTURE(power);
    const BatchLog log = log_of(file, course_of(plan), plan, {0.1, 0.1, 0.0, power}, 3);
    const Spells spells = spells_of(log, thresholds_of(file, plan.kg));
    CHECK(spells.from == (power ? SpellsFrom::power : SpellsFrom::curve));
    std::vector<double> switched;
    for (const Spell& one : spells.spells)
      if (one.doing == Doing::heat || one.doing == Doing::chill) switched.push_back(one.from_s);
    REQUIRE(switched.size() == 2);
    CHECK(std::abs(switched[0] - plan.heat_s) <= spells.doubt_s);
    CHECK(std::abs(switched[1] - plan.chill_s) <= spells.doubt_s);
  }
}

TEST_CASE("a log of times and temperatures alone, begun while the probe was still warm, is this machine's") {
  const machine::Machine file = bench_test::small_kitchen_machine();
  const Plan plan = short_batch();
  FitRequest request = request_of(file, plan);
  request.log = log_of(file, request.course, plan, {0.1, 0.1}, 7);
  request.course.actions.clear();
  request.course.start.loaded = {{plan.ingredient, plan.kg, request.log.samples.front().product_degC}};
  const Fit found = fit(request);
  REQUIRE(found.done);
  CHECK(found.spells.from == SpellsFrom::curve);
  REQUIRE(found.spells.spells.size() >= 2);
  CHECK(found.spells.spells.front().doing == Doing::heat);
  CHECK(found.spells.spells.back().doing == Doing::chill);
  // The samples of the settling probe are left out.
  CHECK(found.log.samples.front().t_s > 60.0);
  CHECK(found.objections.empty());
  const Found* power = found_of(found, Quantity::element_power);
  REQUIRE(power != nullptr);
  CHECK(power->value == doctest::Approx(power->before).epsilon(0.03));
}

TEST_CASE("spells bring about what they say, whatever went before: chilled, heated and chilled again") {
  const machine::Machine file = bench_test::small_kitchen_machine();
  Course course;
  course.start.loaded = {{"whole_milk", 20.0, 20.0}};
  course.spells = {{0.0, Doing::chill}, {120.0, Doing::heat}, {900.0, Doing::chill}};
  course.until_s = 2400.0;
  const Curves curves = run(file, course);
  REQUIRE(curves.whole);
  CHECK(at(curves.product_degC, 120.0) < 20.0);
  CHECK(at(curves.product_degC, 900.0) > 40.0);
  CHECK(at(curves.product_degC, 2400.0) < at(curves.product_degC, 900.0) - 10.0);
}
