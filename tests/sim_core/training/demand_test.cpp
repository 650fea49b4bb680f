#include "sim_core/training/demand.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <set>

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

// Different lessons among the passed runs, and how many of them lie days_apart from one another.
bool broad(const Demand& demand, int lessons_needed, const std::vector<TestRun>& series) {
  std::set<std::string> lessons;
  int days = 0;
  std::int64_t last_s = 0;
  for (const TestRun& run : series) {
    if (!run.passed) continue;
    lessons.insert(run.lesson);
    if (days > 0 && run.at_s - last_s < 86400 * demand.days_apart) continue;
    ++days;
    last_s = run.at_s;
  }
  return static_cast<int>(lessons.size()) >= lessons_needed && days >= demand.tests_each;
}

Plain by_the_rule(const Demand& demand, int lessons_needed, const std::vector<TestRun>& runs) {
  Plain out;
  std::vector<bool> series;
  std::vector<TestRun> of_series;
  std::vector<std::int64_t> ids;
  for (const TestRun& run : runs) {
    if (!run.test) {
      if (!out.closed || !run.passed || run.hinted) continue;
      out = {};
      series.clear();
      of_series.clear();
      ids.clear();
      continue;
    }
    if (out.closed) continue;
    series.push_back(run.passed);
    of_series.push_back(run);
    ids.push_back(run.id);
    const SequentialResult result = judge(demand.plan, series);
    out.tests = static_cast<int>(series.size());
    out.passed = 0;
    for (const bool one : series) out.passed += one ? 1 : 0;
    out.path = result.path;
    SequentialAnswer answer = result.answer;
    if (demand.must_pass_all && run.musts_missed > 0) answer = SequentialAnswer::not_yet;
    if (answer == SequentialAnswer::competent &&
        (out.passed < demand.tests_each || !broad(demand, lessons_needed, of_series)))
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
      of_series.clear();
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
    demand.lessons_each = 1 + static_cast<int>(dice.below(3));
    demand.days_apart = static_cast<int>(dice.below(2));
    demand.must_pass_all = dice.below(2) == 0;
    demand.plan = {0.4, 0.85, 0.025, 0.025, dice.below(3) == 0 ? 6 : 20};
    std::vector<TestRun> runs;
    const std::size_t count = dice.below(30);
    for (std::size_t i = 0; i < count; ++i) {
      constexpr const char* names[] = {"one", "both", "other", "none", "gone"};
      TestRun run{static_cast<std::int64_t>(i + 1),
                  names[dice.below(5)],
                  static_cast<std::int64_t>(40000 * i),
                  dice.below(4) != 0,
                  dice.below(6) != 0,
                  0};
      if (!run.passed && dice.below(2) == 0) run.musts_missed = 1;
      run.hinted = !run.test && dice.below(2) == 0;
      // Some are kept with marks, which then speak in the lesson's place; here they say the same.
      if (dice.below(2) == 0) {
        const auto lesson = lessons.find(run.lesson);
        if (lesson != lessons.end())
          for (const std::string& skill : lesson->second.skills)
            run.marks.push_back({skill, run.passed, run.musts_missed});
      }
      runs.push_back(run);
    }
    const std::vector<SkillVerdict> verdicts = DemandJudge(demand, {}, lessons).verdicts(runs);
    for (std::size_t s = 0; s < 2; ++s) {
      std::vector<TestRun> of_skill;
      for (const TestRun& run : runs) {
        if (run.lesson == "both" || run.lesson == (s == 0 ? "one" : "other")) of_skill.push_back(run);
      }
      const Plain want = by_the_rule(demand, std::min(2, demand.lessons_each), of_skill);
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

TEST_CASE("a test passes and fails each skill by itself, whatever became of its lesson") {
  std::map<std::string, Lesson> lessons;
  lessons["both"].id = "both";
  lessons["both"].skills = {"a", "b"};
  Demand demand;
  demand.skills = {"a", "b"};
  std::vector<TestRun> runs;
  for (int i = 0; i < 6; ++i)
    runs.push_back({i + 1, "both", 2 * 86400 * i, true, false, 1, {{"a", true, 0}, {"b", false, 1}}});
  const std::vector<SkillVerdict> verdicts = DemandJudge(demand, {}, lessons).verdicts(runs);
  CHECK(verdicts[0].answer == SequentialAnswer::competent);
  CHECK(verdicts[1].answer == SequentialAnswer::not_yet);
}

TEST_CASE("passes in a row within the hour, or of one lesson where there are three, are not competent yet") {
  std::map<std::string, Lesson> lessons;
  for (const char* id : {"x", "y", "z"}) {
    lessons[id].id = id;
    lessons[id].skills = {"a"};
  }
  Demand demand;
  demand.skills = {"a"};
  const auto judged = [&](int minutes_apart, bool one_lesson) {
    std::vector<TestRun> runs;
    for (int i = 0; i < 6; ++i) {
      const char* names[] = {"x", "y", "z"};
      runs.push_back({i + 1, one_lesson ? "x" : names[i % 3], 60LL * minutes_apart * i, true, true, 0});
    }
    return DemandJudge(demand, {}, lessons).verdicts(runs).front();
  };
  CHECK(judged(10, true).answer == SequentialAnswer::go_on);
  CHECK(judged(10, false).answer == SequentialAnswer::go_on);
  CHECK(judged(3 * 1440, true).answer == SequentialAnswer::go_on);
  CHECK(judged(3 * 1440, false).answer == SequentialAnswer::competent);
  CHECK(judged(10, false).lessons == 3);
  CHECK(judged(10, false).days == 1);
}
