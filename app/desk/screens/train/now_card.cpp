#include "app/desk/screens/train/now_card.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/work/debrief/why.h"
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
         tr("This run cannot pass any more. {why}",
            {{"why", work::words_in_units(tr(run.prospect().why), ui.units)}}));
  if (run.why_not_rewind().empty()) {
    if (button(ui, "now.rewind", tr("Back to before it was lost"))) wants.rewind = true;
    same_line(ui);
  }
  if (button(ui, "now.again", tr("Try again"))) wants.again = true;
  gap(ui, 4.0F);
}

void free_words(kit::Ui& ui, const work::LiveRun& run) {
  const bool any = control::any_latched(run.state().control);
  step_text(ui, any ? tr("Put the cause right, then press Stop to clear the alarm.")
                    : tr("The machine is yours. Pour, choose a recipe, run it."));
  text(ui, tr("Nothing you break here costs anything."), {.colour = kit::Token::act});
}

bool shows(const NowCardState& state, training::Rung rung) { return state.rungs > static_cast<int>(rung); }

// The button of the next rung; nothing when the ladder is at its end.
void offer_rung(kit::Ui& ui, NowCardState& state, const training::Advice& advice, NowCardRequests& wants) {
  // What there is nothing to say of is no rung.
  while (state.rungs == static_cast<int>(training::Rung::place) && advice.point_at.empty()) ++state.rungs;
  if (state.rungs >= training::rungs) return;
  const auto next = static_cast<training::Rung>(state.rungs);
  std::string words;
  switch (next) {
    case training::Rung::goal: words = tr("What is to be reached?"); break;
    case training::Rung::cue: words = tr("Why?"); break;
    case training::Rung::place: words = tr("Where?"); break;
    case training::Rung::step: words = tr("How?"); break;
  }
  if (!button(ui, "now.hint", words)) return;
  ++state.rungs;
  if (next == training::Rung::place) state.pointing = true;
  wants.rung = next;
}

void say_stuck(kit::Ui& ui, const training::Advice& advice) {
  if (advice.kind != training::Advice::Kind::stuck) return;
  notice(ui, "now.stuck", kit::Status::due,
         advice.refusal.empty() ? tr("The guide knows no way on from here. Put right what you can see.")
                                : tr("Not possible at this moment. {why}", {{"why", tr(advice.refusal)}}));
}

// The last rung: the hand in words.
void draw_hand(kit::Ui& ui, const training::Advice& advice) {
  text(ui, work::words_in_units(tr(advice.now), ui.units), {.type = kit::Type::step, .id = "now.step"});
  // A hand towards a check says which, unless it is the check itself.
  const std::string& line = advice.check.empty() ? advice.why : advice.check;
  if (advice.now != line + ".") text(ui, tr(line), {.colour = kit::Token::act, .id = "now.why_line"});
  if (!advice.worth.empty()) text(ui, advice.worth, {.type = kit::Type::caption, .id = "now.check_why"});
  say_stuck(ui, advice);
}

// Goal and cue, without the hand.
void draw_before_hand(kit::Ui& ui, const NowCardState& state, const work::LiveRun& run,
                      const training::Advice& advice) {
  if (!shows(state, training::Rung::goal)) {
    step_text(ui, tr("Do the next step."));
    return;
  }
  caption(ui, tr("To be reached"));
  const std::string goal = training::goal_words(run.machine(), *run.lesson(), advice.goal);
  text(ui, work::words_in_units(tr(goal), ui.units), {.type = kit::Type::step, .id = "now.goal"});
  if (shows(state, training::Rung::cue) && !advice.why.empty())
    text(ui, tr(advice.why), {.colour = kit::Token::act, .id = "now.why_line"});
}

void draw_question(kit::Ui& ui, NowCardState& state, const training::Advice& advice, bool helped,
                   NowCardRequests& wants) {
  text(ui, tr(advice.now), {.type = kit::Type::step, .id = "now.step"});
  // To ask is no help, and the place would be the answer: the words alone lead there.
  if (helped && state.rungs < training::rungs && button(ui, "now.hint", tr("How?"))) {
    state.rungs = training::rungs;
    wants.rung = training::Rung::step;
  }
  if (state.rungs >= training::rungs && helped) text(ui, tr(advice.hint), {.id = "now.more"});
  draw_pointed(ui, state.pointed);
}

// The words of the advice as far as they were given away.
void draw_step(kit::Ui& ui, NowCardState& state, const work::LiveRun& run, const training::LessonStep& step,
               NowCardRequests& wants) {
  const training::Advice& advice = run.advice();
  const bool test = run.mode() == work::RunMode::test;
  const bool led = run.first_rung().has_value();
  if (work::asks_to_point(step) && (!led || !shows(state, training::Rung::step))) {
    draw_question(ui, state, advice, !test, wants);
    return;
  }
  if (test) {
    step_text(ui, tr("Test: no hints. Run the batch as you have learnt it."));
    return;
  }
  if (shows(state, training::Rung::step))
    draw_hand(ui, advice);
  else
    draw_before_hand(ui, state, run, advice);
  gap(ui, 4.0F);
  const bool where = shows(state, training::Rung::place) && !advice.point_at.empty();
  if (where && button(ui, "now.point", tr("Show me where"), {.selected = state.pointing}))
    state.pointing = !state.pointing;
  if (where) same_line(ui);
  if (shows(state, training::Rung::step)) {
    if (!advice.hint.empty() && button(ui, "now.why", tr("Tell me more"), {.selected = state.why_open}))
      state.why_open = !state.why_open;
    if (state.why_open) text(ui, tr(advice.hint), {.id = "now.more"});
  } else {
    offer_rung(ui, state, advice, wants);
  }
  draw_pointed(ui, state.pointed);
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
    // New words: the ladder begins anew; a guide that begins at the place points by itself until told not to.
    const std::optional<training::Rung> first = run.first_rung();
    state = NowCardState{.rungs = first ? static_cast<int>(*first) + 1 : 0,
                         .pointing = first && training::leads(*first),
                         .shown = shown,
                         .pointed = state.pointed};
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
