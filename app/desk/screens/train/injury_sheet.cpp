#include "app/desk/screens/train/injury_sheet.h"

#include <cmath>

#include "app/desk/kit/signs/signs.h"
#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

std::string words(std::string_view text) { return tr(std::string(text)); }

}  // namespace

InjuryAnswer draw_injury_sheet(kit::Ui& ui, const work::LiveRun& run) {
  const machine::State& state = run.state();
  const machine::HarmId harm = state.injury;
  const double severity = state.harms[static_cast<std::size_t>(harm)].severity;
  InjuryAnswer answer = InjuryAnswer::none;
  kit::DialogScope dialog(ui, "injury", tr("Stopped: somebody was hurt"), 620.0F);
  const kit::SignId sign = kit::find_sign(machine::harm_sign(harm)).value_or(kit::SignId::w001);
  const float side = ui.em(64.0F);
  const ImVec2 corner = ImGui::GetCursorScreenPos();
  kit::draw_sign(kit::current_draw(), sign, {corner.x, corner.y, side, side});
  at(ui, corner.x + side + ui.px(16.0F),
     corner.y + std::round((side - ui.theme.line_px(kit::Type::step)) * 0.5F));
  step_text(ui, words(machine::harm_title(harm)));
  at(ui, corner.x, corner.y + side + ui.px(10.0F));
  caption(ui, tr("What would have happened"));
  text(ui, words(machine::harm_happened(harm)), {.id = "injury.happened"});
  const std::string detail = machine::harm_detail(harm, severity);
  if (!detail.empty()) text(ui, tr(detail), {.colour = kit::Token::ink2});
  gap(ui, 6.0F);
  caption(ui, tr("Why"));
  text(ui, words(machine::harm_why(harm)));
  gap(ui, 6.0F);
  caption(ui, tr("Do this instead"));
  text(ui, words(machine::harm_instead(harm)), {.id = "injury.instead"});
  gap(ui, 6.0F);
  text(ui,
       tr("Here it costs nothing. On a real machine your site's rules, local codes and licensed people come "
          "first."),
       {.type = kit::Type::caption, .colour = kit::Token::ink2});
  gap(ui, 10.0F);
  if (button(ui, "injury.again", tr("Try again"), {.kind = kit::ButtonKind::primary}))
    answer = InjuryAnswer::try_again;
  same_line(ui);
  if (run.why_not_rewind().empty()) {
    if (button(ui, "injury.rewind", tr("Back {n} seconds", {{"n", kit::plain_number(work::rewind_s, 0)}})))
      answer = InjuryAnswer::rewind;
    same_line(ui);
  }
  if (button(ui, "injury.look_back", tr("Look back")) || dialog.dismissed()) answer = InjuryAnswer::look_back;
  return answer;
}

}  // namespace stirbench::desk::screens
