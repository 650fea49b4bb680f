#include "sim_core/training/skills.h"

#include <doctest/doctest.h>

using namespace stirbench::training;

namespace {

constexpr std::int64_t day = 86400;

Skill skill(const std::string& id, bool safety, std::vector<std::string> needs = {}, int repeat_days = 365) {
  Skill s;
  s.id = id;
  s.safety = safety;
  s.needs = std::move(needs);
  s.repeat_days = repeat_days;
  return s;
}

Skills course_skills() {
  return {{"guards", skill("guards", true, {}, 30)},
          {"isolation", skill("isolation", true, {"guards"})},
          {"running", skill("running", false)},
          {"fixing", skill("fixing", false, {"isolation", "running"})}};
}

std::map<std::string, Lesson> course_lessons() {
  std::map<std::string, Lesson> lessons;
  const auto add = [&lessons](const std::string& id, double minutes, std::vector<std::string> skills) {
    lessons[id].id = id;
    lessons[id].minutes = minutes;
    lessons[id].skills = std::move(skills);
  };
  add("trip-it", 8, {"guards"});
  add("switch-off", 8, {"isolation"});
  add("batch", 20, {"running"});
  add("repair", 30, {"fixing"});
  return lessons;
}

Proposal propose(const std::vector<LessonAttempt>& runs, std::int64_t now_s) {
  const Skills skills = course_skills();
  const auto lessons = course_lessons();
  return next_lesson(skills, lessons, skill_states(skills, lessons, runs), runs, now_s);
}

}  // namespace

TEST_CASE("the course: safety first, then what comes after, a failed one again, a due one before all") {
  const std::int64_t t = 1'800'000'000;
  Proposal p = propose({}, t);
  CHECK(p.lesson == "trip-it");  // isolation needs guards
  CHECK(p.reason == ProposalReason::next_in_course);
  std::vector<LessonAttempt> runs = {{"trip-it", t, true}};
  CHECK(propose(runs, t + 60).lesson == "switch-off");
  runs.push_back({"switch-off", t + 100, false});
  p = propose(runs, t + 200);
  CHECK(p.lesson == "switch-off");
  CHECK(p.reason == ProposalReason::failed_last);
  runs.push_back({"switch-off", t + 300, true});
  CHECK(propose(runs, t + 400).lesson == "batch");
  runs.push_back({"batch", t + 500, true});
  CHECK(propose(runs, t + 600).lesson == "repair");
  runs.push_back({"repair", t + 700, true});
  CHECK(propose(runs, t + 800).reason == ProposalReason::nothing);
  // Much later the guards are due again, and go before everything.
  p = propose(runs, t + 40 * day);
  CHECK(p.reason == ProposalReason::due_again);
  CHECK((p.skill == "guards" || p.skill == "isolation"));
}

TEST_CASE("skill states: heuristic mastery rises, due dates grow up to the skill's own ceiling") {
  const Skills skills = course_skills();
  const auto lessons = course_lessons();
  const std::int64_t t = 1'800'000'000;
  std::vector<LessonAttempt> runs;
  std::int64_t at = t;
  double known = 0.0;
  for (int i = 0; i < 8; ++i) {
    runs.push_back({"trip-it", at, true});
    const SkillState state = skill_states(skills, lessons, runs).at("guards");
    CHECK(state.known_norm > known);
    CHECK(state.due_s >= at + day);
    CHECK(state.due_s <= at + 30 * day);
    known = state.known_norm;
    at = state.due_s;
  }
  CHECK(known > mastered_norm);
  const SkillState last = skill_states(skills, lessons, runs).at("guards");
  CHECK(last.due_s == last.last_s + 30 * day);
  CHECK(last.attempts == 8);
  runs.push_back({"trip-it", at, false});
  CHECK(skill_states(skills, lessons, runs).at("guards").known_norm < known);
  CHECK_FALSE(skill_states(skills, lessons, runs).at("running").shown);
}

TEST_CASE("a ring of prerequisites is found and named") {
  CHECK(prerequisite_cycle(course_skills()).empty());
  Skills skills = course_skills();
  skills["guards"].needs = {"fixing"};
  const std::vector<std::string> ring = prerequisite_cycle(skills);
  REQUIRE(ring.size() >= 3);
  CHECK(ring.front() == ring.back());
}
