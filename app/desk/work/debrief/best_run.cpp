#include "app/desk/work/debrief/best_run.h"

#include <algorithm>
#include <utility>

#include "app/desk/kit/text/text.h"
#include "app/library/reading/paths.h"
#include "sim_core/training/lesson_run.h"

namespace stirbench::desk::work {

using kit::tr;

namespace {

std::optional<BestRun> own_best(Desk& desk, const machine::Machine& machine, const training::Lesson& lesson,
                                double better_than) {
  if (!desk.store || !desk.debrief || desk.debrief->person == 0) return std::nullopt;
  const records::Attempt* best = nullptr;
  const std::vector<records::Attempt> all = desk.store->attempts(desk.debrief->person);
  for (const records::Attempt& one : all) {
    const bool same = one.finished && one.lesson == lesson.id && one.lesson_hash == lesson.hash &&
                      one.machine == machine.plant.id;
    if (same && one.passed && one.score_norm > better_than &&
        (best == nullptr || one.score_norm > best->score_norm))
      best = &one;
  }
  if (best == nullptr) return std::nullopt;
  // By its own draws, which are not those of the run that is looked at.
  const std::string text = desk.store->journal_text(*best);
  journal::Journal head;
  if (!journal::read_journal(text, head).message.empty()) return std::nullopt;
  const std::optional<training::Lesson> drawn = desk.library.lesson(lesson.id, head.header.start.seed);
  DebriefModel model = build_debrief(machine, drawn ? &*drawn : &lesson, text);
  if (!model.verified) return std::nullopt;
  const double end_s = model.ended_s;
  return BestRun{tr("Your best run so far"),   true, best->score_norm, end_s, std::move(model.history),
                 std::move(model.step_began_s)};
}

std::optional<BestRun> right_run(const Desk& desk, const machine::Machine& machine,
                                 const training::Lesson& lesson) {
  library::ActionsResult actions =
      library::read_actions(desk.content_dir + "/lessons/" + lesson.id + "/right.jsonl", machine);
  if (!actions.problems.empty()) return std::nullopt;
  training::LessonRun run(machine, lesson, "actions_file", "compare", lesson.start.seed);
  BestRun best;
  best.title = tr("The lesson's own right run");
  const auto see = [&](const machine::State& state, const std::vector<machine::Event>&) {
    while (static_cast<int>(best.step_began_s.size()) < run.scorer().current_step())
      best.step_began_s.push_back(machine::time_s(state));
  };
  bench::drive(
      run, bench::ActionScript(std::move(actions.actions)), [&run] { return run.over(); }, see);
  best.history = run.session().history();
  best.end_s = machine::time_s(run.session().state());
  best.score_norm = run.card().score_norm;
  return best;
}

}  // namespace

StepSpan span_of(const std::vector<double>& began, double end_s, std::size_t step) {
  StepSpan span;
  span.step = step;
  span.reached = step <= began.size();
  if (!span.reached) return span;
  span.from_s = step == 0 ? 0.0 : began[step - 1];
  span.to_s = step < began.size() ? began[step] : end_s;
  return span;
}

StepSpan span_at(const std::vector<double>& began, double end_s, double at_s) {
  const auto step =
      static_cast<std::size_t>(std::upper_bound(began.begin(), began.end(), at_s) - began.begin());
  return span_of(began, end_s, step);
}

std::optional<BestRun> find_best_run(Desk& desk, const machine::Machine& machine,
                                     const training::Lesson& lesson, const DebriefModel& model) {
  try {
    if (auto own = own_best(desk, machine, lesson, model.card ? model.card->score_norm : 0.0)) return own;
    // The right run was written for the usual draws.
    const auto usual = desk.library.lessons.find(lesson.id);
    return right_run(desk, machine, usual == desk.library.lessons.end() ? lesson : usual->second);
  } catch (const std::exception&) {
    // A journal that is gone, or content that changed under it: there is then nothing to compare with.
    return std::nullopt;
  }
}

}  // namespace stirbench::desk::work
