#include "sim_core/training/skills.h"

#include <algorithm>
#include <tuple>

namespace stirbench::training {

namespace {

// 0 untouched, 1 on the way, 2 done.
bool walk(const Skills& skills, const std::string& id, std::map<std::string, int>& mark,
          std::vector<std::string>& way) {
  const auto found = skills.find(id);
  if (found == skills.end() || mark[id] == 2) return false;
  way.push_back(id);
  if (mark[id] == 1) return true;
  mark[id] = 1;
  for (const std::string& need : found->second.needs) {
    if (walk(skills, need, mark, way)) return true;
  }
  mark[id] = 2;
  way.pop_back();
  return false;
}

bool teaches(const Lesson& lesson, const std::string& skill) {
  return std::find(lesson.skills.begin(), lesson.skills.end(), skill) != lesson.skills.end();
}

std::vector<SkillMark> marks_of(const LessonAttempt& run, const Lesson& lesson) {
  if (!run.marks.empty()) return run.marks;
  std::vector<SkillMark> out;
  for (const std::string& skill : judged_skills(lesson)) out.push_back({skill, run.passed, 0});
  return out;
}

bool was_shown(const std::map<std::string, SkillState>& states, const std::string& skill) {
  const auto found = states.find(skill);
  return found != states.end() && found->second.shown;
}

// Whether everything that comes before this lesson was shown; its own skills do not count.
bool is_open(const Skills& skills, const Lesson& lesson, const std::map<std::string, SkillState>& states) {
  for (const std::string& id : lesson.skills) {
    const auto skill = skills.find(id);
    if (skill == skills.end()) continue;
    for (const std::string& need : skill->second.needs) {
      if (!teaches(lesson, need) && !was_shown(states, need)) return false;
    }
  }
  return true;
}

// The lesson of a skill that was run longest ago (never counts as longest), then the shortest, then by id.
std::string lesson_for(const std::string& skill, const std::map<std::string, Lesson>& lessons,
                       const std::vector<LessonAttempt>& runs) {
  std::string best;
  std::tuple<std::int64_t, double> best_key;
  for (const auto& [id, lesson] : lessons) {
    if (!teaches(lesson, skill)) continue;
    std::int64_t last = 0;
    for (const LessonAttempt& run : runs) {
      if (run.lesson == id) last = std::max(last, run.at_s);
    }
    const std::tuple<std::int64_t, double> key{last, lesson.minutes};
    if (best.empty() || key < best_key) {
      best = id;
      best_key = key;
    }
  }
  return best;
}

Proposal due_again(const Skills& skills, const std::map<std::string, Lesson>& lessons,
                   const std::map<std::string, SkillState>& states, const std::vector<LessonAttempt>& runs,
                   std::int64_t now_s, bool safety) {
  Proposal out;
  std::int64_t earliest = now_s;
  for (const auto& [id, state] : states) {
    if (!state.shown || state.due_s > earliest || skills.at(id).safety != safety) continue;
    const std::string lesson = lesson_for(id, lessons, runs);
    if (lesson.empty()) continue;
    out = {lesson, id, ProposalReason::due_again};
    earliest = state.due_s;
  }
  return out;
}

Proposal failed_last(const std::map<std::string, Lesson>& lessons, const std::vector<LessonAttempt>& runs) {
  std::map<std::string, const LessonAttempt*> last;
  for (const LessonAttempt& run : runs) last[run.lesson] = &run;
  const LessonAttempt* newest = nullptr;
  for (const auto& [lesson, run] : last) {
    if (run->passed || lessons.count(lesson) == 0) continue;
    if (newest == nullptr || run->at_s > newest->at_s) newest = run;
  }
  if (newest == nullptr) return {};
  const Lesson& lesson = lessons.at(newest->lesson);
  return {newest->lesson, lesson.skills.empty() ? "" : lesson.skills.front(), ProposalReason::failed_last};
}

Proposal next_in_course(const Skills& skills, const std::map<std::string, Lesson>& lessons,
                        const std::map<std::string, SkillState>& states) {
  Proposal out;
  std::tuple<int, double, double> best;
  for (const auto& [id, lesson] : lessons) {
    if (!is_open(skills, lesson, states)) continue;
    for (const std::string& skill : lesson.skills) {
      const auto state = states.find(skill);
      if (state == states.end() || state->second.shown) continue;
      // Safety first, then the least known, then the shortest lesson.
      const std::tuple<int, double, double> key{skills.at(skill).safety ? 0 : 1, state->second.known_norm,
                                                lesson.minutes};
      if (out.lesson.empty() || key < best) {
        out = {id, skill, ProposalReason::next_in_course};
        best = key;
      }
    }
  }
  return out;
}

}  // namespace

std::vector<std::string> prerequisite_cycle(const Skills& skills) {
  std::map<std::string, int> mark;
  for (const auto& [id, unused] : skills) {
    std::vector<std::string> way;
    if (walk(skills, id, mark, way)) {
      way.erase(way.begin(), std::find(way.begin(), way.end(), way.back()));
      return way;
    }
  }
  return {};
}

std::map<std::string, SkillState> skill_states(const Skills& skills,
                                               const std::map<std::string, Lesson>& lessons,
                                               const std::vector<LessonAttempt>& runs, const Course& course) {
  std::map<std::string, SkillState> states;
  std::map<std::string, Memory> memories;
  for (const auto& [id, skill] : skills) states[id].known_norm = course.mastery.prior_norm;
  for (const LessonAttempt& run : runs) {
    const auto lesson = lessons.find(run.lesson);
    if (lesson == lessons.end()) continue;
    for (const SkillMark& mark : marks_of(run, lesson->second)) {
      const auto skill = skills.find(mark.skill);
      if (skill == skills.end()) continue;
      SkillState& state = states[mark.skill];
      Memory& memory = memories[mark.skill];
      memory = after_review(course.memory, memory, mark.passed ? Recall::good : Recall::again,
                            run.at_s - state.last_s);
      state.known_norm = after_attempt(course.mastery, state.known_norm, mark.passed);
      ++state.attempts;
      if (mark.passed) ++state.passes;
      state.shown = state.shown || mark.passed;
      state.last_s = run.at_s;
      state.due_s = run.at_s + std::min(memory.due_s, day_s * skill->second.repeat_days);
      // Hands are not trained again on the same day just because a rule for facts says ten minutes.
      state.due_s = std::max(state.due_s, run.at_s + day_s);
    }
  }
  return states;
}

Proposal next_lesson(const Skills& skills, const std::map<std::string, Lesson>& lessons,
                     const std::map<std::string, SkillState>& states, const std::vector<LessonAttempt>& runs,
                     std::int64_t now_s) {
  Proposal out = due_again(skills, lessons, states, runs, now_s, true);
  if (out.lesson.empty()) out = failed_last(lessons, runs);
  if (out.lesson.empty()) out = due_again(skills, lessons, states, runs, now_s, false);
  if (out.lesson.empty()) out = next_in_course(skills, lessons, states);
  return out;
}

}  // namespace stirbench::training
