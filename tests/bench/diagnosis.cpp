#include <array>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <numeric>
#include <string>

#include "sim_core/diagnosis/planner.h"
#include "sim_core/diagnosis/tree.h"
#include "tests/support/fault_trial.h"
#include "tests/support/figure.h"

// How good is the fault guide on machines that its tables have never seen?   bench_diagnosis [MACHINES]
//                                                                            [THREADS] [CONTENT] [FIGURE.svg]
// Printed: true cause first and among the first three, Brier score and reliability, minutes to a working
// machine against a fixed order of checks, repairs by p/C without checks, the exact optimum of problems small
// enough for it, and the bound below which no plan can be.
using namespace stirbench;
using namespace stirbench::diagnosis;
using fault_trial::Case;
using fault_trial::Result;

namespace {

constexpr Who who = Who::electrician;
constexpr std::uint64_t trial_seed = 0x5eed0000ULL;  // the evidence's seeds come from names of causes

double mean_of(const std::vector<Result>& results, double (*of)(const Result&)) {
  double sum = 0.0;
  for (const Result& one : results) sum += of(one);
  return results.empty() ? 0.0 : sum / static_cast<double>(results.size());
}

// Expected minutes of the guide's own way of choosing.
double guide_policy(Planner& planner, const SearchNode& standing, unsigned depth) {
  const CostBounds ahead = planner.look_ahead(standing, PlanOptions{}.candidates);
  if (ahead.best == stop_here || depth > 12) return planner.stop_minutes(standing);
  double minutes = planner.test_minutes(standing, ahead.best);
  const Test& test = planner.problem().tests[ahead.best];
  for (std::size_t o = 0; o < test.p.size(); ++o) {
    const double p = outcome_p(test, standing.belief, o);
    if (p > 1.0e-12)
      minutes += p * guide_policy(planner, planner.after(standing, ahead.best, o, p), depth + 1);
  }
  return minutes;
}

// Problems of each symptom cut to their most telling tests, so that dynamic programming reaches the optimum.
void against_exact(const Model& model, std::size_t tests) {
  double guide = 0.0, exact = 0.0, worst = 0.0;
  std::size_t solved = 0;
  for (std::size_t s = 0; s < model.symptoms.size(); ++s) {
    PosedProblem posed = pose_problem(model, {{s, 1}}, {who, AccessState::standing, {}}, 0.9);
    std::vector<std::pair<double, std::size_t>> order;
    {
      const Planner planner(posed.problem);
      const SearchNode here = planner.start();
      for (std::size_t t = 0; t < posed.problem.tests.size(); ++t)
        order.emplace_back(-planner.information_bits(here, t) / planner.test_minutes(here, t), t);
    }
    std::sort(order.begin(), order.end());
    std::vector<Test> kept;
    for (std::size_t i = 0; i < std::min(tests, order.size()); ++i)
      kept.push_back(posed.problem.tests[order[i].second]);
    posed.problem.tests = kept;
    Planner planner(posed.problem, 60000);
    const CostBounds best = planner.solve(planner.start());
    if (!best.exact()) continue;
    Planner own(posed.problem, 4000);
    own.follow_only(PlanOptions{}.least_reach);
    const double minutes = guide_policy(own, own.start(), 0);
    ++solved;
    guide += minutes;
    exact += best.upper;
    worst = std::max(worst, minutes / best.upper - 1.0);
  }
  std::printf(
      "exact optimum               %zu of %zu symptoms solved with their %zu most telling checks: guide %.2f "
      "min, optimum %.2f (%.1f %% over it; worst %.1f %%)\n",
      solved, model.symptoms.size(), tests, guide / static_cast<double>(solved),
      exact / static_cast<double>(solved), 100.0 * (guide / exact - 1.0), 100.0 * worst);
}

void print_ranks(const std::vector<Result>& results) {
  double apart = 0.0, first = 0.0, third = 0.0;
  for (const Result& one : results) {
    if (one.grouped) continue;
    apart += 1.0;
    first += one.first ? 1.0 : 0.0;
    third += one.third ? 1.0 : 0.0;
  }
  std::printf("true cause first            %.1f %%, among three %.1f %% (of %.0f not in a group)\n",
              100.0 * first / apart, 100.0 * third / apart, apart);
  std::printf("all                         first %.1f %%, among three %.1f %%\n",
              100.0 * mean_of(results, [](const Result& r) { return r.first ? 1.0 : 0.0; }),
              100.0 * mean_of(results, [](const Result& r) { return r.third ? 1.0 : 0.0; }));
  std::printf("Brier score                 %.4f (sum over causes, 0 .. 2)\n",
              mean_of(results, [](const Result& r) { return r.brier; }));
}

// Of all that was said with a probability of p on the way, as much should come true: in bins of a tenth.
void print_reliability(const std::vector<fault_trial::Follower::Stated>& stated, const std::string& file) {
  std::array<std::array<double, 3>, 10> bins{};
  double brier = 0.0;
  for (const auto& one : stated) {
    auto& bin = bins[std::min<std::size_t>(9, static_cast<std::size_t>(one.p * 10.0))];
    bin[0] += 1.0;
    bin[1] += one.p;
    bin[2] += one.came_true ? 1.0 : 0.0;
    brier += (one.p - (one.came_true ? 1.0 : 0.0)) * (one.p - (one.came_true ? 1.0 : 0.0));
  }
  std::printf(
      "reliability                 said -> came true (times said), each cause after each answer; Brier %.4f "
      "a statement\n",
      brier / static_cast<double>(std::max<std::size_t>(1, stated.size())));
  figure::Series said{"came true", "#b3541e", {}};
  for (const auto& bin : bins) {
    if (bin[0] < 1.0) continue;
    std::printf("                            %.3f -> %.3f (%.0f)\n", bin[1] / bin[0], bin[2] / bin[0],
                bin[0]);
    said.points.emplace_back(bin[1] / bin[0], bin[2] / bin[0]);
  }
  if (file.empty()) return;
  const std::vector<double> marks{0.0, 0.2, 0.4, 0.6, 0.8, 1.0};
  const figure::Series right{"as said", "#555555", {{0.0, 0.0}, {1.0, 1.0}}};
  std::ofstream(file) << figure::drawn("Reliability of the fault guide on machines it has not seen",
                                       {"stated probability of a cause", 0.0, 1.0, marks},
                                       {"share that came true", 0.0, 1.0, marks}, {right, said});
}

// By cause, so that rare ones count as much as common ones, and which ones are taken for which.
void print_causes(const Model& model, const std::vector<Result>& results) {
  std::map<std::size_t, std::array<double, 3>> by_cause;
  std::map<std::pair<std::size_t, std::size_t>, std::size_t> taken;
  for (const Result& one : results) {
    auto& row = by_cause[one.cause];
    row[0] += 1.0;
    row[1] += one.first ? 1.0 : 0.0;
    row[2] += one.third ? 1.0 : 0.0;
    if (!one.first) ++taken[{one.cause, one.said}];
  }
  double first = 0.0, third = 0.0;
  for (const auto& [cause, row] : by_cause) {
    first += row[1] / row[0];
    third += row[2] / row[0];
  }
  const auto n = static_cast<double>(by_cause.size());
  std::printf(
      "by cause                    %zu causes seen, mean of their shares: first %.1f %%, among three %.1f "
      "%%\n",
      by_cause.size(), 100.0 * first / n, 100.0 * third / n);
  std::vector<std::pair<std::size_t, std::pair<std::size_t, std::size_t>>> worst;
  for (const auto& [pair, times] : taken) worst.emplace_back(times, pair);
  std::sort(worst.rbegin(), worst.rend());
  for (std::size_t i = 0; i < std::min<std::size_t>(worst.size(), 15); ++i) {
    const auto& [times, pair] = worst[i];
    std::printf("  taken for another         %s for %s: %zu of %.0f\n", model.causes[pair.first].id.c_str(),
                model.causes[pair.second].id.c_str(), times, by_cause[pair.first][0]);
  }
}

double milliseconds_of(const std::function<void()>& work) {
  const auto began = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - began).count();
}

