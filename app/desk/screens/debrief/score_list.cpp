#include "app/desk/screens/debrief/score_list.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/work/debrief/instructor_words.h"
#include "app/desk/work/debrief/why.h"
#include "app/reports/told_events.h"
#include "sim_core/hands/handles.h"
#include "sim_core/training/score_words.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

void verdict(kit::Ui& ui, const work::DebriefModel& model) {
  if (!model.problem.empty()) notice(ui, "debrief.problem", kit::Status::bad, model.problem);
  if (!model.card) return;
  const training::ScoreCard& card = *model.card;
  status_mark(ui, card.passed ? kit::Status::good : kit::Status::bad,
              card.passed ? tr("Passed") : tr("Not passed"), "debrief.verdict");
  std::string share = training::score_text(card);
  share.replace(share.find(' '), 1, kit::narrow_gap);
  same_line(ui, ui.px(14.0F));
  text(ui, share, {.type = kit::Type::display, .wrap = -1.0F, .id = "debrief.score"});
  text(ui, work::verdict_words(card),
       {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "debrief.decided"});
  std::string drawn;
  for (const std::string& one : model.drawn)
    drawn += (drawn.empty() ? "" : " ") + work::words_in_units(tr(one), ui.units);
  if (drawn.empty()) return;
  text(ui, drawn, {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "debrief.drawn"});
}

kit::RowStyle criterion_row(const training::CriterionResult& c, const kit::UnitChoice& units) {
  kit::RowStyle row;
  const std::string title = tr(c.title);
  row.title = c.met                    ? title
              : training::is_missed(c) ? tr("Missed: {what}", {{"what", title}})
                                       : tr("No occasion: {what}", {{"what", title}});
  if (c.must_pass) row.title += " · " + tr("must pass");
  row.detail = work::why_in_units(c, units);
  const std::string margin = work::margin_in_units(c, units);
  if (!margin.empty()) row.detail += " " + margin;
  row.right = kit::plain_number(c.points, c.points == std::floor(c.points) ? 0 : 1) + "/" +
              kit::plain_number(c.of, 0);
  const bool partial = !c.met && c.credit_norm > 0.0;
  row.icon = c.met         ? kit::Icon::check
             : !c.occasion ? kit::Icon::dot
             : partial     ? kit::Icon::half_ring
                           : kit::Icon::cross;
  row.icon_colour = c.met         ? kit::Token::ok
                    : !c.occasion ? kit::Token::ink2
                    : partial     ? kit::Token::due
                                  : kit::Token::bad;
  row.enabled = c.at_s >= 0.0;
  row.reason = tr("No single moment decided this.");
  return row;
}

std::string capital(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  return words;
}

// Title of a phase id; ids of the shipped recipes mean the same in each of them.
std::string phase_title(const machine::Machine& machine, const std::string& id) {
  for (const auto& recipe : machine.recipes) {
    for (const auto& phase : recipe.phases) {
      if (phase.id == id) return phase.title;
    }
  }
  return id;
}

}  // namespace

double draw_score_list(kit::Ui& ui, const work::DebriefModel& model, const kit::Rect& rect) {
  kit::PanelScope panel(ui, "debrief.score_panel", rect, {.caption = tr("Score")});
  verdict(ui, model);
  double moment = -1.0;
  if (!model.card) return moment;
  gap(ui, 6.0F);
  // What was missed stands first, must-pass items before the others, then what was never at stake; the rest
  // keeps the lesson's order.
  std::vector<training::CriterionResult> list = model.card->criteria;
  std::erase_if(list, training::goes_without_saying);
  std::stable_sort(list.begin(), list.end(), [](const auto& a, const auto& b) {
    const auto rank = [](const auto& c) { return c.met ? 3 : !c.occasion ? 2 : c.must_pass ? 0 : 1; };
    return rank(a) < rank(b);
  });
  for (const training::CriterionResult& c : list) {
    if (list_row(ui, "debrief.criterion." + c.id, criterion_row(c, ui.units))) moment = c.at_s;
  }
  return moment;
}

