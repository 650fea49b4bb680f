#include <algorithm>
#include <array>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <numeric>
#include <string>
#include <thread>
#include <vector>

#include "app/library/instruments.h"
#include "app/library/guide.h"
#include "sim_core/bench/random.h"
#include "sim_core/diagnosis/next_check.h"

// How good is the fault guide on machines that its tables have never seen?   bench_diagnosis [MACHINES] [THREADS]
// Broken machines are drawn by how often each cause happens, one of their symptoms is reported, and then the advice is followed with the
// answers of the simulated machine. Printed: true cause first and among the first three, Brier score and reliability, minutes to a working
// machine against a fixed order of checks, repairs by p/C without checks, and the bound below which no plan can be.
using namespace stirbench;
using namespace stirbench::diagnosis;

namespace {

struct Case {
  std::size_t cause = 0;
  std::vector<std::size_t> answers;
  std::size_t symptom = Model::npos;
};

struct Result {
  bool first = false, third = false, grouped = false;
  double said_p = 0.0, brier = 0.0;
  double guide_min = 0.0, book_min = 0.0, repair_min = 0.0, least_min = 0.0;
  std::size_t checks = 0;
  double slowest_ms = 0.0;
};

std::vector<Case> draw_cases(const library::Library& content, const library::Guide& guide, const Model& model, int machines, unsigned threads) {
  const bench::Machine machine = content.machine("hm-45");
  const LeverFaults faults(guide.effects);
  const auto instruments = library::instruments_of(content, "hm-45");
  double rates = 0.0;
  for (const Cause& cause : model.causes) rates += cause.per_year;
  std::vector<Case> cases(static_cast<std::size_t>(machines));
  const auto work = [&](std::size_t from) {
    for (std::size_t i = from; i < cases.size(); i += threads) {
      bench::Random random{0x5eed0000ULL + i};
      double u = random.uniform() * rates;
      std::size_t c = 0;
      while (c + 1 < model.causes.size() && u >= model.causes[c].per_year) u -= model.causes[c++].per_year;
      cases[i].cause = c;
      cases[i].answers = answer_all(machine, model, guide.protocols, faults, draw_machine(c, 0.0, 1.0, random.next()), instruments.get());
      std::vector<std::size_t> shown;
      for (std::size_t s = 0; s < model.symptoms.size(); ++s) {
        if (cases[i].answers[s] == 1) shown.push_back(s);
      }
      if (!shown.empty()) cases[i].symptom = shown[static_cast<std::size_t>(random.uniform() * static_cast<double>(shown.size()))];
    }
  };
  std::vector<std::thread> pool;
  for (unsigned t = 1; t < threads; ++t) pool.emplace_back(work, t);
  work(0);
  for (std::thread& one : pool) one.join();
  return cases;
}

// Minutes of repairs in this order until the true cause is met, service where the plan says so.
double repair_minutes(const Model& model, const Next& next, std::size_t truth) {
  double minutes = 0.0;
  for (const RepairAdvice& one : next.repairs) {
    if (!one.before_call) break;
    minutes += one.minutes;
    if (one.cause == truth) return minutes;
  }
  return minutes + model.service_min;
}

double check_minutes(const Model& model, const ConditionMatrix& change, Condition& condition, std::size_t question) {
  const Check& check = model.check(question);
  const double minutes = change[static_cast<std::size_t>(condition)][static_cast<std::size_t>(check.needs)] + check.minutes;
  condition = check.needs;
  return minutes;
}

// Checks in a fixed order, cheap and harmless ones first, until one cause is nearly certain.
double by_the_book(const Model& model, const Case& one, Who who) {
  std::vector<std::size_t> order;
  for (std::size_t q = model.symptoms.size(); q < model.question_count(); ++q) {
    if (may_do(who, model.check(q).who)) order.push_back(q);
  }
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return std::pair(model.check(a).needs, model.check(a).minutes) < std::pair(model.check(b).needs, model.check(b).minutes);
  });
  const ConditionMatrix change = condition_minutes(model.state_costs);
  Situation situation{who, Condition::standing, {}};
  std::vector<Finding> findings = {{one.symptom, 1}};
  double minutes = 0.0;
  for (const std::size_t q : order) {
    if (posterior(model, findings, {false, 0}).ranked().front().p > 0.9) break;
    minutes += check_minutes(model, change, situation.condition, q);
    findings.push_back({q, one.answers[q]});
  }
  return minutes + repair_minutes(model, next_checks(model, findings, situation, {0.995, 0, 1}), one.cause);
}

