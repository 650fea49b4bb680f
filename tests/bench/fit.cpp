#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>
#include <thread>

#include "app/library/library.h"
#include "tests/support/batch_logs.h"

// How often do the stated 95 % intervals of a fit hold the true values?   bench_fit [DRAWS] [THREADS] [FIRST]
// Each draw is another machine (power, losses, chiller, condensing side, lag of the probe), another start
// temperature, and a log of its own noise: 0.1 or 0.5 K in turn, a sample each 10 s, rounded to 0.1 K. One
// log in three states the power, and the moments of switching are read from it; one comes with the actions
// and a clock that is off by up to two minutes; one has times and temperatures alone. What the fit itself
// calls not identifiable is true to the file there and not counted.
using namespace stirbench;
using namespace stirbench::batch_logs;

namespace {

struct Count {
  int inside = 0;
  int asked = 0;
  double width = 0.0;  // half the interval over the value
};
struct Outcome {
  std::map<std::string, Count> counts;
  int fitted = 0;
  int objected = 0;
  int evaluations = 0;
};

enum class Told : unsigned char { power, actions, curve };
constexpr const char* told_words[] = {" with power", " with actions", " curve alone"};

double between(machine::Random& random, double low, double high) {
  return low + (high - low) * random.uniform();
}

// Of the log against the machine that wrote it: a search that ends above this has not found the least.
double rms_of(const Trial& truth, const BatchLog& log) {
  const Curves curves = run(truth.machine, truth.course);
  double squares = 0.0;
  for (const LogSample& sample : log.samples)
    squares += std::pow(at(curves.product_degC, sample.t_s - truth.clock_s) - sample.product_degC, 2);
  return std::sqrt(squares / static_cast<double>(log.samples.size()));
}

Outcome one_draw(const machine::Machine& file, std::uint64_t draw) {
  machine::Random random{0xf17ULL + 7919ULL * draw};
  const Told told = static_cast<Told>(draw % 3);
  const bool by_actions = told == Told::actions;
  const double sigma_K = draw % 6 < 3 ? 0.1 : 0.5;
  Plan plan;
  plan.start_degC = between(random, 4.0, 10.0);
  plan.heat_s = 60.0 + std::floor(between(random, 0.0, 60.0));
  const Logger logger{sigma_K, 0.1, by_actions ? std::floor(between(random, -120.0, 120.0)) : 0.0,
                      told == Told::power};

  // What the fit may leave out has to be as the file says.
  Trial truth{file, course_of(plan), logger.clock_s};
  if (by_actions) {
    truth.course.actions = actions_of(plan);
    truth.course.start.loaded.clear();
    truth.course.spells.clear();
  }
  FitRequest request{file, truth.course, {}, true, false, by_actions, false, {}};
  const auto vary = [&](Quantity quantity, double low, double high) {
    set_value(truth, quantity, between(random, low, high) * value(truth, quantity));
  };
  vary(Quantity::element_power, 0.9, 1.05);
  vary(Quantity::losses, 0.6, 1.6);
  vary(Quantity::chiller, 0.85, 1.15);
  vary(Quantity::probe_lag, 2.0, 6.0);
  request.log = log_of(truth.machine, truth.course, plan, logger, random.next());
  set_start_degC(request.course, 8.0);
  if (!by_actions) request.course.spells.clear();

  Outcome out;
  const Fit found = fit(request);
  out.evaluations = found.evaluations;
  if (!found.done) return out;
  out.fitted = 1;
  out.objected = found.objections.empty() ? 0 : 1;
  if (std::getenv("FIT_MISSES") != nullptr) {
    for (const NotFound& one : found.not_found)
      std::printf("draw %llu leaves out %s: %s\n", static_cast<unsigned long long>(draw),
                  std::string(entry(one.quantity).id).c_str(), one.why.c_str());
    for (const Objection& one : found.objections)
      std::printf("draw %llu objects: %s\n", static_cast<unsigned long long>(draw), one.words.c_str());
    std::printf("draw %llu rms %.5f, of the true machine %.5f, noise %.3f rho %.2f runs %d\n",
                static_cast<unsigned long long>(draw), found.residuals.rms_K, rms_of(truth, found.log),
                found.residuals.noise_K, found.residuals.rho, found.evaluations);
  }
  for (const Found& one : found.found) {
    const double true_value = value(truth, one.quantity);
    const bool inside = one.low <= true_value && true_value <= one.high;
    const std::string id(entry(one.quantity).id);
    char sigma[16];
    std::snprintf(sigma, sizeof sigma, " %.1f K", sigma_K);
    for (const std::string& key : {id, id + sigma, std::string("all"), std::string("all") + sigma,
                                   std::string("all") + told_words[draw % 3]}) {
      Count& count = out.counts[key];
      ++count.asked;
      count.inside += inside ? 1 : 0;
      count.width += 0.5 * (one.high - one.low) / std::max(1.0, std::abs(true_value));
    }
    if (!inside && std::getenv("FIT_MISSES") != nullptr)
      std::printf("draw %llu %s: true %.5g, found %.5g, %.5g .. %.5g\n",
                  static_cast<unsigned long long>(draw), id.c_str(), true_value, one.value, one.low,
                  one.high);
  }
  return out;
}

void add(Outcome& all, const Outcome& one) {
  all.fitted += one.fitted;
  all.objected += one.objected;
  all.evaluations += one.evaluations;
  for (const auto& [key, count] : one.counts) {
    all.counts[key].inside += count.inside;
    all.counts[key].asked += count.asked;
    all.counts[key].width += count.width;
  }
}

}  // namespace

int main(int argc, char** argv) {
  const auto number = [&](int i, int otherwise) { return argc > i ? std::atoi(argv[i]) : otherwise; };
  std::setvbuf(stdout, nullptr, _IOLBF, 0);
  const int draws = number(1, 40);
  const int threads = std::max(1, number(2, 1));
  const int first = number(3, 0);
  const library::LoadResult loaded = library::load(std::string(STIRBENCH_SOURCE_DIR) + "/content", "");
  if (!loaded.problems.empty()) {
    std::fprintf(stderr, "%s\n", loaded.problems.front().text().c_str());
    return 2;
  }
  const machine::Machine file = loaded.library.machine("hm-45");
  const auto began = std::chrono::steady_clock::now();
  std::vector<Outcome> outcomes(static_cast<std::size_t>(threads));
  std::vector<std::thread> workers;
  for (int t = 0; t < threads; ++t) {
    workers.emplace_back([&, t] {
      for (int draw = t; draw < draws; draw += threads)
        add(outcomes[static_cast<std::size_t>(t)], one_draw(file, static_cast<std::uint64_t>(first + draw)));
    });
  }
  for (std::thread& worker : workers) worker.join();
  Outcome all;
  for (const Outcome& one : outcomes) add(all, one);
  const double s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  std::printf("draws %d, fitted %d, called a wrong log %d; %.0f runs of the machine a fit, %.2f s a fit\n",
              draws, all.fitted, all.objected, static_cast<double>(all.evaluations) / std::max(1, draws),
              s * threads / std::max(1, draws));
  for (const auto& [key, count] : all.counts)
    std::printf("%-22s %5d of %5d inside their 95 %% interval: %5.1f %%   half width %.2g %% of the value\n",
                key.c_str(), count.inside, count.asked, 100.0 * count.inside / std::max(1, count.asked),
                100.0 * count.width / std::max(1, count.asked));
  return 0;
}
