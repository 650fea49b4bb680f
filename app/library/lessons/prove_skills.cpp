#include "app/library/lessons/prove_skills.h"

#include <algorithm>

#include "sim_core/training/skill_evidence.h"

namespace stirbench::library {

namespace {

using training::CriterionResult;
using training::Lesson;
using training::ScoreCard;

// Must-pass items went wrong, all of them of this skill.
bool fails_only(const ScoreCard& card, const std::string& skill) {
  bool any = false;
  for (const CriterionResult& c : card.criteria) {
    if (!c.must_pass || c.met) continue;
    if (c.skill != skill) return false;
    any = any || training::is_missed(c);
  }
  return any;
}

std::string gap_of(const Lesson& lesson, const std::string& skill, const std::vector<ScoreCard>& wrong_runs) {
  bool named = false;
  bool decided = false;
  for (const training::Criterion& c : lesson.criteria) {
    named = named || c.skill == skill;
    decided = decided || (c.skill == skill && c.must_pass);
  }
  if (!named) return "no criterion shows it";
  if (!decided) return "no must-pass item decides it";
  const bool told = std::any_of(wrong_runs.begin(), wrong_runs.end(),
                                [&skill](const ScoreCard& card) { return fails_only(card, skill); });
  return told ? "" : "no wrong run fails only its must-pass items";
}

}  // namespace

std::vector<SkillGap> skill_gaps(const Lesson& lesson, const std::vector<ScoreCard>& wrong_runs) {
  std::vector<SkillGap> out;
  for (const std::string& skill : lesson.skills) {
    std::string lacks = gap_of(lesson, skill, wrong_runs);
    if (!lacks.empty()) out.push_back({"lessons/" + lesson.id, skill, std::move(lacks)});
  }
  return out;
}

std::vector<SkillGap> demand_gaps(const Library& library) {
  std::vector<SkillGap> out;
  for (const auto& [id, demand] : library.demands) {
    for (const std::string& skill : demand.skills) {
      const auto count =
          std::count_if(library.lessons.begin(), library.lessons.end(), [&](const auto& entry) {
            const std::vector<std::string> judged = training::judged_skills(entry.second);
            return std::find(judged.begin(), judged.end(), skill) != judged.end();
          });
      if (count < demand.lessons_each)
        out.push_back({"assessments/" + id, skill,
                       std::to_string(count) + " of " + std::to_string(demand.lessons_each) +
                           " different lessons judge it"});
    }
  }
  return out;
}

}  // namespace stirbench::library
