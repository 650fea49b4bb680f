#include "app/desk/screens/train/pointing.h"

#include <algorithm>

#include "app/desk/kit/text/find_words.h"
#include "app/desk/kit/text/text.h"
#include "app/desk/screens/train/hand_grid.h"

namespace stirbench::desk::screens {

using kit::tr;

void show_listed(views::BodyView& view, std::string& chosen, std::string& listed) {
  if (chosen != listed) {
    view.choose(chosen);
    view.look_at(chosen);
  } else if (view.chosen() != chosen) {
    chosen.clear();
  }
  listed = chosen;
}

views::PartChoice pointing_choice(const std::string& part) {
  return {part, tr("This is it"), tr("Point at this part"), hands::point_out(part)};
}

void draw_point_group(kit::Ui& ui, std::string& query, std::string& chosen,
                      const std::vector<library::BodyPart>& parts, std::vector<hands::Action>& out) {
  const auto found = std::find_if(parts.begin(), parts.end(),
                                  [&chosen](const library::BodyPart& one) { return one.id == chosen; });
  const bool any = found != parts.end();
  if (button(ui, "hand.point",
             any ? tr("This is it: {part}", {{"part", tr(found->title)}}) : tr("This is it"),
             {.kind = kit::ButtonKind::primary,
              .enabled = any,
              .reason = tr("Choose a part first, in the picture or in this list."),
              .place = {.w = -1.0F}}))
    out.push_back(hands::point_out(chosen));
  gap(ui, 4.0F);
  text_field(ui, "hand.point.search", tr("Search the parts"), query,
             {.hint = tr("type a word: \"cover\" …"), .place = {.w = -1.0F}, .label_above = false});
  gap(ui, 4.0F);
  for (const library::BodyPart& part : parts) {
    if (!kit::has_words(tr(part.title), query)) continue;
    if (list_row(ui, "hand.point." + part.id, {.title = tr(part.title), .selected = part.id == chosen}))
      chosen = part.id;
  }
}

Pointed pointed_at(const std::vector<library::BodyPart>& parts, const std::string& part_id, bool right) {
  const auto part = std::find_if(parts.begin(), parts.end(),
                                 [&part_id](const library::BodyPart& one) { return one.id == part_id; });
  if (part == parts.end()) return {};
  return {tr(part->title), tr(part->purpose), right};
}

void draw_pointed(kit::Ui& ui, const Pointed& pointed) {
  if (pointed.title.empty()) return;
  gap(ui, 6.0F);
  status_mark(ui, pointed.right ? kit::Status::good : kit::Status::due,
              pointed.right ? tr("Right: {part}", {{"part", pointed.title}})
                            : tr("No. That is: {part}", {{"part", pointed.title}}),
              "pointed");
  text(ui, pointed.purpose, {.type = kit::Type::caption, .colour = kit::Token::ink2});
}

}  // namespace stirbench::desk::screens
