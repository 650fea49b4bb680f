#include "app/desk/screens/train/now_card.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/work/run/pointing.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

const training::LessonStep* step_of(const work::LiveRun& run) {
  const training::Lesson* lesson = run.lesson();
  if (lesson == nullptr) return nullptr;
  const auto index = static_cast<std::size_t>(run.current_step());
  return index < lesson->steps.size() ? &lesson->steps[index] : nullptr;
}

// Criteria lost so far: said at once in guided and practice runs, so that one can see why and go on.
void missed(kit::Ui& ui, const work::LiveRun& run) {
  const training::Scorer* scorer = run.scorer();
  if (scorer == nullptr || run.mode() == work::RunMode::test || scorer->missed_so_far().empty()) return;
  const int index = scorer->missed_so_far().back();
  const training::Criterion& criterion = run.lesson()->criteria[static_cast<std::size_t>(index)];
  gap(ui, 4.0F);
  notice(ui, "now.missed", criterion.must_pass ? kit::Status::bad : kit::Status::due,
         tr("Lost: {what}", {{"what", tr(criterion.title)}}));
}

void free_words(kit::Ui& ui, const work::LiveRun& run) {
  const bool any = control::any_latched(run.state().control);
  step_text(ui, any ? tr("Put the cause right, then press Stop to clear the alarm.")
                    : tr("The machine is yours. Pour, choose a recipe, run it."));
  text(ui, tr("Nothing you break here costs anything."), {.colour = kit::Token::act});
}

}  // namespace

std::string pointed_widget(const work::LiveRun& run, const kit::Registry& registry) {
  const training::LessonStep* step = step_of(run);
  if (step == nullptr) return "";
  const std::string& wanted = step->point_at;
  const kit::Widget* found = registry.find(wanted);
  if (found != nullptr) return wanted;
  if (wanted.rfind("scale.", 0) == 0) return "hand.pour";
  if (wanted == "hand.pour") return "scale.pour";
  // Behind another of the panel's three lists: its chip leads there; behind the scale, the way back does.
  if (wanted.rfind("hand.", 0) == 0 && registry.find("scale.back") != nullptr) return "scale.back";
  const bool safety =
      wanted.rfind("hand.lockout.", 0) == 0 || wanted.rfind("hand.test_", 0) == 0 || wanted == "hand.alarms";
  if (safety) return "hand.group.safety";
  if (wanted.rfind("hand.clean.", 0) == 0) return "hand.group.cleaning";
  if (wanted.rfind("hand.", 0) == 0) return "hand.group.machine";
  return wanted;
}

NowCardRequests draw_now_card(kit::Ui& ui, NowCardState& state, const work::LiveRun& run,
                              const kit::Rect& rect) {
  NowCardRequests wants;
  if (state.shown_step != run.current_step()) {
    // A new step: hints close; a guided run points by itself until told not to.
    state = NowCardState{.pointing = run.mode() == work::RunMode::guided,
                         .shown_step = run.current_step(),
                         .pointed = state.pointed};
  }
  kit::PanelScope panel(ui, "now", rect,
                        {.caption = tr("Now"), .ground = kit::Token::act2, .border = kit::Token::act});
  const training::LessonStep* step = step_of(run);
  if (run.lesson() == nullptr) {
    free_words(ui, run);
    return wants;
  }
  if (step == nullptr) {
    step_text(ui, tr("All steps are done."));
    if (button(ui, "now.finish", tr("End and see the score"), {.kind = kit::ButtonKind::primary}))
      wants.finish = true;
    missed(ui, run);
    return wants;
  }
  const bool question = work::asks_to_point(*step);  // to ask is no hint
  if (question && (run.mode() == work::RunMode::test || run.mode() == work::RunMode::practice)) {
    text(ui, tr(step->now), {.type = kit::Type::step, .id = "now.step"});
    if (run.mode() == work::RunMode::practice && !state.hint_open &&
        button(ui, "now.hint", tr("Give me a hint")))
      state.hint_open = true;
    if (state.hint_open) text(ui, tr(step->hint), {.id = "now.more"});
    draw_pointed(ui, state.pointed);
  } else if (run.mode() == work::RunMode::test) {
    step_text(ui, tr("Test: no hints. Run the batch as you have learnt it."));
  } else if (run.mode() == work::RunMode::practice && !state.hint_open) {
    step_text(ui, tr("Do the next step."));
    if (button(ui, "now.hint", tr("Give me a hint"))) state.hint_open = true;
  } else {
    const work::SearchAdvice& search = state.adviser.advice(run, *step);
    text(ui, tr(step->now), {.type = kit::Type::step, .id = "now.step"});
    text(ui, tr(search.searching ? search.now : step->why),
         {.colour = kit::Token::act, .id = "now.why_line"});
    if (search.searching && !search.why.empty())
      text(ui, search.why, {.type = kit::Type::caption, .id = "now.check_why"});
    gap(ui, 4.0F);
    if (!step->point_at.empty()) {
      if (button(ui, "now.point", tr("Show me where"), {.selected = state.pointing}))
        state.pointing = !state.pointing;
      if (!step->hint.empty()) same_line(ui);
    }
    if (!step->hint.empty()) {
      if (button(ui, "now.why", tr("Tell me more"), {.selected = state.why_open}))
        state.why_open = !state.why_open;
    }
    if (state.why_open) text(ui, tr(step->hint), {.id = "now.more"});
    draw_pointed(ui, state.pointed);
  }
  missed(ui, run);
  return wants;
}

}  // namespace stirbench::desk::screens
