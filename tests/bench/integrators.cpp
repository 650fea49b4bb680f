#include <algorithm>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <vector>

#include "sim_core/plant/plant.h"
#include "tests/reference/batch_run.h"

// Error against cost of our step and of CVODE at several tolerances: the same right-hand side, the same scans
// each 0.1 s, the same switchings and hands. Error: the largest of any node's temperature at any second,
// against CVODE at 1e-11. Cost: time on a core, scans included; the best of several rounds in turns, because
// other work on the machine comes and goes. Two ratios: our cost over CVODE's at our error, our error over
// CVODE's at our cost, both along straight lines between the table's rows in logarithms; below 1 is better
// than CVODE. And whether an hour costs the same after a long time.

using namespace stirbench;
using namespace stirbench::tests;

namespace {

constexpr double tolerances[] = {1.0e-3, 1.0e-4, 1.0e-5, 1.0e-6, 1.0e-7, 1.0e-8, 1.0e-9};

double core_s() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

template <typename Work>
double timed_s(int times, Work work) {
  const double began = core_s();
  for (int i = 0; i < times; ++i) work();
  return (core_s() - began) / times;
}

struct Row {
  double error_K = 0.0;
  double seconds = 1.0e9;
  long evaluations = 0;
};

// The value of `of` where `along` passes `at`, by logarithms; the nearest end outside.
double between(const std::vector<Row>& rows, double Row::*along, double Row::*of, double at) {
  for (std::size_t i = 0; i + 1 < rows.size(); ++i) {
    const double a = rows[i].*along, b = rows[i + 1].*along;
    if ((at - a) * (at - b) > 0.0) continue;
    const double share = a != b ? std::log(at / a) / std::log(b / a) : 0.0;
    return rows[i].*of * std::pow(rows[i + 1].*of / rows[i].*of, share);
  }
  const bool near_first =
      std::abs(std::log(at / (rows.front().*along))) < std::abs(std::log(at / (rows.back().*along)));
  return near_first ? rows.front().*of : rows.back().*of;
}

void compare(const RunPlan& plan) {
  const Samples ours = run_by_step(plan);
  const Samples exact = run_by_cvode(plan, ours.changes, 1.0e-11);
  Row step_row{difference(ours, exact).worst_K, 1.0e9, 0};
  std::vector<Row> rows(std::size(tolerances));
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Samples run = run_by_cvode(plan, ours.changes, tolerances[i]);
    rows[i].error_K = difference(run, exact).worst_K;
    rows[i].evaluations = run.evaluations;
  }
  const int times = std::max(1, static_cast<int>(14400.0 / plan.seconds));
  for (int round = 0; round < 7; ++round) {
    step_row.seconds = std::min(step_row.seconds, timed_s(times, [&] { run_by_step(plan); }));
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const double s = timed_s(times, [&] { run_by_cvode(plan, ours.changes, tolerances[i]); });
      rows[i].seconds = std::min(rows[i].seconds, s);
    }
  }
  const double ms_per_hour = 1.0e3 * 3600.0 / plan.seconds;
  std::printf("%-10s %-12s %12.6f %14.3f %12s\n", plan.name.c_str(), "step", step_row.error_K,
              step_row.seconds * ms_per_hour, "-");
  for (std::size_t i = 0; i < rows.size(); ++i)
    std::printf("%-10s CVODE %.0e  %12.6f %14.3f %12ld\n", plan.name.c_str(), tolerances[i], rows[i].error_K,
                rows[i].seconds * ms_per_hour, rows[i].evaluations);
  std::printf("%-10s cost over CVODE's at the same error %.2f, error over CVODE's at the same cost %.3f\n",
              plan.name.c_str(),
              step_row.seconds / between(rows, &Row::error_K, &Row::seconds, step_row.error_K),
              step_row.error_K / between(rows, &Row::seconds, &Row::error_K, step_row.seconds));
}

// A kept vat, stirred: the first hours against later ones.
void growth() {
  const RunPlan plan = reference_runs()[0];
  plant::PlantState s = plan.start;
  const auto hours = [&](int count) {
    return timed_s(1, [&] {
      for (int i = 0; i < 36000 * count; ++i) plant::step(plan.spec, s, {0.0, true, false}, 0.1);
    });
  };
  hours(1);
  const double first = hours(4);
  hours(40);
  const double later = hours(4);
  std::printf("four hours after 41 h over four after 1 h: %.2f; a state is %zu bytes\n", later / first,
              sizeof s);
}

}  // namespace

int main() {
  std::printf("%-10s %-12s %12s %14s %12s\n", "run", "method", "error_K", "ms_per_hour", "evaluations");
  for (const RunPlan& plan : reference_runs()) compare(plan);
  growth();
  return 0;
}
