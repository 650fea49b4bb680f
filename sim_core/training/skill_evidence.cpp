#include "sim_core/training/skill_evidence.h"

#include <algorithm>

namespace stirbench::training {

namespace {

constexpr double mark_slack = 1.0e-9;  // rounding of sums of points

SkillMark whole_mark(const std::string& skill, const ScoreCard& card) {
  SkillMark mark{skill, card.passed, 0};
  for (const CriterionResult& c : card.criteria)
    if (c.must_pass && is_missed(c)) ++mark.musts_missed;
  return mark;
}

SkillMark own_mark(const std::string& skill, const ScoreCard& card) {
  SkillMark mark{skill, !card.injured, 0};
  double earned = 0.0;
  double all = 0.0;
  bool at_stake = false;
  for (const CriterionResult& c : card.criteria) {
    if (c.skill != skill) continue;
    earned += c.points;
    all += c.of;
    at_stake = at_stake || c.occasion;
    if (c.must_pass && is_missed(c)) ++mark.musts_missed;
    if (c.must_pass && !c.met) mark.passed = false;
  }
  mark.passed = mark.passed && at_stake && earned >= card.pass_norm * all - mark_slack;
  return mark;
}

bool names(const Lesson& lesson, const std::string& skill) {
  return std::any_of(lesson.criteria.begin(), lesson.criteria.end(),
                     [&skill](const Criterion& one) { return one.skill == skill; });
}

bool names_none(const Lesson& lesson) {
  return std::all_of(lesson.criteria.begin(), lesson.criteria.end(),
                     [](const Criterion& one) { return one.skill.empty(); });
}

}  // namespace

std::vector<std::string> judged_skills(const Lesson& lesson) {
  if (names_none(lesson)) return lesson.skills;
  std::vector<std::string> out;
  for (const std::string& skill : lesson.skills)
    if (names(lesson, skill)) out.push_back(skill);
  return out;
}

std::vector<SkillMark> skill_marks(const Lesson& lesson, const ScoreCard& card) {
  const bool as_a_whole = names_none(lesson);
  std::vector<SkillMark> out;
  for (const std::string& skill : judged_skills(lesson))
    out.push_back(as_a_whole ? whole_mark(skill, card) : own_mark(skill, card));
  return out;
}

}  // namespace stirbench::training
