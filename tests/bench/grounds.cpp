#include <cstdio>
#include <string>

#include "app/library/library.h"
#include "sim_core/training/lesson_run.h"

// How the naming of causes is judged in the fault lessons.   bench_grounds CONTENT [LESSON ACTIONS]
using namespace stirbench;

namespace {

void print_run(const library::Library& library, const training::Lesson& lesson, const std::string& file) {
  const machine::Machine machine = library.machine(lesson.machine);
  library::ActionsResult actions = library::read_actions(file, machine);
  for (const auto& problem : actions.problems) std::printf("%s\n", problem.text().c_str());
  training::LessonRun run(machine, lesson, "actions_file", "bench", lesson.start.seed);
  run.session();
  std::size_t names = 0;
  bench::drive(run, bench::ActionScript(std::move(actions.actions)), [&] {
    const training::Grounds* grounds = run.scorer().grounds();
    if (grounds != nullptr && grounds->namings().size() > names) {
      const training::Naming& one = grounds->namings()[names++];
      std::printf("  %-28s %.4f %s\n", one.cause.c_str(), one.p,
                  std::string(training::standing_word(one.standing)).c_str());
      for (const training::Found& found : grounds->findings())
        std::printf("      %5.0f s  %s: %s (%zu)\n", 0.1 * static_cast<double>(found.tick),
                    found.title.c_str(), found.words.c_str(), found.outcome);
      const diagnosis::Model model = grounds->model();
      const diagnosis::Posterior p = diagnosis::posterior(model, grounds->as_findings());
      const auto ranked = p.ranked();
      for (std::size_t i = 0; i < 6; ++i)
        std::printf("        %.4f %s\n", ranked[i].p, model.causes[ranked[i].cause].id.c_str());
      std::printf("        unknown %.4f pairs %.4f\n", p.unknown_p, p.pair_p);
    }
    return run.over();
  });
  const training::ScoreCard card = run.card();
  std::printf("  %s %.2f missed:", card.passed ? "passed" : "not passed", card.score_norm);
  for (const auto& one : card.criteria)
    if (!one.met) std::printf(" %s", one.id.c_str());
  std::printf("\n");
}

}  // namespace

int main(int argc, char** argv) {
  const std::string content = argc > 1 ? argv[1] : "content";
  library::LoadResult loaded = library::load(content, "");
  for (const auto& problem : loaded.problems) std::printf("%s\n", problem.text().c_str());
  for (auto& [id, lesson] : loaded.library.lessons) {
    if (argc > 2 ? id != argv[2] : !id.starts_with("find-")) continue;
    lesson.guide = loaded.library.grounds.at(lesson.machine);
    std::printf("%s\n", id.c_str());
    print_run(loaded.library, lesson, argc > 3 ? argv[3] : content + "/lessons/" + id + "/right.jsonl");
  }
  return 0;
}
