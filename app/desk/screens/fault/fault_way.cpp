#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/fault/fault_panels.h"
#include "app/library/guide/symptom_search.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using Kind = work::FaultSearch::StepKind;

struct Words {
  std::string what;
  std::string detail;
};

Words words_of(const work::FaultSearch& search, const work::FaultSearch::Step& step) {
  const diagnosis::Model& model = search.model();
  switch (step.kind) {
    case Kind::saw: return {tr(model.question_title(step.question)), tr("symptom")};
    case Kind::checked:
      return {tr(model.question_title(step.question)), tr(model.outcome_title(step.question, step.outcome)) +
                                                           " · " + minutes_words(step.minutes) +
                                                           (step.sure < 1.0 ? " · " + tr("not sure") : "")};
    case Kind::logged:
      return {tr(model.question_title(step.question)), tr(model.outcome_title(step.question, 1))};
    case Kind::could_not: return {tr(model.question_title(step.question)), tr("could not be done")};
    case Kind::repaired_in_vain:
      return {tr(model.causes[step.cause].title),
              tr("repaired, did not help") + " · " + minutes_words(step.minutes)};
    case Kind::repaired:
      return {tr(model.causes[step.cause].title),
              tr("repaired, works") + " · " + minutes_words(step.minutes)};
  }
  return {};
}

// A bead on the line of the way; returns where the words may begin.
void bead(kit::Ui& ui, bool open, bool first, bool last, float height) {
  ImDrawList* draw = kit::current_draw();
  const ImVec2 at_point = ImGui::GetCursorScreenPos();
  const float x = at_point.x + ui.em(9.0F);
  const float y = at_point.y + ui.theme.line_px(kit::Type::body) * 0.5F;
  const ImU32 colour = ui.colour(kit::Token::act);
  if (!first) draw->AddLine({x, at_point.y}, {x, y}, colour, ui.px(3.0F));
  if (!last) draw->AddLine({x, y}, {x, at_point.y + height}, colour, ui.px(3.0F));
  draw->AddCircleFilled({x, y}, ui.em(7.0F), open ? ui.colour(kit::Token::panel) : colour);
  if (open) draw->AddCircle({x, y}, ui.em(7.0F), colour, 0, ui.px(3.0F));
}

void way_line(kit::Ui& ui, const std::string& id, const Words& words, bool open, bool first, bool last,
              bool odd) {
  const ImVec2 corner = ImGui::GetCursorScreenPos();
  const float left = ui.em(28.0F);
  const float wrap = width_left(ui) - left;
  float height = text_size(ui, words.what, kit::Type::body, wrap).y + ui.px(10.0F);
  if (!words.detail.empty()) height += text_size(ui, words.detail, kit::Type::caption, wrap).y + ui.px(2.0F);
  if (odd) height += ui.theme.line_px(kit::Type::caption);
  bead(ui, open, first, last, height);
  at(ui, corner.x + left, corner.y);
  text(ui, words.what,
       {.type = open ? kit::Type::body_bold : kit::Type::body, .wrap = wrap, .id = id.c_str()});
  if (!words.detail.empty()) {
    at(ui, corner.x + left, ImGui::GetCursorScreenPos().y);
    text(ui, words.detail, {.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = wrap});
  }
  if (odd) {
    at(ui, corner.x + left, ImGui::GetCursorScreenPos().y);
    status_mark(ui, kit::Status::due, tr("does not fit the rest"));
  }
  at(ui, corner.x, corner.y + height);
}

void draw_symptoms(kit::Ui& ui, work::FaultSearch& search, std::string& query) {
  const diagnosis::Model& model = search.model();
  caption(ui, tr("What you see"));
  text_field(ui, "fault.search", tr("Search the symptoms"), query,
             {.hint = tr("type a word: \"slow\", \"beeps\" …"), .place = {.w = -1.0F}, .label_above = false});
  gap(ui, 6.0F);
  for (std::size_t s = 0; s < model.symptoms.size(); ++s) {
    if (!search.sees(s)) continue;
    if (chip(ui, "fault.seen." + model.symptoms[s].id, tr(model.symptoms[s].title), true,
             {.icon = kit::Icon::check}))
      return search.see(s);
  }
  // Once there is a way to go on, the list makes room for it until somebody types again.
  if (search.started() && query.empty()) return;
  const auto hits = library::search_symptoms(model, query);
  if (hits.empty())
    text(ui, tr("Nothing like that in this guide. Try another word."),
         {.colour = kit::Token::ink2, .id = "fault.search.nothing"});
  for (const auto& hit : hits) {
    if (search.sees(hit.symptom)) continue;
    const diagnosis::Symptom& symptom = model.symptoms[hit.symptom];
    if (list_row(ui, "fault.symptom." + symptom.id, {.title = tr(symptom.title)})) {
      search.see(hit.symptom);
      query.clear();
      return;
    }
  }
}

}  // namespace

void draw_fault_way(kit::Ui& ui, work::FaultSearch& search, std::string& query, bool& asks_for_log,
                    const kit::Rect& rect) {
  kit::PanelScope panel(ui, "fault.way", rect);
  if (button(ui, "fault.log", tr("A log of the batch"))) asks_for_log = true;
  gap(ui, 8.0F);
  draw_symptoms(ui, search, query);
  if (!search.started()) return;
  gap(ui, 12.0F);
  caption(ui, tr("The way so far"));
  gap(ui, 2.0F);
  const auto& way = search.way();
  std::size_t finding = 0;
  for (std::size_t i = 0; i < way.size(); ++i) {
    bool odd = false;
    if (way[i].kind == Kind::saw || way[i].kind == Kind::checked || way[i].kind == Kind::logged)
      odd = search.known().fits[finding++].contradicts;
    way_line(ui, "fault.way." + std::to_string(i), words_of(search, way[i]), false, i == 0,
             search.solved() && i + 1 == way.size(), odd);
  }
  if (!search.solved())
    way_line(ui, "fault.way.next", {search.next().repair_now ? tr("repair") : tr("next check"), ""}, true,
             false, true, false);
  gap(ui, 8.0F);
  std::string foot = tr("{used} min used", {{"used", kit::plain_number(search.minutes_used(), 0)}});
  if (!search.solved())
    foot += " · " + tr("{more} min expected to a working machine, parts counted by their price",
                       {{"more", kit::plain_number(search.next().expected_min, 0)}});
  text(ui, foot, {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "fault.minutes"});
}

}  // namespace stirbench::desk::screens
