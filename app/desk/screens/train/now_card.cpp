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
    return wants;
  }
  const bool question = work::asks_to_point(*step);  // to ask is no hint
  if (question && (run.mode() == work::RunMode::test || run.mode() == work::RunMode::practice)) {
    text(ui, tr(step->now), {.type = kit::Type::step, .id = "now.step"});
    if (run.mode() == work::RunMode::practice && !state.hint_open &&
        button(ui, "now.hint", tr("Give me a hint")))
      state.hint_open = wants.hint = true;
    if (state.hint_open) text(ui, tr(step->hint), {.id = "now.more"});
    draw_pointed(ui, state.pointed);
  } else if (run.mode() == work::RunMode::test) {
    step_text(ui, tr("Test: no hints. Run the batch as you have learnt it."));
  } else if (run.mode() == work::RunMode::practice && !state.hint_open) {
    step_text(ui, tr("Do the next step."));
    if (button(ui, "now.hint", tr("Give me a hint"))) state.hint_open = wants.hint = true;
  } else {
    text(ui, tr(step->now), {.type = kit::Type::step, .id = "now.step"});
    text(ui, tr(step->why), {.colour = kit::Token::act});
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
  return wants;
}

}  // namespace stirbench::desk::screens
