#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/fault/fault_panels.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

std::string chance_words(double p) {
  if (p < 0.01) return tr("under 1 %");
  return kit::plain_number(100.0 * p, 0) + " %";
}

void bar(kit::Ui& ui, double share) {
  const ImVec2 corner = ImGui::GetCursorScreenPos();
  const float width = width_left(ui);
  const float height = ui.em(14.0F);
  ImDrawList* draw = kit::current_draw();
  const float round = ui.px(3.0F);
  draw->AddRectFilled(corner, {corner.x + width, corner.y + height}, ui.colour(kit::Token::sunk), round);
  const float filled = std::max(ui.px(3.0F), width * static_cast<float>(std::min(share, 1.0)));
  draw->AddRectFilled(corner, {corner.x + filled, corner.y + height}, ui.colour(kit::Token::act), round);
  at(ui, corner.x, corner.y + height + ui.px(2.0F));
}

void one_cause(kit::Ui& ui, work::FaultSearch& search, const diagnosis::Ranked& one) {
  const diagnosis::Cause& cause = search.model().causes[one.cause];
  const std::string id = "fault.cause." + cause.id;
  const bool chosen = search.cause() == one.cause;
  if (button(ui, id, tr(cause.title),
             {.kind = kit::ButtonKind::quiet,
              .selected = chosen,
              .hint = tr(cause.shows),
              .place = {.w = -1.0F},
              .align = kit::Align::left})) {
    search.choose_cause(chosen ? diagnosis::Model::npos : one.cause);
  }
  bar(ui, one.p);
  std::string words = chance_words(one.p);
  if (cause.kind == faults::FaultKind::misuse) words += " · " + tr("nothing is broken");
  if (const std::string why = search.why(one.cause); !why.empty()) words += " · " + why;
  text(ui, words, {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = (id + ".p").c_str()});
  const auto others = search.like(one.cause);
  if (!others.empty()) {
    std::string names;
    for (const std::size_t other : others)
      names += (names.empty() ? "" : ", ") + tr(search.model().causes[other].title);
    text(ui, tr("No check here tells it from: {others}", {{"others", names}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2});
  }
  gap(ui, 8.0F);
}

}  // namespace

void draw_fault_causes(kit::Ui& ui, work::FaultSearch& search, const kit::Rect& rect, bool& asks_how_sure) {
  kit::PanelScope panel(ui, "fault.causes", rect,
                        {.caption = search.started() ? tr("Probable causes") : tr("Most frequent causes")});
  const diagnosis::Posterior& known = search.known();
  if (known.contradictory) {
    notice(ui, "fault.contradiction", kit::Status::due,
           tr("Not everything found fits together. Look again at the marked answers; the machine may have "
              "two faults."));
    gap(ui, 8.0F);
  }
  constexpr double least_shown = 0.01;
  constexpr std::size_t most_shown = 7;
  std::size_t shown = 0;
  for (const diagnosis::Ranked& one : known.ranked()) {
    if ((one.p < least_shown && shown > 0) || shown == most_shown) break;
    one_cause(ui, search, one);
    ++shown;
  }
  if (known.unknown_p >= least_shown && search.started()) {
    text(ui, tr("Something that is not in this guide"));
    bar(ui, known.unknown_p);
    text(ui, chance_words(known.unknown_p),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "fault.unknown.p"});
    gap(ui, 8.0F);
  }
  // Any second fault may be there unnoticed; a word is worth only one that stands out.
  if (!known.pairs.empty() && known.pairs.front().p >= 0.05) {
    const diagnosis::PairEntry& pair = known.pairs.front();
    text(ui,
         tr("Two at once: {p}, {first} and {second}.",
            {{"p", chance_words(pair.p)},
             {"first", tr(search.model().causes[pair.first].title)},
             {"second", tr(search.model().causes[pair.second].title)}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "fault.pair"});
    gap(ui, 6.0F);
  }
  const auto out = search.ruled_out();
  if (!out.empty()) {
    std::string names;
    for (const std::size_t cause : out)
      names += (names.empty() ? "" : "; ") + tr(search.model().causes[cause].title);
    text(ui, tr("Ruled out: {names}", {{"names", names}}),
         {.type = kit::Type::caption, .colour = kit::Token::ink2, .id = "fault.ruled_out"});
    gap(ui, 6.0F);
  }
  const std::string source = search.guide().simulated
                                 ? tr("From {n} simulated broken machines of this model.",
                                      {{"n", kit::plain_number(search.guide().machines, 0)}})
                                 : tr("Nothing was simulated yet: only how often causes happen.");
  text(ui, source, {.type = kit::Type::caption, .colour = kit::Token::ink2});
  if (link(ui, "fault.how_sure", tr("How sure is this?"))) asks_how_sure = true;
}

}  // namespace stirbench::desk::screens
