#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/screens/certify/views.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

std::string percent(double norm, int decimals) { return kit::plain_number(100.0 * norm, decimals) + " %"; }

std::string answer_words(const records::SkillStanding& cell) {
  switch (cell.verdict.answer) {
    case training::SequentialAnswer::competent: return tr("Competent");
    case training::SequentialAnswer::not_yet: return tr("Not yet");
    case training::SequentialAnswer::go_on: return cell.verdict.tests == 0 ? tr("No test yet") : tr("Go on");
  }
  return {};
}

// The log-likelihood ratio after each test, between the two bounds.
void draw_path(kit::Ui& ui, const training::Demand& demand, const training::SkillVerdict& verdict) {
  const ImVec2 start = ImGui::GetCursorScreenPos();
  const float w = width_left(ui);
  const float h = ui.em(112.0F);
  const training::SequentialBounds b = training::bounds(demand.plan);
  const double span = b.competent - b.not_yet;
  const auto y_of = [&](double llr) {
    return start.y + h * (0.14F + 0.72F * static_cast<float>((b.competent - llr) / span));
  };
  const auto n = static_cast<float>(
      std::max<std::size_t>(verdict.path.size(), static_cast<std::size_t>(b.fewest_to_competent)));
  const auto x_of = [&](std::size_t tests) { return start.x + w * 0.96F * static_cast<float>(tests) / n; };
  ImDrawList* draw = kit::current_draw();
  draw->AddLine({start.x, y_of(b.competent)}, {start.x + w, y_of(b.competent)}, ui.colour(kit::Token::ok),
                ui.px(2.0F));
  draw->AddLine({start.x, y_of(b.not_yet)}, {start.x + w, y_of(b.not_yet)}, ui.colour(kit::Token::bad),
                ui.px(2.0F));
  text_at(ui, draw, {start.x, y_of(b.competent) - ui.theme.line_px(kit::Type::caption)}, tr("competent"),
          {.type = kit::Type::caption, .colour = kit::Token::ok, .wrap = -1.0F});
  text_at(ui, draw, {start.x, y_of(b.not_yet) + ui.px(2.0F)}, tr("not yet"),
          {.type = kit::Type::caption, .colour = kit::Token::bad, .wrap = -1.0F});
  ImVec2 last{x_of(0), y_of(0.0)};
  draw->AddCircleFilled(last, ui.px(2.5F), ui.colour(kit::Token::ink), 12);
  for (std::size_t i = 0; i < verdict.path.size(); ++i) {
    const ImVec2 next{x_of(i + 1),
                      y_of(std::clamp(verdict.path[i], b.not_yet - 0.1 * span, b.competent + 0.1 * span))};
    draw->AddLine(last, next, ui.colour(kit::Token::ink), ui.px(2.0F));
    draw->AddCircleFilled(next, ui.px(4.0F), ui.colour(kit::Token::ink), 14);
    last = next;
  }
  at(ui, start.x, start.y + h + ui.theme.line_px(kit::Type::caption));
}

void draw_verdict(kit::Ui& ui, const work::CertifyModel& model, const records::SkillStanding& cell) {
  text(ui, answer_words(cell), {.type = kit::Type::title, .id = "certify.answer"});
  if (cell.until_s != 0)
    text(ui,
         cell.state == records::StandingState::lapsed
             ? tr("lapsed on {day}", {{"day", work::day_words(cell.until_s)}})
             : tr("until {day}", {{"day", work::day_words(cell.until_s)}}),
         {.colour = kit::Token::ink2, .id = "certify.until"});
  if (cell.verdict.practise_first)
    text(ui, tr("This series is closed. Practise and pass a run; then a new series begins."),
         {.colour = kit::Token::bad});
  gap(ui, 6.0F);
  const training::Demand& d = *model.demand();
  draw_path(ui, d, cell.verdict);
  text(ui,
       tr("Sequential test: {a} wrong for somebody who passes {p0}, {b} wrong for somebody who passes {p1}. "
          "{n} tests in this series, {k} passed.",
          {{"a", percent(d.plan.alpha, 1)},
           {"p0", percent(d.plan.p_not, 0)},
           {"b", percent(d.plan.beta, 1)},
           {"p1", percent(d.plan.p_competent, 0)},
           {"n", std::to_string(cell.verdict.tests)},
           {"k", std::to_string(cell.verdict.passed)}}),
       {.type = kit::Type::caption, .colour = kit::Token::ink2});
}