// The program from its start to its answer, one advice as the screen asks for it, and one tree.
void print_speed(const Model& model) {
  const std::string command =
      std::string(STIRBENCH_PROGRAM) +
      " causes --machine hm-45 --symptom heats-slowly --who electrician --json > /dev/null 2>&1";
  std::vector<double> program, advice, tree;
  int failed = 0;
  for (int i = 0; i < 15; ++i)
    program.push_back(milliseconds_of([&] { failed += std::system(command.c_str()) != 0 ? 1 : 0; }));
  for (std::size_t s = 0; s < model.symptoms.size(); ++s) {
    advice.push_back(milliseconds_of([&] {
      posterior(model, {{s, 1}});
      next_checks(model, {{s, 1}}, {who, AccessState::standing, {}});
    }));
    tree.push_back(milliseconds_of([&] { compile_tree(model, {{s, 1}}, {who, AccessState::standing, {}}); }));
  }
  for (auto* times : {&program, &advice, &tree}) std::sort(times->begin(), times->end());
  std::printf(
      "speed                       causes (whole program) least %.0f, median %.0f ms%s; first advice median "
      "%.1f, worst %.1f ms; tree median %.0f, worst %.0f ms\n",
      program.front(), program[program.size() / 2], failed > 0 ? " (FAILED)" : "", advice[advice.size() / 2],
      advice.back(), tree[tree.size() / 2], tree.back());
}

}  // namespace

