#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "sim_core/training/sequential.h"
#include "sim_core/training/skills.h"

// What a certificate requires, and whether a person's runs and observed tasks meet it.
//
// Each test gives one pass or fail for each skill that it has a mark for (skill_evidence.h); a test that was
// kept without marks gives its own verdict to each skill that its lesson judges. A skill's tests are judged
// in series by the sequential rule. A series that ends with "not yet" is closed. The next one begins once the
// person has passed the skill in practice without hints, so that nobody can repeat the test until luck
// decides and nobody is led back in by the hand. The stated error rates hold for each series by itself. With
// `must_pass_all`, a single missed must-pass item of the skill ends a series with "not yet".
//
// The rule's error rates take tests as independent, which the same lesson five times within an hour is not.
// So "competent" is held back until the series' passes come from `lessons_each` different lessons (as many as
// there are for the skill, when there are fewer) and `tests_each` of them lie `days_apart` days from one
// another. Passes in between count for the rule like all others.
namespace stirbench::training {

struct Demand {
  std::string id;
  std::string title;
  std::string note;                 // for people
  std::vector<std::string> skills;  // ids, at least one
  int tests_each = 3;    // least number of sealed tests passed per skill, besides the sequential rule
  int lessons_each = 3;  // different lessons among them, as far as content has so many for the skill
  int days_apart = 2;    // from one of those passes to the next, 0: any time
  SequentialPlan plan{0.40, 0.85, 0.025, 0.025, 20};
  bool must_pass_all = true;
  std::vector<std::string> seen_tasks;  // each observed at the real machine and signed for by a named person
  int valid_days = 365;                 // 1 .. 1826
};

// A finished run; lists hold the oldest first. `id` is the record's.
struct TestRun {
  std::int64_t id = 0;
  std::string lesson;
  std::int64_t at_s = 0;
  bool test = false;  // a test without hints; else practice
  bool passed = false;
  int musts_missed = 0;
  std::vector<SkillMark> marks{};  // empty: kept without
  bool hinted = false;             // practice in which the program led
};

struct SkillVerdict {
  // Of the newest series. "Competent" stays until a later series ends with "not yet".
  SequentialAnswer answer = SequentialAnswer::go_on;
  bool practise_first = false;  // the series is closed: passing a practice run opens the next
  int tests = 0;                // in the newest series
  int passed = 0;
  int lessons = 0;  // different ones among the passed
  int days = 0;     // passes that lie days_apart from one another
  int all_tests = 0;
  int all_failed = 0;
  std::int64_t shown_s = 0;            // newest passed test since the person was found competent; 0: was not
  std::vector<double> path;            // LLR after each test of the newest series, for the chart
  std::vector<std::int64_t> evidence;  // ids of the tests that the answer rests on
};

SkillVerdict judge_skill(const std::string& skill, const Demand& demand,
                         const std::map<std::string, Lesson>& lessons, const std::vector<TestRun>& runs);

// One task that a named person observed at the machine.
struct ObservedTask {
  std::string uid;
  std::string task;
  bool passed = false;
  std::int64_t at_s = 0;
};

struct DemandState {
  bool met = false;
  std::map<std::string, SkillVerdict> skills;
  std::map<std::string, std::string> seen;  // task -> uid of the newest observation in which it was done well
  std::vector<std::string> missing;         // what is still required, one line each, in plain words
  std::int64_t until_s = 0;  // when met: end of validity, oldest part of the evidence + valid_days
};

// Judges any number of people by one demand: bounds, and which lesson trains which skill, are computed once.
// Demand, skills and lessons must outlive it.
class DemandJudge {
 public:
  DemandJudge(const Demand& demand, const Skills& skills, const std::map<std::string, Lesson>& lessons);
  // `now_s`: parts older than valid_days no longer count.
  DemandState judge(const std::vector<TestRun>& runs, const std::vector<ObservedTask>& seen,
                    std::int64_t now_s) const;
  // One verdict for each of the demand's skills, in their order.
  std::vector<SkillVerdict> verdicts(const std::vector<TestRun>& runs) const;

 private:
  const Demand* demand_;
  SequentialTest walk_;
  std::vector<std::string> names_;                              // of the skills, for people
  std::vector<int> lessons_needed_;                             // of each skill
  std::map<std::string, std::size_t> places_;                   // skill -> place in demand.skills
  std::map<std::string, std::vector<std::size_t>> trained_by_;  // lesson -> places in demand.skills
};

// The same for one person.
DemandState judge_demand(const Demand& demand, const Skills& skills,
                         const std::map<std::string, Lesson>& lessons, const std::vector<TestRun>& runs,
                         const std::vector<ObservedTask>& seen, std::int64_t now_s);

}  // namespace stirbench::training
