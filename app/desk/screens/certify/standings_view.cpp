#include <algorithm>
#include <cctype>

#include "app/desk/kit/text/text.h"
#include "app/desk/screens/certify/views.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

using records::StandingState;

// A filled dot, half a ring, a ring, a cross: shape before colour.
void draw_mark(kit::Ui& ui, ImDrawList* draw, ImVec2 at, float size, StandingState state) {
  const ImU32 colour = ui.colour(cell_colour(state));
  const float r = 0.5F * size;
  switch (state) {
    case StandingState::valid: draw->AddCircleFilled(at, r, colour, 24); break;
    case StandingState::due:
      draw->AddCircle(at, r - ui.px(1.0F), colour, 24, ui.px(2.5F));
      draw->PathArcTo(at, r - ui.px(1.0F), 1.5707963F, 4.7123890F, 14);
      draw->PathFillConvex(colour);
      break;
    case StandingState::not_yet:
      draw->AddCircle(at, r - ui.px(1.0F), ui.colour(kit::Token::edge), 24, ui.px(2.0F));
      break;
    case StandingState::lapsed:
      kit::icon(draw, kit::Icon::cross, {at.x - r, at.y - r, size, size}, colour);
      break;
  }
}

struct Columns {
  float name = 0.0F;   // left of the names
  float first = 0.0F;  // left of the first skill
  float step = 0.0F;
  float work = 0.0F;  // left of "may work"
};

Columns columns_of(kit::Ui& ui, const kit::Rect& inner, std::size_t skills) {
  Columns c;
  c.name = inner.x;
  c.first = inner.x + std::min(ui.em(190.0F), inner.w * 0.3F);
  c.work = inner.right() - std::min(ui.em(140.0F), inner.w * 0.24F);
  c.step = (c.work - c.first) / static_cast<float>(std::max<std::size_t>(1, skills));
  return c;
}

void draw_legend(kit::Ui& ui) {
  ImDrawList* draw = kit::current_draw();
  const ImVec2 start = ImGui::GetCursorScreenPos();
  const float line = ui.theme.line_px(kit::Type::caption);
  const float right = start.x + width_left(ui);
  float x = start.x;
  float y = start.y;
  for (const StandingState state :
       {StandingState::valid, StandingState::due, StandingState::not_yet, StandingState::lapsed}) {
    const std::string words = work::cell_words(state);
    const float wide = ui.em(34.0F) + text_size(ui, words, kit::Type::caption).x;
    if (x > start.x && x + wide > right) {
      x = start.x;
      y += line + ui.px(2.0F);
    }
    draw_mark(ui, draw, {x + ui.em(6.0F), y + line * 0.5F}, ui.em(11.0F), state);
    text_at(ui, draw, {x + ui.em(18.0F), y}, words,
            {.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = -1.0F});
    x += wide;
  }
  at(ui, start.x, y + line + ui.px(10.0F));
}

// Whom to show: everybody, who may work today, who is due, who is stuck; and a part of a name.
void draw_choice(kit::Ui& ui, work::CertifyModel& model) {
  if (!model.everybody) return;
  const auto counted = [&model](const std::string& words, std::size_t kind) {
    return words + " " + std::to_string(model.counts[kind]);
  };
  radio_row(ui, "certify.show",
            {counted(tr("Everybody"), 0), counted(tr("May work today"), 1), counted(tr("Due or lapsed"), 2),
             counted(tr("Stuck"), 3)},
            model.show);
  text_field(ui, "certify.find", tr("Find a name"), model.find,
             {.hint = tr("part of a name"), .label_above = false});
  gap(ui, 6.0F);
}

bool is_shown(const work::CertifyModel& model, const records::Standing& row) {
  if (!model.everybody) return true;
  if (!model.belongs(row, model.show)) return false;
  if (model.find.empty()) return true;
  const auto same = [](char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
  };
  return std::search(row.person.name.begin(), row.person.name.end(), model.find.begin(), model.find.end(),
                     same) != row.person.name.end();
}

// Headings over their columns, every other one higher when they are long.
float draw_headings(kit::Ui& ui, const work::CertifyModel& model, const library::Library& library,
                    const Columns& c) {
  ImDrawList* draw = kit::current_draw();
  const float y = ImGui::GetCursorScreenPos().y;
  const float line = ui.theme.line_px(kit::Type::caption);
  const auto& skills = model.demand()->skills;
  for (std::size_t i = 0; i < skills.size(); ++i) {
    const auto skill = library.skills.find(skills[i]);
    const std::string title = skill == library.skills.end() ? skills[i] : tr(skill->second.title);
    const float centre = c.first + (static_cast<float>(i) + 0.5F) * c.step;
    // The last one must not reach into the words beside it.
    const float room = std::min(1.9F * c.step, 2.0F * (c.work - centre)) - ui.px(6.0F);
    const std::string shown = fitted(ui, title, kit::Type::caption, room);
    text_at(ui, draw, {centre, y + (i % 2 == 0 ? line + ui.px(2.0F) : 0.0F)}, shown,
            {.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = -1.0F}, kit::Align::centre);
  }
  text_at(ui, draw, {c.work, y + line + ui.px(2.0F)}, tr("works alone"),
          {.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = -1.0F});
  return y + 2.0F * line + ui.px(8.0F);
}

