#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/fault/fault_panels.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using diagnosis::Model;

std::string words(std::string_view text) { return tr(std::string(text)); }

// The first caution large with its sign, all of them in words.
void draw_cautions(kit::Ui& ui, const library::Library& library, const std::vector<std::string>& keys) {
  for (const std::string& key : keys) {
    const auto found = library.cautions.find(key);
    if (found == library.cautions.end()) continue;
    caution_box(ui, "fault.caution." + key, tr(found->second.text),
                kit::find_sign(found->second.sign).value_or(kit::SignId::w001));
    gap(ui, 6.0F);
  }
}

const diagnosis::CheckAdvice* advice_of(const work::FaultSearch& search, std::size_t question) {
  for (const auto& one : search.next().checks) {
    if (one.question == question) return &one;
  }
  return nullptr;
}

void draw_answers(kit::Ui& ui, work::FaultSearch& search, std::size_t question) {
  const diagnosis::Check& check = search.model().check(question);
  caption(ui, tr("What did you find?"));
  const auto leads = search.leads(question);
  const float width = std::max(ui.em(180.0F), (width_left(ui) - ui.px(10.0F)) * 0.5F);
  for (std::size_t o = 0; o < check.outcomes.size(); ++o) {
    // A wide list, one below the other, when words would not fit in half the width.
    const std::string id = "fault.answer." + check.outcomes[o].id;
    const std::string then =
        tr("expected {p} %, then {cause} {q} %", {{"p", kit::plain_number(100.0 * leads[o].p, 0)},
                                                  {"cause", tr(search.model().causes[leads[o].cause].title)},
                                                  {"q", kit::plain_number(100.0 * leads[o].cause_p, 0)}});
    const bool wide = text_size(ui, tr(check.outcomes[o].title), kit::Type::body).x + ui.px(28.0F) > width;
    if (button(ui, id, tr(check.outcomes[o].title),
               {.hint = then, .place = {.w = wide ? -1.0F : width}, .align = kit::Align::left}))
      return search.answer(question, o);
    gap(ui, 3.0F);  // nearer to its own answer than to the next
    text(ui, then, {.type = kit::Type::caption, .colour = kit::Token::ink2});
    gap(ui, 10.0F);
  }
  if (button(ui, "fault.could_not", tr("Could not do it"),
             {.place = {.w = width}, .align = kit::Align::left}))
    search.could_not(question);
}

void draw_other_checks(kit::Ui& ui, work::FaultSearch& search, std::size_t shown) {
  std::vector<std::string> titles;
  std::vector<std::size_t> questions;
  for (const auto& one : search.next().checks) {
    if (one.question == shown) continue;
    titles.push_back(tr(search.model().check(one.question).title) + " · " + minutes_words(one.minutes));
    questions.push_back(one.question);
    if (titles.size() == 12) break;
  }
  if (titles.empty()) return;
  gap(ui, 10.0F);
  const int picked = menu_button(ui, "fault.other", tr("Or choose another check"), titles);
  if (picked >= 0) search.choose_check(questions[static_cast<std::size_t>(picked)]);
}

void draw_check(kit::Ui& ui, work::FaultSearch& search, const library::Library& library, FaultAids& aids,
                std::size_t question) {
  const diagnosis::Check& check = search.model().check(question);
  const diagnosis::CheckAdvice* advice = advice_of(search, question);
  const bool best = !search.next().checks.empty() && search.next().checks.front().question == question &&
                    !search.next().repair_now;
  caption(ui, best ? tr("Next check: worth the most for its time") : tr("Another check"));
  text(ui, tr(check.title), {.type = kit::Type::title, .id = "fault.check"});
  std::string how_long = minutes_words(check.minutes) + " · " +
                         words(diagnosis::access_state_title(check.needs)) + " · " +
                         words(diagnosis::who_title(check.who));
  if (advice != nullptr && advice->change_min > 0.05)
    how_long += " · " + tr("{n} min to get there",
                           {{"n", kit::plain_number(advice->change_min, advice->change_min < 10.0 ? 1 : 0)}});
  text(ui, how_long, {.colour = kit::Token::ink2, .id = "fault.check.minutes"});
  gap(ui, 8.0F);
  draw_cautions(ui, library, check.cautions);
  step_text(ui, tr(check.how));
  gap(ui, 6.0F);
  text(ui, tr("Good: {reading}", {{"reading", tr(check.expected)}}), {.id = "fault.check.expected"});
  gap(ui, 6.0F);
  const bool diagram = aids.has_diagram(check);
  if ((diagram || aids.has_body(check)) &&
      button(ui, "fault.check.picture",
             diagram ? tr("Show it on the wiring diagram") : tr("Show it on the machine"),
             {.icon = kit::Icon::eye}))
    aids.show_check(check);
  gap(ui, 10.0F);
  draw_answers(ui, search, question);
}