void draw_evidence(kit::Ui& ui, const work::CertifyModel& model, const library::Library& library,
                   SideRequests& wants) {
  caption(ui, tr("Evidence"));
  if (model.evidence.empty())
    text(ui, tr("No test yet. Practice runs are no evidence."),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
  for (const records::Attempt& one : model.evidence) {
    const auto lesson = library.lessons.find(one.lesson);
    kit::RowStyle row;
    row.title = work::day_words(records::utc_seconds(one.started_utc)) + " · " +
                (lesson == library.lessons.end() ? one.lesson : tr(lesson->second.title));
    row.detail = (one.passed ? tr("passed") : tr("not passed")) + ", " + percent(one.score_norm, 0);
    row.icon = one.passed ? kit::Icon::check : kit::Icon::cross;
    row.icon_colour = one.passed ? kit::Token::ok : kit::Token::bad;
    row.chevron = true;
    if (list_row(ui, "certify.evidence." + std::to_string(one.id), row)) wants.replay = one;
  }
}

void draw_seen(kit::Ui& ui, const work::CertifyModel& model, SideRequests& wants) {
  const training::Demand& demand = *model.demand();
  if (demand.seen_tasks.empty()) return;
  gap(ui, 8.0F);
  caption(ui, tr("Seen at the real machine"));
  const records::Access& who = model.who;
  for (std::size_t i = 0; i < demand.seen_tasks.size(); ++i) {
    const std::string& task = demand.seen_tasks[i];
    const records::Observation* newest = nullptr;
    for (const records::Observation& one : model.seen) {
      if (one.task == task) newest = &one;
    }
    std::string words;
    if (newest != nullptr) {
      const auto observer = model.names.find(newest->observer);
      words = (newest->passed ? tr("done well") : tr("not yet")) + ", " +
              (observer == model.names.end() ? "" : observer->second) + ", " +
              work::day_words(records::utc_seconds(newest->at_utc)) + ", " + newest->machine;
    }
    status_mark(ui,
                newest == nullptr ? kit::Status::not_yet
                : newest->passed  ? kit::Status::good
                                  : kit::Status::bad,
                task);
    if (!words.empty()) text(ui, words, {.type = kit::Type::caption, .colour = kit::Token::ink2});
    std::string reason = records::why_not(who, records::Right::sign_seen, model.person);
    if (reason.empty() && who.person == 0)
      reason = tr("It is signed by a named person: choose who you are first.");
    if (button(ui, "certify.sign." + std::to_string(i), tr("I saw it"),
               {.enabled = reason.empty(), .reason = reason}))
      wants.sign = task;
    gap(ui, 4.0F);
  }
}

// What is still asked for, in the person's language (judge_demand says the same in English, for files).
std::vector<std::string> missing_words(const work::CertifyModel& model, const library::Library& library,
                                       const records::Standing& row) {
  std::vector<std::string> out;
  const std::int64_t oldest_s = model.now_s - 86400LL * model.demand()->valid_days;
  for (const std::string& id : model.demand()->skills) {
    const auto skill = library.skills.find(id);
    const training::SkillVerdict& v = row.demand.skills.at(id);
    std::string words;
    if (v.answer == training::SequentialAnswer::competent)
      words = v.shown_s >= oldest_s ? "" : tr("shown too long ago, test again");
    else if (v.practise_first)
      words = tr("practise first, then test again");
    else if (v.tests == 0)
      words = tr("no test yet");
    else
      words = tr("{k} of {n} tests passed, go on",
                 {{"k", std::to_string(v.passed)}, {"n", std::to_string(v.tests)}});
    if (!words.empty())
      out.push_back((skill == library.skills.end() ? id : tr(skill->second.title)) + ": " + words);
  }
  for (const std::string& task : model.demand()->seen_tasks) {
    if (row.demand.seen.count(task) == 0) out.push_back(tr("not seen yet: {task}", {{"task", task}}));
  }
  return out;
}

// A test for the person of this row: the computer is handed over, the seed is drawn then.
void draw_sealed(kit::Ui& ui, const work::CertifyModel& model, const library::Library& library,
                 SideRequests& wants) {
  if (!model.everybody && model.who.person != model.person) return;
  std::vector<std::string> titles;
  std::vector<std::string> ids;
  for (const auto& [id, lesson] : library.lessons) {
    if (std::find(lesson.skills.begin(), lesson.skills.end(), model.skill) == lesson.skills.end()) continue;
    titles.push_back(tr(lesson.title));
    ids.push_back(id);
  }
  const std::string reason = titles.empty() ? tr("No lesson trains this skill yet.") : "";
  const int chosen = menu_button(ui, "certify.sealed", tr("Start a sealed test"), titles,
                                 {.enabled = reason.empty(), .reason = reason});
  if (chosen >= 0) wants.sealed = ids[static_cast<std::size_t>(chosen)];
}

void draw_certificate(kit::Ui& ui, const work::CertifyModel& model, const library::Library& library,
                      const records::Standing& row, SideRequests& wants) {
  if (row.certificate) {
    const bool expired = row.certified_until_s <= model.now_s;
    status_mark(ui, expired ? kit::Status::bad : kit::Status::good,
                tr(expired ? "expired on {day}" : "valid until {day}",
                   {{"day", work::day_words(row.certified_until_s)}}),
                "certify.certificate");
  } else {
    status_mark(ui, kit::Status::not_yet, tr("none"), "certify.certificate");
  }
  const records::Access& who = model.who;
  std::string reason = records::why_not(who, records::Right::certify, model.person);
  if (reason.empty() && who.person == 0)
    reason = tr("It is issued by a named person: choose who you are first.");
  std::string issue_reason = reason;
  if (issue_reason.empty() && !row.demand.met)
    issue_reason = tr("Something is still missing; see the list above.");
  if (button(ui, "certify.issue", row.certificate ? tr("Renew") : tr("Certify"),
             {.kind = kit::ButtonKind::primary, .enabled = issue_reason.empty(), .reason = issue_reason}))
    wants.issue = true;
  if (row.certificate) {
    same_line(ui);
    if (button(ui, "certify.revoke", tr("Revoke"), {.enabled = reason.empty(), .reason = reason}))
      wants.revoke = true;
    same_line(ui);
    if (button(ui, "certify.save", tr("Save as PDF"))) wants.save = true;
  }
  gap(ui, 4.0F);
  for (const std::string& line : missing_words(model, library, row))
    text(ui, "· " + line, {.type = kit::Type::caption, .colour = kit::Token::ink2});
}

}  // namespace

