#include "sim_core/training/demand.h"

#include <algorithm>

namespace stirbench::training {

namespace {

// One skill's series as it grows.
struct Series {
  SequentialTest walk;
  int passed = 0;
  bool closed = false;  // not yet: practise first
  bool fresh = true;    // nothing of this series was taken yet
  std::vector<std::int64_t> ids;

  void restart() {
    walk.restart();
    passed = 0;
    closed = false;
    fresh = true;
    ids.clear();
  }
};

void take_test(const Demand& demand, const TestRun& run, Series& series, SkillVerdict& out) {
  ++out.all_tests;
  if (!run.passed) ++out.all_failed;
  if (series.closed) return;
  if (series.fresh) out.path.clear();
  series.fresh = false;
  series.passed += run.passed ? 1 : 0;
  series.ids.push_back(run.id);
  const bool decided_before = series.walk.answer() != SequentialAnswer::go_on;
  SequentialAnswer answer = series.walk.take(run.passed);
  if (demand.must_pass_all && run.musts_missed > 0) answer = SequentialAnswer::not_yet;
  out.tests = series.walk.taken();
  out.passed = series.passed;
  if (!decided_before) out.path.push_back(series.walk.llr());
  if (answer == SequentialAnswer::competent && out.passed < demand.tests_each)
    answer = SequentialAnswer::go_on;
  if (answer == SequentialAnswer::not_yet) {
    out.answer = SequentialAnswer::not_yet;
    out.evidence = series.ids;
    out.shown_s = 0;
    series.closed = true;
  } else if (answer == SequentialAnswer::competent) {
    out.answer = SequentialAnswer::competent;
    out.evidence = series.ids;
    out.shown_s = run.at_s;
    series.restart();
  } else if (out.answer == SequentialAnswer::competent) {
    // Found competent before: a further pass keeps it fresh, a fail counts in the series that has begun.
    if (run.passed) out.shown_s = run.at_s;
    if (run.passed) out.evidence.push_back(run.id);
  } else {
    out.answer = SequentialAnswer::go_on;
    out.evidence.push_back(run.id);
  }
}

void take_practice(const TestRun& run, Series& series, SkillVerdict& out) {
  if (!series.closed || !run.passed) return;
  series.restart();
  out.answer = SequentialAnswer::go_on;
  out.tests = 0;
  out.passed = 0;
  out.path.clear();
  out.evidence.clear();
}

}  // namespace

DemandJudge::DemandJudge(const Demand& demand, const Skills& skills,
                         const std::map<std::string, Lesson>& lessons)
    : demand_(&demand), walk_(demand.plan) {
  std::map<std::string, std::size_t> places;
  for (std::size_t i = 0; i < demand.skills.size(); ++i) {
    const auto skill = skills.find(demand.skills[i]);
    names_.push_back(skill == skills.end() ? demand.skills[i] : skill->second.title);
    places.emplace(demand.skills[i], i);
  }
  for (const auto& [id, lesson] : lessons) {
    std::vector<std::size_t> trained;
    for (const std::string& skill : lesson.skills) {
      const auto place = places.find(skill);
      if (place != places.end() && std::find(trained.begin(), trained.end(), place->second) == trained.end())
        trained.push_back(place->second);
    }
    if (!trained.empty()) trained_by_.emplace(id, std::move(trained));
  }
}

std::vector<SkillVerdict> DemandJudge::verdicts(const std::vector<TestRun>& runs) const {
  std::vector<SkillVerdict> out(demand_->skills.size());
  std::vector<Series> series(demand_->skills.size(), Series{walk_});
  for (const TestRun& run : runs) {
    const auto trained = trained_by_.find(run.lesson);
    if (trained == trained_by_.end()) continue;
    for (const std::size_t i : trained->second) {
      if (run.test)
        take_test(*demand_, run, series[i], out[i]);
      else
        take_practice(run, series[i], out[i]);
    }
  }
  for (std::size_t i = 0; i < out.size(); ++i) out[i].practise_first = series[i].closed;
  return out;
}

SkillVerdict judge_skill(const std::string& skill, const Demand& demand,
                         const std::map<std::string, Lesson>& lessons, const std::vector<TestRun>& runs) {
  Demand one = demand;
  one.skills = {skill};
  return DemandJudge(one, {}, lessons).verdicts(runs).front();
}

DemandState judge_demand(const Demand& demand, const Skills& skills,
                         const std::map<std::string, Lesson>& lessons, const std::vector<TestRun>& runs,
                         const std::vector<ObservedTask>& seen, std::int64_t now_s) {
  return DemandJudge(demand, skills, lessons).judge(runs, seen, now_s);
}

DemandState DemandJudge::judge(const std::vector<TestRun>& runs, const std::vector<ObservedTask>& seen,
                               std::int64_t now_s) const {
  const Demand& demand = *demand_;
  DemandState out;
  const std::int64_t oldest_s = now_s - day_s * demand.valid_days;
  std::int64_t oldest_part_s = now_s;
  std::vector<SkillVerdict> judged = verdicts(runs);
  for (std::size_t i = 0; i < judged.size(); ++i) {
    const std::string& name = names_[i];
    const SkillVerdict& verdict = out.skills[demand.skills[i]] = std::move(judged[i]);
    if (verdict.answer == SequentialAnswer::competent && verdict.shown_s >= oldest_s) {
      oldest_part_s = std::min(oldest_part_s, verdict.shown_s);
      continue;
    }
    if (verdict.answer == SequentialAnswer::competent)
      out.missing.push_back(name + ": shown too long ago, test again");
    else if (verdict.practise_first)
      out.missing.push_back(name + ": not yet. Practise, then test again");
    else if (verdict.tests == 0)
      out.missing.push_back(name + ": no test yet");
    else
      out.missing.push_back(name + ": " + std::to_string(verdict.passed) + " of " +
                            std::to_string(verdict.tests) + " tests passed, go on");
  }
  for (const std::string& task : demand.seen_tasks) {
    const ObservedTask* newest = nullptr;
    for (const ObservedTask& one : seen) {
      if (one.task == task && one.at_s >= oldest_s && (newest == nullptr || one.at_s >= newest->at_s))
        newest = &one;
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
