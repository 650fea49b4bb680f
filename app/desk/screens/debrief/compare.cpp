#include "app/desk/screens/debrief/compare.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/debrief/score_list.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

bool is_of_hands(const machine::Event& event) { return event.kind == machine::EventKind::acted; }

// The hands' own events of a span, each with its time since the span began.
double rows(kit::Ui& ui, const char* id, const std::vector<machine::Event>& history,
            const work::StepSpan& span, const machine::Machine& machine) {
  double moment = -1.0;
  int number = 0;
  for (const machine::Event& event : history) {
    const double at_s = static_cast<double>(event.tick) * machine::tick_s;
    if (!is_of_hands(event) || at_s < span.from_s || at_s > span.to_s) continue;
    kit::RowStyle row;
    row.title = event_words(event, machine, ui);
    row.right = "+" + kit::show_duration(at_s - span.from_s);
    if (list_row(ui, std::string(id) + "." + std::to_string(number++), row)) moment = at_s;
  }
  if (number == 0)
    text(ui, tr("Nothing was done by hand: it waited."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
  return moment;
}

}  // namespace

double draw_compare(kit::Ui& ui, const work::BestRun* best, const work::DebriefModel& model,
                    const training::Lesson& lesson, const machine::Machine& machine, double at_s,
                    const kit::Rect& rect) {
  kit::PanelScope panel(ui, "debrief.compare", rect, {.caption = tr("What the best run did instead")});
  if (best == nullptr) {
    text(ui, tr("There is no run to compare with."), {.colour = kit::Token::ink2});
    return -1.0;
  }
  const work::StepSpan here = work::span_at(model.step_began_s, model.end_s(), at_s);
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