int main(int argc, char** argv) {
  const int machines = argc > 1 ? std::atoi(argv[1]) : 200;
  const unsigned threads = argc > 2 ? static_cast<unsigned>(std::atoi(argv[2]))
                                    : std::max(1U, std::thread::hardware_concurrency());
  const std::string content = argc > 3 ? argv[3] : std::string(STIRBENCH_SOURCE_DIR) + "/content";
  const library::LoadResult loaded = library::load(content, "");
  const library::FaultGuides shelf = library::load_guides(content, loaded.library);
  for (const auto& problem : shelf.problems) std::printf("%s\n", problem.text().c_str());
  if (shelf.guides.count("hm-45") == 0 || shelf.evidence.count("hm-45") == 0 || machines < 1 || threads < 1)
    return 1;
  const library::FaultGuide& guide = shelf.guides.at("hm-45");
  const library::GuideModel found = library::guide_model(guide, &shelf.evidence.at("hm-45"));
  const Model& model = found.model;
  const auto groups = ambiguity_groups(model);
  for (const auto& group : groups) {
    std::printf("cannot be told apart:");
    for (const std::size_t c : group) std::printf(" %s", model.causes[c].id.c_str());
    std::printf("\n");
  }
  std::size_t silent = 0;
  const auto cases = fault_trial::draw_cases(loaded.library.machine("hm-45"), guide, model,
                                             static_cast<std::size_t>(machines), trial_seed, threads, silent);
  std::printf("%d machines with a symptom (%zu others showed none); evidence of %.0f machines%s\n", machines,
              silent, found.machines, found.stale ? ", STALE" : "");
  fault_trial::Follower follower(model, who, groups);
  follower.keep_stated = true;
  fault_trial::ByTheBook book(model, who);
  std::vector<Result> results;
  double book_min = 0.0, book_guide_min = 0.0, book_known_min = 0.0, guide_checks_min = 0.0;
  std::size_t booked = 0;
  for (std::size_t i = 0; i < cases.size(); ++i) {
    results.push_back(follower.follow(cases[i]));
    // The fixed order asks so much that each machine is a way of its own: every tenth is enough for a mean.
    if (cases.size() > 2000 && i % 10 != 0) continue;
    book_min += book.minutes(cases[i], follower);
    book_guide_min += results.back().guide_min;
    book_known_min += results.back().known_min;
    guide_checks_min += results.back().checks_min;
    ++booked;
  }
  print_ranks(results);
  print_reliability(follower.stated, argc > 4 ? argv[4] : "");
  print_causes(model, results);
  const double guide_min = mean_of(results, [](const Result& r) { return r.guide_min; });
  std::printf("minutes to a working machine: guide %.1f, repairs by p/C %.1f, no plan under %.1f\n",
              guide_min, mean_of(results, [](const Result& r) { return r.repair_min; }),
              mean_of(results, [](const Result& r) { return r.least_min; }));
  std::printf("fixed order of checks       %.1f min; guide on the same %zu machines %.1f (%.0f %% less)\n",
              book_min / static_cast<double>(booked), booked, book_guide_min / static_cast<double>(booked),
              100.0 * (1.0 - book_guide_min / book_min));
  const auto n = static_cast<double>(booked);
  std::printf(
      "minutes to cause            (beyond the %.1f of somebody who knows it) guide %.2f, fixed order %.2f: "
      "%.0f %% less\n",
      book_known_min / n, (book_guide_min - book_known_min) / n, (book_min - book_known_min) / n,
      100.0 * (1.0 - (book_guide_min - book_known_min) / (book_min - book_known_min)));
  std::printf("  of them on checks         guide %.2f, fixed order %.2f\n", guide_checks_min / n,
              book.checks_min / n);
  std::printf("checks                      %.2f on average; slowest advice %.1f ms\n",
              mean_of(results, [](const Result& r) { return static_cast<double>(r.checks); }),
              follower.slowest_ms());
  against_exact(model, 6);
  print_speed(model);
  return 0;
}
