#include "sim_core/training/demand.h"

#include <doctest/doctest.h>

#include "tests/support/dice.h"

using namespace stirbench::training;

namespace {

// The rule as it is written in demand.h, without anything carried along: each test judges its whole series
// anew.
struct Plain {
  SequentialAnswer answer = SequentialAnswer::go_on;
  bool closed = false;
  int tests = 0, passed = 0;
  std::int64_t shown_s = 0;
  std::vector<std::int64_t> evidence;
  std::vector<double> path;
};

Plain by_the_rule(const Demand& demand, const std::vector<TestRun>& runs) {
  Plain out;
  std::vector<bool> series;
  std::vector<std::int64_t> ids;
  for (const TestRun& run : runs) {
    if (!run.test) {
      if (!out.closed || !run.passed) continue;
      out = {};
      series.clear();
      ids.clear();
      continue;
    }
    if (out.closed) continue;
    series.push_back(run.passed);
    ids.push_back(run.id);
    const SequentialResult result = judge(demand.plan, series);
    out.tests = static_cast<int>(series.size());
    out.passed = 0;
    for (const bool one : series) out.passed += one ? 1 : 0;
    out.path = result.path;
    SequentialAnswer answer = result.answer;
    if (demand.must_pass_all && run.musts_missed > 0) answer = SequentialAnswer::not_yet;
    if (answer == SequentialAnswer::competent && out.passed < demand.tests_each)
      answer = SequentialAnswer::go_on;
    if (answer == SequentialAnswer::not_yet) {
      out.answer = answer;
      out.evidence = ids;
      out.shown_s = 0;
      out.closed = true;
    } else if (answer == SequentialAnswer::competent) {
      out.answer = answer;
      out.evidence = ids;
      out.shown_s = run.at_s;
      series.clear();
      ids.clear();
    } else if (out.answer == SequentialAnswer::competent) {
      if (!run.passed) continue;
      out.shown_s = run.at_s;
      out.evidence.push_back(run.id);
    } else {
      out.answer = answer;
      out.evidence = ids;
    }
  }
  return out;
}

}  // namespace

TEST_CASE("judging many people at once agrees with the rule applied run by run, over random histories") {
  std::map<std::string, Lesson> lessons;
  for (const char* id : {"one", "both", "other", "none"}) lessons[id].id = id;
  lessons["one"].skills = {"a"};
  lessons["both"].skills = {"a", "b"};
  lessons["other"].skills = {"b"};
  stirbench::test_support::Dice dice{17};
  int competent = 0, closed = 0;
  for (int round = 0; round < 2000; ++round) {
    Demand demand;
    demand.skills = {"a", "b"};
    demand.tests_each = 1 + static_cast<int>(dice.below(5));
    demand.must_pass_all = dice.below(2) == 0;
    demand.plan = {0.4, 0.85, 0.025, 0.025, dice.below(3) == 0 ? 6 : 20};
    std::vector<TestRun> runs;
    const std::size_t count = dice.below(30);
    for (std::size_t i = 0; i < count; ++i) {
      constexpr const char* names[] = {"one", "both", "other", "none", "gone"};
      TestRun run{static_cast<std::int64_t>(i + 1),
                  names[dice.below(5)],
                  static_cast<std::int64_t>(1000 * i),
                  dice.below(4) != 0,
                  dice.below(6) != 0,
                  0};
      if (!run.passed && dice.below(2) == 0) run.musts_missed = 1;
      runs.push_back(run);
    }
    const std::vector<SkillVerdict> verdicts = DemandJudge(demand, {}, lessons).verdicts(runs);
    for (std::size_t s = 0; s < 2; ++s) {
      std::vector<TestRun> of_skill;
      for (const TestRun& run : runs) {
        if (run.lesson == "both" || run.lesson == (s == 0 ? "one" : "other")) of_skill.push_back(run);
      }
      const Plain want = by_the_rule(demand, of_skill);
      const SkillVerdict& got = verdicts[s];
      CHECK(got.answer == want.answer);
      CHECK(got.practise_first == want.closed);
      CHECK(got.tests == want.tests);
      CHECK(got.passed == want.passed);
      CHECK(got.shown_s == want.shown_s);
      CHECK(got.evidence == want.evidence);
      CHECK(got.path == want.path);
      competent += want.answer == SequentialAnswer::competent ? 1 : 0;
      closed += want.closed ? 1 : 0;
    }
  }
  CHECK(competent > 300);
  CHECK(closed > 300);
}