void draw_repair(kit::Ui& ui, work::FaultSearch& search, const library::Library& library, FaultAids& aids,
                 std::size_t index) {
  const diagnosis::Cause& cause = search.model().causes[index];
  const auto& next = search.next();
  caption(ui, next.repair_now && !next.repairs.empty() && next.repairs.front().cause == index
                  ? tr("Repair: no check is worth its time now")
                  : tr("Repair"));
  text(ui, tr(cause.title), {.type = kit::Type::title, .id = "fault.repair"});
  text(ui,
       minutes_words(cause.repair_min) + " · " + words(diagnosis::access_state_title(cause.repair_needs)) +
           " · " + words(diagnosis::who_title(cause.who)),
       {.colour = kit::Token::ink2});
  gap(ui, 8.0F);
  if (!diagnosis::may_do(search.who(), cause.who)) {
    notice(ui, "fault.repair.not_yours", kit::Status::due,
           tr("Not yours to do: call a {who}. Hand over what you found.",
              {{"who", words(diagnosis::who_title(cause.who))}}));
    gap(ui, 8.0F);
  }
  std::vector<std::string> cautions;
  if (cause.repair_needs == diagnosis::AccessState::open_isolated ||
      cause.repair_needs == diagnosis::AccessState::isolated)
    cautions = {"lock_out", "stored_energy"};
  if (cause.who == diagnosis::Who::electrician) cautions.emplace_back("verify_dead");
  if (cause.who == diagnosis::Who::refrigeration) cautions.emplace_back("refrigerant_flammable");
  if (cautions.empty()) cautions = {"local_rules"};
  draw_cautions(ui, library, cautions);
  step_text(ui, tr(cause.repair));
  gap(ui, 6.0F);
  if (!cause.parts.empty())
    text(ui, tr("Parts: {parts}", {{"parts", tr(cause.parts)}}), {.colour = kit::Token::ink2});
  text(ui, tr("Proof: {proof}", {{"proof", tr(cause.verify)}}), {.id = "fault.repair.proof"});
  gap(ui, 10.0F);
  if (button(ui, "fault.repaired", tr("Repaired and proved: it works"),
             {.kind = kit::ButtonKind::primary, .icon = kit::Icon::check}))
    return search.repair(index, true);
  same_line(ui);
  if (button(ui, "fault.in_vain", tr("Repaired, it did not help"))) return search.repair(index, false);
  gap(ui, 6.0F);
  if (!next.checks.empty() && button(ui, "fault.check_more", tr("Check more first"))) {
    search.choose_cause(Model::npos);
    search.choose_check(next.checks.front().question);
  }
  const std::string unknown = aids.why_not_simulator(cause.id);
  if (button(ui, "fault.simulate", tr("Show me on the simulator"),
             {.icon = kit::Icon::play, .enabled = unknown.empty(), .reason = tr(unknown)}))
    aids.ask_simulator(cause.id);
}

}  // namespace

std::string minutes_words(double minutes) {
  return tr("{n} min", {{"n", kit::plain_number(minutes, minutes < 10.0 ? 1 : 0)}});
}

void draw_fault_check(kit::Ui& ui, work::FaultSearch& search, const library::Library& library,
                      FaultAids& aids, const kit::Rect& rect) {
  kit::PanelScope panel(ui, "fault.next", rect);
  if (!search.started()) {
    text(ui, tr("Start with what you see"), {.type = kit::Type::title});
    gap(ui, 4.0F);
    step_text(ui, tr("Choose one or more symptoms at the left. Then one check at a time, the one that is "
                     "worth the most for its minutes first."));
    gap(ui, 10.0F);
    draw_cautions(ui, library, {"lock_out", "local_rules"});
    return;
  }
  if (search.solved()) {
    const diagnosis::Cause& cause = search.model().causes[search.way().back().cause];
    status_mark(ui, kit::Status::good, tr("Found and repaired"));
    text(ui, tr(cause.title), {.type = kit::Type::title, .id = "fault.solved"});
    gap(ui, 4.0F);
    text(ui, tr("Proof: {proof}", {{"proof", tr(cause.verify)}}));
    gap(ui, 10.0F);
    if (button(ui, "fault.again", tr("Start a new search"), {.kind = kit::ButtonKind::primary}))
      search.clear();
    return;
  }
  if (search.cause() != Model::npos) {
    draw_repair(ui, search, library, aids, search.cause());
    return;
  }
  const std::size_t question = search.check();
  if (question == Model::npos) {
    text(ui, tr("No check is left"), {.type = kit::Type::title});
    step_text(ui, tr("What you may do here does not tell more. Choose a cause at the right for its repair, "
                     "or hand over what you found."));
    return;
  }
  draw_check(ui, search, library, aids, question);
  if (search.check() == question) draw_other_checks(ui, search, question);
}

}  // namespace stirbench::desk::screens
