#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>

#include "sim_core/plant/plant.h"
#include "tests/reference/machine_ode.h"
#include "tests/support/hm45_spec.h"

// Error against cost of our step and of CVODE at several tolerances, on the same fluxes. Error: the largest
// of the seven temperatures, at three moments of the run, against CVODE at 1e-11. Cost: time on a core for an
// hour of the machine. Both run freely: neither is stopped for control scans, which would cost CVODE a stop
// each tick and our step nothing.

using namespace stirbench;
using namespace stirbench::plant;
using namespace stirbench::tests;

namespace {

struct Job {
  const char* name;
  MachineOde ode;
  double spans_s[3];
};

double core_s() {
  return static_cast<double>(std::clock()) / CLOCKS_PER_SEC;
}

void run(const MachineSpec& m, PlantState& s, const Actuators& relays, double span_s, double tick_s) {
  for (long n = std::lround(span_s / tick_s); n > 0; --n) step(m, s, relays, tick_s);
}

PlantState with_mix(const MachineSpec& m, double t_degC) {
  PlantState s = initial_state(m, {});
  product::Ingredient mix;
  mix.fraction[product::Component::water] = 0.80;
  mix.fraction[product::Component::milk_protein] = 0.03;
  mix.fraction[product::Component::lactose] = 0.05;
  mix.fraction[product::Component::sucrose] = 0.12;
  pour(m, s, mix, 40.0, t_degC);
  run(m, s, {0.0, true, false}, 60.0, 0.1);
  return s;
}

// Best time of a few, each long enough for the clock.
template <typename Work>
double cost_s(Work work) {
  double best = 1.0e9;
  for (int round = 0; round < 3; ++round) {
    int times = 0;
    const double began = core_s();
    do {
      work();
      ++times;
    } while (core_s() - began < 0.1);
    best = std::min(best, (core_s() - began) / times);
  }
  return best;
}

double error_K(const Variables& a, const Variables& b) {
  double off = 0.0;
  for (std::size_t i = element; i <= lid; ++i) off = std::max(off, std::abs(a[i] - b[i]));
  return off;
}

void print_row(const Job& job, const char* method, double error, double seconds, long evaluations) {
  std::printf("%-22s %-16s %12.6f %14.3f %12ld\n", job.name, method, error,
              1.0e3 * seconds * 3600.0 / job.spans_s[2], evaluations);
}

void compare(const Job& job) {
  const Variables start = variables_of(job.ode.base);
  Variables exact[3];
  for (int i = 0; i < 3; ++i) exact[i] = solve_by_cvode(job.ode, start, job.spans_s[i], 1.0e-11).y;

  for (const double tick_s : {0.1, 0.05}) {
    double error = 0.0;
    for (int i = 0; i < 3; ++i) {
      PlantState s = job.ode.base;
      run(job.ode.spec, s, job.ode.relays, job.spans_s[i], tick_s);
      error = std::max(error, error_K(variables_of(s), exact[i]));
    }
    const double seconds = cost_s([&] {
      PlantState s = job.ode.base;
      run(job.ode.spec, s, job.ode.relays, job.spans_s[2], tick_s);
    });
    print_row(job, tick_s == 0.1 ? "step 0.1 s" : "step 0.05 s", error, seconds,
              std::lround(job.spans_s[2] / tick_s));
  }
  for (const double tolerance : {1.0e-3, 1.0e-4, 1.0e-5, 1.0e-6, 1.0e-9}) {
    double error = 0.0;
    for (int i = 0; i < 3; ++i)
      error = std::max(error, error_K(solve_by_cvode(job.ode, start, job.spans_s[i], tolerance).y, exact[i]));
    for (const double read_each_s : {0.1, 0.0}) {
      long evaluations = 0;
      const double seconds = cost_s([&] {
        evaluations = solve_by_cvode(job.ode, start, job.spans_s[2], tolerance, read_each_s).evaluations;
      });
      char method[32];
      std::snprintf(method, sizeof method, "CVODE %.0e %s", tolerance, read_each_s > 0.0 ? "read" : "free");
      print_row(job, method, error, seconds, evaluations);
    }
  }
}

}  // namespace

int main() {
  const MachineSpec m = tests::hm45_spec();
  PlantState stopped = with_mix(m, 40.0);
  run(m, stopped, {0.0, false, false}, 60.0, 0.1);
  PlantState hot = with_mix(m, 85.0);
  run(m, hot, {0.0, true, true}, 60.0, 0.1);
  std::printf("%-22s %-16s %12s %14s %12s\n", "run", "method", "error_K", "ms_per_hour", "evaluations");
  compare({"heating 35 min", {m, with_mix(m, 8.0), {1.0, true, false}}, {60.0, 600.0, 2100.0}});
  compare({"agitator stopped 150 s", {m, stopped, {1.0, false, false}}, {30.0, 60.0, 150.0}});
  compare({"chilling 60 min", {m, hot, {0.0, true, true}}, {60.0, 600.0, 3600.0}});
  return 0;
}