SideRequests draw_side(kit::Ui& ui, const work::CertifyModel& model, const work::Desk& desk,
                       const kit::Rect& whole) {
  SideRequests wants;
  kit::Rect rect = whole;
  const kit::Rect foot =
      rect.take_bottom(std::min(ui.em(186.0F), whole.h * 0.4F), ui.px(kit::Measure::gutter));
  const records::Standing* row = model.row();
  const records::SkillStanding* cell = model.cell();
  const auto skill = desk.library.skills.find(model.skill);
  const std::string title = skill == desk.library.skills.end() ? model.skill : tr(skill->second.title);
  if (row == nullptr || cell == nullptr) return wants;
  {
    kit::PanelScope panel(ui, "certify.side", rect, {.caption = row->person.name + " · " + title});
    draw_verdict(ui, model, *cell);
    gap(ui, 8.0F);
    draw_sealed(ui, model, desk.library, wants);
    gap(ui, 8.0F);
    draw_evidence(ui, model, desk.library, wants);
    draw_seen(ui, model, wants);
  }
  kit::PanelScope panel(ui, "certify.foot", foot,
                        {.caption = tr("Certificate of {name}", {{"name", row->person.name}})});
  draw_certificate(ui, model, desk.library, *row, wants);
  return wants;
}

}  // namespace stirbench::desk::screens
