#include "app/desk/screens/debrief/compare.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/debrief/score_list.h"
#include "app/reports/told_events.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// What was tried by hand, also what the machine refused.
bool is_of_hands(const machine::Event& event) {
  return event.kind == machine::EventKind::acted || event.kind == machine::EventKind::refused;
}

bool any_hand(const std::vector<machine::Event>& history, const work::StepSpan& span) {
  return std::any_of(history.begin(), history.end(), [&span](const machine::Event& event) {
    const double at_s = static_cast<double>(event.tick) * machine::tick_s;
    return is_of_hands(event) && at_s >= span.from_s && at_s <= span.to_s;
  });
}

// The hands' own events of a span, each with its time since the span began.
double rows(kit::Ui& ui, const char* id, const std::vector<machine::Event>& history,
            const work::StepSpan& span, const machine::Machine& machine) {
  double moment = -1.0;
  int number = 0;
  for (const machine::Event* told : reports::told_events(history)) {
    const machine::Event& event = *told;
    const double at_s = static_cast<double>(event.tick) * machine::tick_s;
    if (!is_of_hands(event) || at_s < span.from_s || at_s > span.to_s) continue;
    kit::RowStyle row;
    row.title = event_words(event, machine, ui);
    row.right = "+" + kit::show_duration(at_s - span.from_s);
    if (list_row(ui, std::string(id) + "." + std::to_string(number++), row)) moment = at_s;
  }
  if (number == 0)
    text(ui,
         span.to_s - span.from_s < 1.0 ? tr("What this step asks for had been done before.")
                                       : tr("No hand was needed for {time}: the machine worked.",
                                            {{"time", kit::show_duration(span.to_s - span.from_s)}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
  return moment;
}

}  // namespace

double draw_compare(kit::Ui& ui, work::BestRunSearch& search, const work::DebriefModel& model,
                    const training::Lesson& lesson, const machine::Machine& machine, double at_s,
                    const kit::Rect& rect) {
  kit::PanelScope panel(ui, "debrief.compare", rect, {.caption = tr("What the best run did instead")});
  const std::optional<work::BestRun>& best = search.poll();
  if (!best || !best->problem.empty()) {
    std::string words = tr("There is no run to compare with.");
    if (search.busy()) words = tr("The run to compare with is being played ...");
    if (best) words = best->problem;
    text(ui, words, {.colour = kit::Token::ink2, .id = "debrief.compare.none"});
    return -1.0;
  }
  work::StepSpan here = work::span_at(model.step_began_s, model.ended_s, at_s);
  // After the last step there is mostly nothing to see: the last step is what the person was at.
  if (here.step > 0 && here.step >= lesson.steps.size() && !any_hand(model.history, here))
    here = work::span_of(model.step_began_s, model.ended_s, lesson.steps.size() - 1);
  const work::StepSpan there = work::span_of(best->step_began_s, best->end_s, here.step);
  if (here.step < lesson.steps.size())
    text(ui,
         tr("Step {n} of {m}: {what}", {{"n", std::to_string(here.step + 1)},
                                        {"m", std::to_string(lesson.steps.size())},
                                        {"what", tr(lesson.steps[here.step].now)}}),
         {.type = kit::Type::body_bold, .id = "debrief.compare.step"});
  else
    text(ui, tr("After the last step"), {.type = kit::Type::body_bold, .id = "debrief.compare.step"});
  gap(ui, 8.0F);
  text(ui, best->title + (there.reached ? ", " + kit::show_duration(there.to_s - there.from_s) : ""),
       {.colour = kit::Token::ink2, .id = "debrief.compare.title"});
  if (there.reached)
    rows(ui, "debrief.best", best->history, there, machine);
  else
    text(ui, tr("That run ended before this step."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
  gap(ui, 10.0F);
  text(ui, tr("This run") + ", " + kit::show_duration(here.to_s - here.from_s), {.colour = kit::Token::ink2});
  return rows(ui, "debrief.this", model.history, here, machine);
}

}  // namespace stirbench::desk::screens
