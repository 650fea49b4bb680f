#include "app/desk/work/debrief/best_run.h"

#include <algorithm>
#include <chrono>
#include <utility>

#include "app/desk/kit/text/text.h"
#include "app/library/reading/paths.h"
#include "sim_core/training/guidance/follower.h"

namespace stirbench::desk::work {

using kit::tr;

namespace {

const records::Attempt* best_of(const std::vector<records::Attempt>& all, const machine::Machine& machine,
                                const training::Lesson& lesson, double better_than) {
  const records::Attempt* best = nullptr;
  for (const records::Attempt& one : all) {
    const bool same = one.finished && one.lesson == lesson.id && one.lesson_hash == lesson.hash &&
                      one.machine == machine.plant.id;
    if (same && one.passed && one.score_norm > better_than &&
        (best == nullptr || one.score_norm > best->score_norm))
      best = &one;
  }
  return best;
}

std::optional<BestRunQuestion> own_question(Desk& desk, const machine::Machine& machine,
                                            const training::Lesson& lesson, double better_than) {
  if (!desk.store || !desk.debrief || desk.debrief->person == 0) return std::nullopt;
  const std::vector<records::Attempt> all = desk.store->attempts(desk.debrief->person);
  const records::Attempt* best = best_of(all, machine, lesson, better_than);
  if (best == nullptr) return std::nullopt;
  BestRunQuestion out{BestRunQuestion::Kind::own,      machine,          lesson,
                      desk.store->journal_text(*best), best->score_norm, {}};
  // By its own draws, which are not those of the run that is looked at.
  journal::Journal head;
  if (!journal::read_journal(out.journal_text, head).message.empty()) return std::nullopt;
  if (auto drawn = desk.library.lesson(lesson.id, head.header.start.seed)) out.lesson = std::move(*drawn);
  return out;
}

std::optional<BestRunQuestion> right_question(const Desk& desk, const machine::Machine& machine,
                                              const training::Lesson& lesson) {
  library::ActionsResult actions =
      library::read_actions(desk.content_dir + "/lessons/" + lesson.id + "/right.jsonl", machine);
  if (!actions.problems.empty()) return std::nullopt;
  // It was written for the usual draws.
  const auto usual = desk.library.lessons.find(lesson.id);
  const training::Lesson& of = usual == desk.library.lessons.end() ? lesson : usual->second;
  return BestRunQuestion{BestRunQuestion::Kind::right, machine, of, {}, 0.0, std::move(actions.actions)};
}

BestRun no_run(std::string why) {
  BestRun out;
  out.problem = std::move(why);
  return out;
}

BestRun of_journal(const BestRunQuestion& question, const std::string& text, std::string title, bool own,
                   double score_norm) {
  DebriefModel model = build_debrief(question.machine, &question.lesson, text);
  if (!model.verified) return no_run(model.problem);
  return {std::move(title),
          own,
          score_norm,
          model.ended_s,
          std::move(model.history),
          std::move(model.step_began_s),
          {}};
}

BestRun followed(const BestRunQuestion& question, const std::atomic<bool>& cancelled) {
  std::string text;
  training::LessonRun run(question.machine, question.lesson, "actions_file", "compare",
                          question.lesson.start.seed, [&text](std::string_view record) { text += record; });
  const training::Followed end = training::follow(run, {}, [&cancelled] { return cancelled.load(); });
  run.session().end();
  if (cancelled) return no_run("Stopped.");
  if (end.end != training::Followed::End::passed)
    return no_run(tr("The guide itself could not pass from this start. {why}", {{"why", tr(end.why)}}));
  return of_journal(question, text, tr("The guide from this very start"), false, end.card.score_norm);
}

BestRun right(const BestRunQuestion& question, const std::atomic<bool>& cancelled) {
  const training::Lesson& lesson = question.lesson;
  training::LessonRun run(question.machine, lesson, "actions_file", "compare", lesson.start.seed);
  BestRun best;
  best.title = tr("The lesson's own right run");
  const auto see = [&](const machine::State& state, const std::vector<machine::Event>&) {
    while (static_cast<int>(best.step_began_s.size()) < run.scorer().current_step())
      best.step_began_s.push_back(machine::time_s(state));
  };
  bench::drive(
      run, bench::ActionScript(question.hands), [&] { return run.over() || cancelled; }, see);
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

std::optional<BestRunQuestion> best_run_question(Desk& desk, const machine::Machine& machine,
                                                 const training::Lesson& lesson, const DebriefModel& model) {
  try {
    const bool draws = desk.library.varied_lessons.count(lesson.id) > 0;
    if (draws && training::can_follow(lesson))
      return BestRunQuestion{BestRunQuestion::Kind::followed, machine, lesson, {}, 0.0, {}};
    if (auto own = own_question(desk, machine, lesson, model.card ? model.card->score_norm : 0.0)) return own;
    return right_question(desk, machine, lesson);
  } catch (const std::exception&) {
    // A journal that is gone, or content that changed under it: there is then nothing to compare with.
    return std::nullopt;
  }
}

BestRun play_best_run(const BestRunQuestion& question, const std::atomic<bool>& cancelled) {
  try {
    switch (question.kind) {
      case BestRunQuestion::Kind::followed: return followed(question, cancelled);
      case BestRunQuestion::Kind::own:
        return of_journal(question, question.journal_text, tr("Your best run so far"), true,
                          question.score_norm);
      case BestRunQuestion::Kind::right: return right(question, cancelled);
    }
  } catch (const std::exception& error) {
    return no_run(error.what());
  }
  return {};
}

void BestRunSearch::start(BestRunQuestion question) {
  cancel();
  cancelled_ = std::make_shared<std::atomic<bool>>(false);
  std::promise<BestRun> promise;
  running_ = promise.get_future();
  // The run is stored before `wake` is called, so that the woken thread finds it.
  worker_ = std::jthread([question = std::move(question), cancelled = cancelled_, wake = wake_,
                          promise = std::move(promise)]() mutable {
    promise.set_value(play_best_run(question, *cancelled));
    if (wake) wake();
  });
}

void BestRunSearch::cancel() {
  *cancelled_ = true;
  if (worker_.joinable()) worker_.join();
  running_ = {};
  found_.reset();
}

const std::optional<BestRun>& BestRunSearch::poll() {
  if (running_.valid() && running_.wait_for(std::chrono::seconds(0)) == std::future_status::ready)
    found_ = running_.get();
  return found_;
}

}  // namespace stirbench::desk::work