std::string event_words(const machine::Event& event, const machine::Machine& machine, const kit::Ui& ui) {
  switch (event.kind) {
    case machine::EventKind::acted: {
      if (was_done(event, hands::pour)) {
        const int index = machine.ingredient_index(event.name);
        const std::string name =
            index < 0 ? event.name : machine.ingredients[static_cast<std::size_t>(index)].title;
        return tr("Poured {kg} of {name}",
                  {{"kg", ui.shown(kit::Quantity::mass, event.number, 3)}, {"name", tr(name)}});
      }
      if (was_done(event, hands::press)) return tr("Pressed {key}", {{"key", tr(capital(event.name))}});
      const hands::Hand* hand = hands::at(event.subject);
      if (hand == nullptr) return "";
      std::string words(hand->name);
      for (char& c : words) c = c == '_' ? ' ' : c;
      return tr(capital(words));
    }
    case machine::EventKind::refused: return tr("Not possible: {why}", {{"why", tr(event.text)}});
    case machine::EventKind::alarm_raised:
      return tr("Alarm: {title}",
                {{"title", tr(control::alarm_title(static_cast<control::AlarmId>(event.subject)))}});
    case machine::EventKind::alarm_cleared:
      return tr("Cleared: {title}",
                {{"title", tr(control::alarm_title(static_cast<control::AlarmId>(event.subject)))}});
    case machine::EventKind::phase_began:
      return tr("Phase: {name}", {{"name", tr(phase_title(machine, event.name))}});
    case machine::EventKind::recipe_finished: return tr("The recipe is finished");
    case machine::EventKind::hold_restarted: return tr("The hold started again");
    case machine::EventKind::harm: return event.text.empty() ? tr("Harm") : tr(event.text);
    case machine::EventKind::spilled: return tr("Product spilled on the floor");
    case machine::EventKind::boiled_over: return tr("Boiled over");
    case machine::EventKind::overload_tripped: return tr("The drive's overload relay tripped");
    case machine::EventKind::cutout_tripped: return tr("The heater cut-out tripped");
    case machine::EventKind::other_person: return tr(event.text);
    case machine::EventKind::instructor: return work::instructor_words(event, ui.units);
    case machine::EventKind::alarm_state:
    case machine::EventKind::count: break;
    case machine::EventKind::mode_changed: return "";
  }
  return "";
}

double draw_event_list(kit::Ui& ui, const work::DebriefModel& model, const machine::Machine& machine,
                       double now_s, const kit::Rect& rect) {
  kit::PanelScope panel(ui, "debrief.events", rect, {.caption = tr("What happened")});
  double moment = -1.0;
  std::size_t number = 0;
  for (const machine::Event* told : reports::told_events(model.history)) {
    const machine::Event& event = *told;
    const std::string words = event_words(event, machine, ui);
    if (words.empty()) continue;
    const double at_s = static_cast<double>(event.tick) / machine::ticks_per_second;
    const bool seen = is_of(event, hands::mark_observation);
    const bool bad = event.kind == machine::EventKind::alarm_raised ||
                     event.kind == machine::EventKind::harm || event.kind == machine::EventKind::refused ||
                     event.kind == machine::EventKind::hold_restarted;
    kit::RowStyle row;
    row.title = words;
    row.right = kit::show_duration(at_s);
    row.icon = bad ? kit::Icon::warning : seen ? kit::Icon::eye : kit::Icon::dot;
    row.icon_colour = event.kind == machine::EventKind::harm ? kit::Token::bad
                      : bad                                  ? kit::Token::due
                                                             : kit::Token::ink2;
    row.selected = std::abs(at_s - now_s) < 0.5 * model.every_s;
    if (list_row(ui, "debrief.event." + std::to_string(number++), row)) moment = at_s;
  }
  return moment;
}

}  // namespace stirbench::desk::screens