std::string spoken(const records::Standing& row, const std::string& title,
                   const records::SkillStanding& cell) {
  std::string words = row.person.name + ", " + title + ": " + work::cell_words(cell.state);
  if (cell.until_s != 0) words += ", " + work::day_words(cell.until_s);
  if (cell.stuck) words += ", " + tr("stuck");
  return words;
}

}  // namespace

kit::Icon cell_icon(StandingState state) {
  switch (state) {
    case StandingState::valid: return kit::Icon::dot;
    case StandingState::due: return kit::Icon::half_ring;
    case StandingState::lapsed: return kit::Icon::cross;
    case StandingState::not_yet: return kit::Icon::ring;
  }
  return kit::Icon::ring;
}

kit::Token cell_colour(StandingState state) {
  switch (state) {
    case StandingState::valid: return kit::Token::ok;
    case StandingState::due: return kit::Token::due;
    case StandingState::lapsed: return kit::Token::bad;
    case StandingState::not_yet: return kit::Token::ink2;
  }
  return kit::Token::ink2;
}

std::optional<PressedCell> draw_standings(kit::Ui& ui, work::CertifyModel& model,
                                          const library::Library& library, const kit::Rect& rect) {
  kit::PanelScope panel(ui, "certify.table", rect, {.caption = tr(model.demand()->title)});
  draw_choice(ui, model);
  draw_legend(ui);
  const auto& skills = model.demand()->skills;
  const Columns c = columns_of(ui, panel.inner(), skills.size());
  float y = draw_headings(ui, model, library, c);
  const float height = std::max(ui.px(36.0F), ui.em(34.0F));
  ImDrawList* draw = kit::current_draw();
  std::optional<PressedCell> pressed;
  const float top = draw->GetClipRectMin().y - 2.0F * height;
  const float bottom = draw->GetClipRectMax().y + 2.0F * height;
  for (const records::Standing& row : model.rows) {
    if (!is_shown(model, row)) continue;
    // A thousand people: what is out of sight only takes its room.
    if (y < top || y > bottom) {
      y += height;
      continue;
    }
    const std::string id = std::to_string(row.person.id);
    text_at(ui, draw, {c.name, y + (height - ui.theme.line_px(kit::Type::body)) * 0.5F},
            fitted(ui, row.person.name, kit::Type::body, c.first - c.name - ui.px(8.0F)), {.wrap = -1.0F});
    for (std::size_t i = 0; i < skills.size(); ++i) {
      const records::SkillStanding& cell = row.cells.at(skills[i]);
      const kit::Rect box{c.first + static_cast<float>(i) * c.step, y, c.step, height};
      const bool chosen = row.person.id == model.person && skills[i] == model.skill;
      const auto skill = library.skills.find(skills[i]);
      const std::string title = skill == library.skills.end() ? skills[i] : tr(skill->second.title);
      const std::string words = spoken(row, title, cell);
      if (spot(ui, "certify.cell." + id + "." + skills[i], words, box,
               {.value = work::cell_words(cell.state), .hint = words})
              .pressed)
        pressed = PressedCell{row.person.id, skills[i]};
      if (chosen) {
        const kit::Rect frame = box.inset(std::max(0.0F, 0.5F * box.w - ui.em(26.0F)), ui.px(2.0F));
        draw->AddRect(frame.min(), frame.max(), ui.colour(kit::Token::act),
                      ui.px(kit::Measure::corner_control), 0, ui.px(2.5F));
      }
      draw_mark(ui, draw, box.centre(), ui.em(17.0F), cell.state);
      if (cell.stuck)
        text_at(ui, draw, {box.centre().x + ui.em(12.0F), y + ui.px(2.0F)}, "!",
                {.type = kit::Type::caption_bold, .colour = kit::Token::bad, .wrap = -1.0F});
    }
    const std::string work =
        row.may_work ? tr("until {day}", {{"day", work::day_words(row.certified_until_s)}}) : tr("no");
    text_at(ui, draw, {c.work, y + (height - ui.theme.line_px(kit::Type::caption)) * 0.5F}, work,
            {.type = row.may_work ? kit::Type::caption_bold : kit::Type::caption,
             .colour = row.may_work ? kit::Token::ok : kit::Token::ink2,
             .wrap = -1.0F});
    y += height;
    draw->AddLine({c.name, y}, {panel.inner().right(), y}, ui.colour(kit::Token::line),
                  ui.px(kit::Measure::line));
  }
  at(ui, c.name, y);
  gap(ui, 8.0F);
  return pressed;
}

}  // namespace stirbench::desk::screens
