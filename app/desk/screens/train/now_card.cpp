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
  const std::size_t index = run.advice().goal;
  return index < lesson->steps.size() ? &lesson->steps[index] : nullptr;
}

// What the words on the card belong to.
std::string shown_of(const work::LiveRun& run) {
  return run.lesson() == nullptr ? "" : std::to_string(run.advice().goal) + " " + run.advice().way;
}

// A run that cannot pass any more says so at once; one may go on all the same. Tests say it at their end.
void lost(kit::Ui& ui, const work::LiveRun& run, NowCardRequests& wants) {
  if (run.mode() == work::RunMode::test || run.prospect().can_pass) return;
  notice(ui, "now.lost", kit::Status::bad,
         tr("This run cannot pass any more. {why}", {{"why", tr(run.prospect().why)}}));
  if (button(ui, "now.again", tr("Try again"))) wants.again = true;
  gap(ui, 4.0F);
}

void free_words(kit::Ui& ui, const work::LiveRun& run) {
  const bool any = control::any_latched(run.state().control);
  step_text(ui, any ? tr("Put the cause right, then press Stop to clear the alarm.")
                    : tr("The machine is yours. Pour, choose a recipe, run it."));
  text(ui, tr("Nothing you break here costs anything."), {.colour = kit::Token::act});
}

// The words of the advice as far as the mode gives them away.
void draw_step(kit::Ui& ui, NowCardState& state, const work::LiveRun& run, const training::LessonStep& step,
               NowCardRequests& wants) {
  const training::Advice& advice = run.advice();
  const bool practice = run.mode() == work::RunMode::practice;
  const bool question = work::asks_to_point(step);  // to ask is no hint
  if (question && (run.mode() == work::RunMode::test || practice)) {
    text(ui, tr(advice.now), {.type = kit::Type::step, .id = "now.step"});
    if (practice && !state.hint_open && button(ui, "now.hint", tr("Give me a hint")))
      state.hint_open = wants.hint = true;
    if (state.hint_open) text(ui, tr(advice.hint), {.id = "now.more"});
    draw_pointed(ui, state.pointed);
  } else if (run.mode() == work::RunMode::test) {
    step_text(ui, tr("Test: no hints. Run the batch as you have learnt it."));
  } else if (practice && !state.hint_open) {
    step_text(ui, tr("Do the next step."));
    if (button(ui, "now.hint", tr("Give me a hint"))) state.hint_open = wants.hint = true;
  } else {
    const work::SearchAdvice& search = state.adviser.advice(run, step);
    text(ui, tr(advice.now), {.type = kit::Type::step, .id = "now.step"});
    text(ui, tr(search.searching ? search.now : advice.why),
         {.colour = kit::Token::act, .id = "now.why_line"});
    if (search.searching && !search.why.empty())
      text(ui, search.why, {.type = kit::Type::caption, .id = "now.check_why"});
    if (advice.kind == training::Advice::Kind::stuck)
      notice(ui, "now.stuck", kit::Status::due,
             advice.refusal.empty()
                 ? tr("The guide knows no way on from here. Put right what you can see.")
                 : tr("Not possible at this moment. {why}", {{"why", tr(advice.refusal)}}));
    gap(ui, 4.0F);
    if (!advice.point_at.empty()) {
      if (button(ui, "now.point", tr("Show me where"), {.selected = state.pointing}))
        state.pointing = !state.pointing;
      if (!advice.hint.empty()) same_line(ui);
    }
    if (!advice.hint.empty() && button(ui, "now.why", tr("Tell me more"), {.selected = state.why_open}))
      state.why_open = !state.why_open;
    if (state.why_open) text(ui, tr(advice.hint), {.id = "now.more"});
    draw_pointed(ui, state.pointed);
  }
}

}  // namespace

std::string pointed_widget(const work::LiveRun& run, const kit::Registry& registry) {
  if (step_of(run) == nullptr) return "";
  const std::string& wanted = run.advice().point_at;
  const kit::Widget* found = registry.find(wanted);
  if (found != nullptr) return wanted;
  if (wanted.rfind("scale.", 0) == 0) return "hand.pour";
  if (wanted == "hand.pour") return "scale.pour";
  // Behind another of the panel's three lists: its chip leads there; behind the scale, the way back does.
  if (wanted.rfind("hand.", 0) == 0 && registry.find("scale.back") != nullptr) return "scale.back";
  const auto within = [&wanted](const char* start) { return wanted.rfind(start, 0) == 0; };
  if (within("hand.lockout.") || within("hand.test_") || wanted == "hand.alarms") return "hand.group.safety";
  if (within("hand.clean.")) return "hand.group.cleaning";
  if (within("hand.parts.") || within("hand.service.")) return "hand.group.parts";
  if (within("hand.fault.")) return "hand.group.faults";
  if (within("hand.")) return "hand.group.machine";
  return wanted;
}

NowCardRequests draw_now_card(kit::Ui& ui, NowCardState& state, const work::LiveRun& run,
                              const kit::Rect& rect) {
  NowCardRequests wants;
  if (const std::string shown = shown_of(run); state.shown != shown) {
    // New words: hints close; a guided run points by itself until told not to.
    state = NowCardState{
        .pointing = run.mode() == work::RunMode::guided, .shown = shown, .pointed = state.pointed};
  }
  kit::PanelScope panel(ui, "now", rect,
                        {.caption = tr("Now"), .ground = kit::Token::act2, .border = kit::Token::act});
  const training::LessonStep* step = step_of(run);
  if (run.lesson() == nullptr) {
    free_words(ui, run);
    return wants;
  }
  lost(ui, run, wants);
  if (step == nullptr) {
    step_text(ui, tr("All steps are done."));
    if (button(ui, "now.finish", tr("End and see the score"), {.kind = kit::ButtonKind::primary}))
      wants.finish = true;
    return wants;
  }
  draw_step(ui, state, run, *step, wants);
  return wants;
}

}  // namespace stirbench::desk::screens
