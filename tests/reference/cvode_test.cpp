#include <doctest/doctest.h>

#include <algorithm>
#include <string>

#include "tests/reference/batch_run.h"
#include "tests/reference/report.h"

// Our step against CVODE at 1e-9 on the same fluxes, with the controller's scans each 0.1 s and the same
// switchings, compared at the beginning of every second.
using namespace stirbench;
using namespace stirbench::tests;

namespace {

const Source source =
    own_arithmetic("SUNDIALS CVODE (backward differentiation, Newton) at 1e-9 on our own equations",
                   "what our step may lose (choice): 0.05 K, 0.01 % of the water, 0.5 % of the "
                   "deposit");
constexpr const char* part = "Second integrator";
constexpr const char* names[] = {"element", "well wall", "well", "vat", "vat wall", "evaporator", "lid"};

// Every second is judged; the second of each node's largest difference goes into the report.
void compare(const RunPlan& plan) {
  const Samples ours = run_by_step(plan);
  const Samples exact = run_by_cvode(plan, ours.changes, 1.0e-9);
  REQUIRE(ours.each_second.size() == exact.each_second.size());
  const auto worst_second = [&](std::size_t i) {
    std::size_t worst = 0;
    const auto off = [&](std::size_t s) {
      return std::abs(ours.each_second[s][i] - exact.each_second[s][i]);
    };
    for (std::size_t s = 0; s < ours.each_second.size(); ++s)
      if (!(off(s) <= off(worst))) worst = s;
    return worst;
  };
  for (std::size_t i = element; i <= lid; ++i) {
    const std::size_t s = worst_second(i);
    reference_check(part,
                    at(plan.name + ": " + names[i] + ", worst of all seconds, degC,", static_cast<double>(s)),
                    ours.each_second[s][i], exact.each_second[s][i], absolute(0.05), source);
  }
  // What does not leave as vapour stays in both alike, so the water's difference is the product's.
  const std::size_t s = worst_second(water_kg);
  reference_check(part,
                  at(plan.name + ": water in the product, kg, worst of all seconds,", static_cast<double>(s)),
                  ours.each_second[s][water_kg], exact.each_second[s][water_kg], relative(1.0e-4), source);
  const Variables& last = ours.each_second.back();
  const Variables& exact_last = exact.each_second.back();
  const std::size_t deposits = deposit_kg_per_m2;
  reference_check(part, plan.name + ": deposit at the end, kg/m2", last[deposits], exact_last[deposits],
                  absolute(std::max(1.0e-9, 0.005 * exact_last[deposits])), source);
  // The controller in CVODE's run switches at the same scans, a few of them a tick off.
  CHECK(exact.scans_apart < 0.005 * plan.seconds * 10.0);
}

}  // namespace

TEST_CASE("a full batch under its controller: our step against CVODE") {
  const RunPlan batch = reference_runs()[0];
  compare(batch);
}

TEST_CASE("full heat with the agitator stopped: our step against CVODE") { compare(reference_runs()[1]); }

TEST_CASE("chilling from the compressor's start on: our step against CVODE") { compare(reference_runs()[2]); }

TEST_CASE("the batch goes through all its phases") {
  const RunPlan batch = reference_runs()[0];
  const Samples ours = run_by_step(batch);
  double hottest = 0.0;
  for (const Variables& y : ours.each_second) hottest = std::max(hottest, y[probe]);
  CHECK(hottest > 85.0);
  CHECK(ours.each_second.back()[probe] < 4.0);
  const auto count = [&](auto&& what) {
    return std::count_if(ours.changes.begin(), ours.changes.end(), what);
  };
  CHECK(count([](const Change& c) { return c.pours; }) == 1);
  CHECK(count([](const Change& c) { return c.lid_open; }) > 0);
  CHECK(count([](const Change& c) { return c.compressor_on; }) > 2);
}

TEST_CASE("half the tick, the same scans: no temperature of a batch moves by more than 0.02 K") {
  for (const RunPlan& plan : reference_runs()) {
    const Samples whole = run_by_step(plan);
    const Samples half = run_by_step(plan, 2, &whole.changes);
    const Difference d = difference(whole, half);
    CAPTURE(plan.name);
    CAPTURE(names[d.node]);
    CAPTURE(d.at_s);
    MESSAGE(plan.name << ": " << d.worst_K << " K by half the tick");
    CHECK(d.worst_K <= 0.02);
    CHECK(d.mass_norm <= 1.0e-4);
  }
}
