#include "app/desk/debrief/compare.h"

#include <algorithm>

#include "app/desk/debrief/score_list.h"
#include "app/desk/text/text.h"
#include "app/desk/ui/widgets.h"
#include "app/library/paths.h"
#include "sim_core/training/play.h"

namespace stirbench::desk {

namespace {

std::optional<BestRun> own_best(Desk& desk, const bench::Machine& machine, const training::Lesson& lesson, double better_than) {
  if (!desk.store || !desk.debrief || desk.debrief->person == 0) return std::nullopt;
  const records::Attempt* best = nullptr;
  const std::vector<records::Attempt> all = desk.store->attempts(desk.debrief->person);
  for (const records::Attempt& one : all) {
    const bool same = one.finished && one.lesson == lesson.id && one.lesson_hash == lesson.hash && one.machine == machine.plant.id;
    if (same && one.passed && one.score_norm > better_than && (best == nullptr || one.score_norm > best->score_norm)) best = &one;
  }
  if (best == nullptr) return std::nullopt;
  DebriefModel model = build_debrief(machine, &lesson, desk.store->journal_text(*best));
  if (!model.verified) return std::nullopt;
  const double end_s = model.end_s();
  return BestRun{tr("Your best run so far"), true, best->score_norm, end_s, std::move(model.history), std::move(model.step_began_s)};
}

std::optional<BestRun> right_run(const Desk& desk, const bench::Machine& machine, const training::Lesson& lesson) {
  library::ActionsResult actions = library::read_actions(desk.content_dir + "/lessons/" + lesson.id + "/right.jsonl", machine);
  if (!actions.problems.empty()) return std::nullopt;
  training::LessonRun run(machine, lesson, "actions_file", "compare", lesson.start.seed);
  BestRun best;
  best.title = tr("The lesson's own right run");
  const auto see = [&](const bench::State& state, const std::vector<bench::Event>&) {
    while (static_cast<int>(best.step_began_s.size()) < run.scorer().current_step()) best.step_began_s.push_back(bench::time_s(state));
  };
  bench::drive(run, bench::Script(std::move(actions.actions)), [&run] { return run.over(); }, see);
  best.history = run.session().history();
  best.end_s = bench::time_s(run.session().state());
  best.score_norm = run.card().score_norm;
  return best;
}

bool is_of_hands(const bench::Event& event) { return event.kind == bench::EventKind::acted; }

// The hands' own events of a span, each with its time since the span began.
double rows(Ui& ui, const char* id, const std::vector<bench::Event>& history, const StepSpan& span, const bench::Machine& machine) {
  double moment = -1.0;
  int number = 0;
  for (const bench::Event& event : history) {
    const double at_s = static_cast<double>(event.tick) * bench::tick_s;
    if (!is_of_hands(event) || at_s < span.from_s || at_s > span.to_s) continue;
    RowStyle row;
    row.title = event_words(event, machine, ui);
    row.right = "+" + show_duration(at_s - span.from_s);
    if (list_row(ui, std::string(id) + "." + std::to_string(number++), row)) moment = at_s;
  }
  if (number == 0) text(ui, tr("Nothing was done by hand: it waited."), {.type = Type::caption, .colour = Token::ink2});
  return moment;
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
  const auto step = static_cast<std::size_t>(std::upper_bound(began.begin(), began.end(), at_s) - began.begin());
  return span_of(began, end_s, step);
}

std::optional<BestRun> find_best_run(Desk& desk, const bench::Machine& machine, const training::Lesson& lesson, const DebriefModel& model) {
  try {
    if (auto own = own_best(desk, machine, lesson, model.card ? model.card->score_norm : 0.0)) return own;
    return right_run(desk, machine, lesson);
  } catch (const std::exception&) {
    // A journal that is gone, or content that changed under it: there is then nothing to compare with.
    return std::nullopt;
  }
}

double draw_compare(Ui& ui, const BestRun* best, const DebriefModel& model, const training::Lesson& lesson, const bench::Machine& machine,
                    double at_s, const Rect& rect) {
  PanelScope panel(ui, "debrief.compare", rect, {.caption = tr("What the best run did instead")});
  if (best == nullptr) {
    text(ui, tr("There is no run to compare with."), {.colour = Token::ink2});
    return -1.0;
  }
  const StepSpan here = span_at(model.step_began_s, model.end_s(), at_s);
  const StepSpan there = span_of(best->step_began_s, best->end_s, here.step);
  if (here.step < lesson.steps.size())
    text(ui, tr("Step {n} of {m}: {what}",
                {{"n", std::to_string(here.step + 1)}, {"m", std::to_string(lesson.steps.size())}, {"what", tr(lesson.steps[here.step].now)}}),
         {.type = Type::body_bold, .id = "debrief.compare.step"});
  else text(ui, tr("After the last step"), {.type = Type::body_bold, .id = "debrief.compare.step"});
  gap(ui, 8.0F);
  text(ui, best->title + (there.reached ? ", " + show_duration(there.to_s - there.from_s) : ""), {.colour = Token::ink2, .id = "debrief.compare.title"});
  if (there.reached) rows(ui, "debrief.best", best->history, there, machine);
  else text(ui, tr("That run ended before this step."), {.type = Type::caption, .colour = Token::ink2});
  gap(ui, 10.0F);
  text(ui, tr("This run") + ", " + show_duration(here.to_s - here.from_s), {.colour = Token::ink2});
  return rows(ui, "debrief.this", model.history, here, machine);
}

}  // namespace stirbench::desk
