#include "sim_core/training/demand.h"

#include <algorithm>

namespace stirbench::training {

namespace {

constexpr std::int64_t day_s = 86400;

bool trains(const std::map<std::string, Lesson>& lessons, const std::string& lesson, const std::string& skill) {
  const auto found = lessons.find(lesson);
  if (found == lessons.end()) return false;
  const auto& skills = found->second.skills;
  return std::find(skills.begin(), skills.end(), skill) != skills.end();
}

// One skill's series as it grows.
struct Series {
  std::vector<bool> passed;
  std::vector<std::int64_t> ids;
  bool closed = false;  // not yet: practise first
};

void take_test(const Demand& demand, const TestRun& run, Series& series, SkillVerdict& out) {
  ++out.all_tests;
  if (!run.passed) ++out.all_failed;
  if (series.closed) return;
  series.passed.push_back(run.passed);
  series.ids.push_back(run.id);
  SequentialResult result = judge(demand.plan, series.passed);
  const bool must_missed = demand.must_pass_all && run.musts_missed > 0;
  if (must_missed) result.answer = SequentialAnswer::not_yet;
  out.tests = static_cast<int>(series.passed.size());
  out.passed = static_cast<int>(std::count(series.passed.begin(), series.passed.end(), true));
  out.path = result.path;
  if (result.answer == SequentialAnswer::competent && out.passed < demand.tests_each) result.answer = SequentialAnswer::go_on;
  if (result.answer == SequentialAnswer::not_yet) {
    out.answer = SequentialAnswer::not_yet;
    out.evidence = series.ids;
    out.shown_s = 0;
    series.closed = true;
  } else if (result.answer == SequentialAnswer::competent) {
    out.answer = SequentialAnswer::competent;
    out.evidence = series.ids;
    out.shown_s = run.at_s;
    series = {};
  } else if (out.answer == SequentialAnswer::competent) {
    // Found competent before: a further pass keeps it fresh, a fail counts in the series that has begun.
    if (run.passed) out.shown_s = run.at_s;
    if (run.passed) out.evidence.push_back(run.id);
  } else {
    out.answer = SequentialAnswer::go_on;
    out.evidence = series.ids;
  }
}

}  // namespace

SkillVerdict judge_skill(const std::string& skill, const Demand& demand, const std::map<std::string, Lesson>& lessons,
                         const std::vector<TestRun>& runs) {
  SkillVerdict out;
  Series series;
  for (const TestRun& run : runs) {
    if (!trains(lessons, run.lesson, skill)) continue;
    if (run.test) {
      take_test(demand, run, series, out);
    } else if (series.closed && run.passed) {
      series = {};
      out.answer = SequentialAnswer::go_on;
      out.tests = 0;
      out.passed = 0;
      out.path.clear();
      out.evidence.clear();
    }
  }
  out.practise_first = series.closed;
  return out;
}

DemandState judge_demand(const Demand& demand, const Skills& skills, const std::map<std::string, Lesson>& lessons,
                         const std::vector<TestRun>& runs, const std::vector<SeenTask>& seen, std::int64_t now_s) {
  DemandState out;
  const std::int64_t oldest_s = now_s - day_s * demand.valid_days;
  std::int64_t oldest_part_s = now_s;
  for (const std::string& id : demand.skills) {
    const auto skill = skills.find(id);
    const std::string name = skill == skills.end() ? id : skill->second.title;
    const SkillVerdict& verdict = out.skills[id] = judge_skill(id, demand, lessons, runs);
    if (verdict.answer == SequentialAnswer::competent && verdict.shown_s >= oldest_s) {
      oldest_part_s = std::min(oldest_part_s, verdict.shown_s);
      continue;
    }
    if (verdict.answer == SequentialAnswer::competent) out.missing.push_back(name + ": shown too long ago, test again");
    else if (verdict.practise_first) out.missing.push_back(name + ": not yet. Practise, then test again");
    else if (verdict.tests == 0) out.missing.push_back(name + ": no test yet");
    else out.missing.push_back(name + ": " + std::to_string(verdict.passed) + " of " + std::to_string(verdict.tests) + " tests passed, go on");
  }
  for (const std::string& task : demand.seen_tasks) {
    const SeenTask* newest = nullptr;
    for (const SeenTask& one : seen) {
      if (one.task == task && one.at_s >= oldest_s && (newest == nullptr || one.at_s >= newest->at_s)) newest = &one;
    }
    if (newest != nullptr && newest->passed) {
      out.seen[task] = newest->uid;
      oldest_part_s = std::min(oldest_part_s, newest->at_s);
    } else {
      out.missing.push_back("Seen at the machine: " + task);
    }
  }
  out.met = out.missing.empty() && !demand.skills.empty();
  if (out.met) out.until_s = oldest_part_s + day_s * demand.valid_days;
  return out;
}

}  // namespace stirbench::training