Result follow(const Model& model, const Case& one, const std::vector<std::vector<std::size_t>>& groups) {
  constexpr Who who = Who::electrician;
  const ConditionMatrix change = condition_minutes(model.state_costs);
  Result out;
  Situation situation{who, Condition::standing, {}};
  std::vector<Finding> findings = {{one.symptom, 1}};
  Next next;
  for (;;) {
    const auto began = std::chrono::steady_clock::now();
    next = next_checks(model, findings, situation);
    out.slowest_ms = std::max(out.slowest_ms, std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - began).count());
    if (out.checks == 0) {
      out.least_min = next.at_least_min;
      out.repair_min = repair_minutes(model, next, one.cause);
    }
    if (next.repair_now || next.checks.empty()) break;
    const std::size_t q = next.checks.front().question;
    out.guide_min += check_minutes(model, change, situation.condition, q);
    findings.push_back({q, one.answers[q]});
    ++out.checks;
  }
  out.guide_min += repair_minutes(model, next, one.cause);
  out.book_min = by_the_book(model, one, who);
  const Posterior known = posterior(model, findings);
  const auto ranked = known.ranked();
  out.first = ranked[0].cause == one.cause;
  out.third = out.first || ranked[1].cause == one.cause || ranked[2].cause == one.cause;
  out.said_p = ranked[0].p;
  for (std::size_t c = 0; c < model.causes.size(); ++c) out.brier += std::pow(known.cause_p[c] - (c == one.cause ? 1.0 : 0.0), 2);
  for (const auto& group : groups) out.grouped = out.grouped || std::find(group.begin(), group.end(), one.cause) != group.end();
  return out;
}

void print_results(const std::vector<Result>& results) {
  const auto n = static_cast<double>(results.size());
  const auto mean = [&](auto of) {
    double sum = 0.0;
    for (const Result& one : results) sum += of(one);
    return sum / n;
  };
  double apart = 0.0, first = 0.0, third = 0.0;
  for (const Result& one : results) {
    if (one.grouped) continue;
    apart += 1.0;
    first += one.first ? 1.0 : 0.0;
    third += one.third ? 1.0 : 0.0;
  }
  std::printf("true cause first            %.1f %%, among three %.1f %% (of %.0f not in a group)\n", 100.0 * first / apart, 100.0 * third / apart, apart);
  std::printf("all                         first %.1f %%, among three %.1f %%\n", 100.0 * mean([](const Result& r) { return r.first; }),
              100.0 * mean([](const Result& r) { return r.third; }));
  std::printf("Brier score                 %.4f (sum over causes, 0 .. 2)\n", mean([](const Result& r) { return r.brier; }));
  std::array<std::array<double, 3>, 5> bins{};
  for (const Result& one : results) {
    auto& bin = bins[std::min<std::size_t>(4, static_cast<std::size_t>(one.said_p * 5.0))];
    bin[0] += 1.0;
    bin[1] += one.said_p;
    bin[2] += one.first ? 1.0 : 0.0;
  }
  std::printf("reliability                 said -> came true:");
  for (const auto& bin : bins) {
    if (bin[0] > 0.0) std::printf("  %.2f -> %.2f (%.0f)", bin[1] / bin[0], bin[2] / bin[0], bin[0]);
  }
  std::printf("\nminutes to a working machine: guide %.1f, fixed order of checks %.1f, repairs by p/C %.1f, no plan under %.1f\n",
              mean([](const Result& r) { return r.guide_min; }), mean([](const Result& r) { return r.book_min; }),
              mean([](const Result& r) { return r.repair_min; }), mean([](const Result& r) { return r.least_min; }));
  double slowest = 0.0;
  for (const Result& one : results) slowest = std::max(slowest, one.slowest_ms);
  std::printf("checks                      %.2f on average; slowest advice %.1f ms\n", mean([](const Result& r) { return static_cast<double>(r.checks); }), slowest);
}

}  // namespace

int main(int argc, char** argv) {
  const int machines = argc > 1 ? std::atoi(argv[1]) : 200;
  const unsigned threads = argc > 2 ? static_cast<unsigned>(std::atoi(argv[2])) : std::max(1U, std::thread::hardware_concurrency());
  const library::LoadResult loaded = library::load(std::string(STIRBENCH_SOURCE_DIR) + "/content", "");
  const library::GuideShelf shelf = library::load_guides(std::string(STIRBENCH_SOURCE_DIR) + "/content", loaded.library);
  for (const auto& problem : shelf.problems) std::printf("%s\n", problem.text().c_str());
  if (shelf.guides.count("hm-45") == 0 || shelf.evidence.count("hm-45") == 0 || machines < 1) return 1;
  const library::GuideModel guide = library::guide_model(shelf.guides.at("hm-45"), &shelf.evidence.at("hm-45"));
  const auto groups = cannot_be_told_apart(guide.model);
  for (const auto& group : groups) {
    std::printf("cannot be told apart:");
    for (const std::size_t c : group) std::printf(" %s", guide.model.causes[c].id.c_str());
    std::printf("\n");
  }
  const std::vector<Case> cases = draw_cases(loaded.library, shelf.guides.at("hm-45"), guide.model, machines, threads);
  std::vector<Result> results;
  std::size_t silent = 0;
  for (const Case& one : cases) {
    if (one.symptom == Model::npos) ++silent;
    else results.push_back(follow(guide.model, one, groups));
  }
  std::printf("%d machines, %zu without a symptom\n", machines, silent);
  if (!results.empty()) print_results(results);
  return 0;
}
