#include "app/library/lessons/prove_lessons.h"

#include <algorithm>
#include <filesystem>
#include <map>
#include <set>

#include "sim_core/machine/uncertain.h"
#include "sim_core/training/lesson_run.h"

namespace stirbench::library {

namespace fs = std::filesystem;

namespace {

struct Played {
  training::ScoreCard card;
  std::size_t steps = 0;
};

Played play(const machine::Machine& machine, const training::Lesson& lesson, const std::string& file) {
  ActionsResult actions = read_actions(file, machine);
  training::LessonRun run(machine, lesson, "actions_file", "check", lesson.start.seed);
  training::play_to_end(run, std::move(actions.actions));
  return {run.card(), static_cast<std::size_t>(run.scorer().current_step())};
}

void prove_right(const training::Lesson& lesson, const Played& right, std::vector<Problem>& problems) {
  const std::string file = "lessons/" + lesson.id + "/right.jsonl";
  for (const training::CriterionResult& c : right.card.criteria) {
    if (!c.met) problems.push_back({file, "", "a run that meets \"" + c.id + "\"", c.why});
  }
  if (right.steps < lesson.steps.size())
    problems.push_back({file, "", "a run that does every step",
                        "it stops at step \"" + lesson.steps[right.steps].id + "\""});
  if (!right.card.passed) problems.push_back({file, "", "a run that passes", "one that does not"});
}

}  // namespace

std::vector<std::string> wrong_runs(const std::string& folder) {
  std::vector<std::string> out;
  std::error_code error;
  for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error)) {
    const std::string name = it->path().filename().string();
    if (name.starts_with("wrong-") && name.ends_with(".jsonl")) out.push_back(it->path().string());
  }
  std::sort(out.begin(), out.end());
  return out;
}

std::vector<Problem> prove_lessons(const std::string& content_dir, const Library& library,
                                   std::vector<SkillGap>* gaps) {
  std::vector<Problem> problems;
  for (const auto& [id, lesson] : library.lessons) {
    const machine::Machine machine = library.machine(lesson.machine);
    const fs::path folder = fs::path(content_dir) / "lessons" / id;
    prove_right(lesson, play(machine, lesson, (folder / "right.jsonl").string()), problems);
    std::set<std::string> missed;
    std::vector<training::ScoreCard> cards;
    for (const std::string& file : wrong_runs(folder.string())) {
      cards.push_back(play(machine, lesson, file).card);
      for (const auto& c : cards.back().criteria) {
        if (training::is_missed(c)) missed.insert(c.id);
      }
    }
    for (SkillGap& gap : skill_gaps(lesson, cards))
      if (gaps != nullptr) gaps->push_back(std::move(gap));
    for (std::size_t i = 0; i < lesson.criteria.size(); ++i) {
      if (!lesson.criteria[i].everywhere && missed.count(lesson.criteria[i].id) == 0)
        problems.push_back({"lessons/" + id + "/lesson.json", "/criteria/" + std::to_string(i),
                            "a wrong-*.jsonl in which \"" + lesson.criteria[i].id + "\" is missed",
                            "it is met in every one"});
    }
  }
  return problems;
}

std::vector<Unsure> unsure_criteria(const std::string& content_dir, const Library& library, int runs) {
  std::vector<Unsure> out;
  for (const auto& [id, lesson] : library.lessons) {
    const machine::Machine shipped = library.machine(lesson.machine);
    const std::string right = (fs::path(content_dir) / "lessons" / id / "right.jsonl").string();
    std::map<std::string, int> missed;
    for (int i = 1; i <= runs; ++i) {
      const Played played = play(machine::drawn(shipped, static_cast<std::uint64_t>(i)), lesson, right);
      for (const training::CriterionResult& c : played.card.criteria)
        if (!c.met) ++missed[c.id];
    }
    for (const auto& [criterion, times] : missed) out.push_back({id, criterion, times, runs});
  }
  return out;
}

}  // namespace stirbench::library
