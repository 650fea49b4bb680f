#include "sim_core/training/demand.h"

#include <algorithm>
#include <set>

namespace stirbench::training {

namespace {

// One skill's series as it grows.
struct Series {
  SequentialTest walk;
  int passed = 0;
  bool closed = false;  // not yet: practise first
  bool fresh = true;    // nothing of this series was taken yet
  std::vector<std::int64_t> ids;
  std::set<std::string> lessons;  // that were passed
  int days = 0;                   // passes days_apart from one another
  std::int64_t last_day_s = 0;    // the last of those

  void restart() {
    walk.restart();
    passed = 0;
    closed = false;
    fresh = true;
    ids.clear();
    lessons.clear();
    days = 0;
  }
};

// One test as far as one skill is concerned.
struct OneTest {
  const TestRun& run;
  bool passed;
  int musts_missed;
};

void count_pass(const Demand& demand, const TestRun& run, Series& series) {
  ++series.passed;
  series.lessons.insert(run.lesson);
  if (series.days > 0 && run.at_s < series.last_day_s + day_s * demand.days_apart) return;
  ++series.days;
  series.last_day_s = run.at_s;
}

bool is_broad(const Demand& demand, int lessons_needed, const SkillVerdict& out) {
  return out.passed >= demand.tests_each && out.lessons >= lessons_needed && out.days >= demand.tests_each;
}

void take_test(const Demand& demand, int lessons_needed, const OneTest& test, Series& series,
               SkillVerdict& out) {
  const TestRun& run = test.run;
  ++out.all_tests;
  if (!test.passed) ++out.all_failed;
  if (series.closed) return;
  if (series.fresh) out.path.clear();
  series.fresh = false;
  if (test.passed) count_pass(demand, run, series);
  series.ids.push_back(run.id);
  const bool decided_before = series.walk.answer() != SequentialAnswer::go_on;
  SequentialAnswer answer = series.walk.take(test.passed);
  if (demand.must_pass_all && test.musts_missed > 0) answer = SequentialAnswer::not_yet;
  out.tests = series.walk.taken();
  out.passed = series.passed;
  out.lessons = static_cast<int>(series.lessons.size());
  out.days = series.days;
  if (!decided_before) out.path.push_back(series.walk.llr());
  if (answer == SequentialAnswer::competent && !is_broad(demand, lessons_needed, out))
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
    if (test.passed) out.shown_s = run.at_s;
    if (test.passed) out.evidence.push_back(run.id);
  } else {
    out.answer = SequentialAnswer::go_on;
    out.evidence.push_back(run.id);
  }
}

// What the passes still lack beside their number; empty when nothing.
std::string breadth_words(const Demand& demand, int lessons_needed, const SkillVerdict& verdict) {
  std::string words;
  if (verdict.passed > 0 && verdict.lessons < lessons_needed)
    words += ", in " + std::to_string(verdict.lessons) + " of " + std::to_string(lessons_needed) +
             " different lessons";
  if (demand.days_apart > 0 && verdict.passed > verdict.days && verdict.days < demand.tests_each)
    words += ", " + std::to_string(verdict.days) + " of " + std::to_string(demand.tests_each) +
             " passes at least " + std::to_string(demand.days_apart) + " days apart";
  return words;
}

void take_practice(const OneTest& practice, Series& series, SkillVerdict& out) {
  if (!series.closed || !practice.passed || practice.run.hinted) return;
  series.restart();
  out.answer = SequentialAnswer::go_on;
  out.tests = 0;
  out.passed = 0;
  out.lessons = 0;
  out.days = 0;
  out.path.clear();
  out.evidence.clear();
}

}  // namespace

DemandJudge::DemandJudge(const Demand& demand, const Skills& skills,
                         const std::map<std::string, Lesson>& lessons)
    : demand_(&demand), walk_(demand.plan) {
  for (std::size_t i = 0; i < demand.skills.size(); ++i) {
    const auto skill = skills.find(demand.skills[i]);
    names_.push_back(skill == skills.end() ? demand.skills[i] : skill->second.title);
    places_.emplace(demand.skills[i], i);
  }
  lessons_needed_.assign(demand.skills.size(), 0);
  for (const auto& [id, lesson] : lessons) {
    std::vector<std::size_t> trained;
    for (const std::string& skill : judged_skills(lesson)) {
      const auto place = places_.find(skill);
      if (place != places_.end() && std::find(trained.begin(), trained.end(), place->second) == trained.end())
        trained.push_back(place->second);
    }
    for (const std::size_t i : trained) ++lessons_needed_[i];
    if (!trained.empty()) trained_by_.emplace(id, std::move(trained));
  }
  for (int& needed : lessons_needed_) needed = std::min(needed, demand.lessons_each);
}

std::vector<SkillVerdict> DemandJudge::verdicts(const std::vector<TestRun>& runs) const {
  std::vector<SkillVerdict> out(demand_->skills.size());
  std::vector<Series> series(demand_->skills.size(), Series{walk_});
  const auto take = [&](std::size_t i, const OneTest& one) {
    if (one.run.test)
      take_test(*demand_, lessons_needed_[i], one, series[i], out[i]);
    else
      take_practice(one, series[i], out[i]);
  };
  for (const TestRun& run : runs) {
    if (run.marks.empty()) {
      const auto trained = trained_by_.find(run.lesson);
      if (trained == trained_by_.end()) continue;
      for (const std::size_t i : trained->second) take(i, {run, run.passed, run.musts_missed});
    }
    for (const SkillMark& mark : run.marks) {
      const auto place = places_.find(mark.skill);
      if (place != places_.end()) take(place->second, {run, mark.passed, mark.musts_missed});
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
                            std::to_string(verdict.tests) + " tests passed" +
                            breadth_words(demand, lessons_needed_[i], verdict) + ", go on");
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
