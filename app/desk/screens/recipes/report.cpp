#include <algorithm>
#include <utility>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/recipes/editor.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

constexpr double litre_m3 = 1.0e-3;

void figure(kit::Ui& ui, const char* id, const std::string& label, const std::string& value) {
  const float left = ImGui::GetCursorScreenPos().x;
  const float top = ImGui::GetCursorScreenPos().y;
  const float width = width_left(ui);
  text(ui, label, {.colour = kit::Token::ink2, .wrap = -1.0F});
  const float below = ImGui::GetCursorScreenPos().y;
  at(ui, left + width - text_size(ui, value, kit::Type::body).x, top);
  text(ui, value, {.wrap = -1.0F, .id = id});
  at(ui, left, below);
}

std::string percent(double value) { return kit::plain_number(value, 1) + kit::narrow_gap + "%"; }

// A bar from nothing to the brim with the machine's least and most marked, and the batch in it.
void volume_bar(kit::Ui& ui, const product::Figures& figures, const plant::MachineSpec& machine) {
  ImDrawList* draw = kit::current_draw();
  const ImVec2 at_pos = ImGui::GetCursorScreenPos();
  const float width = width_left(ui);
  const float height = ui.em(16.0F);
  const double full = machine.vat.brim_L;
  const auto x_of = [&](double litres) {
    return at_pos.x + width * static_cast<float>(std::clamp(litres / full, 0.0, 1.0));
  };
  draw->AddRectFilled(at_pos, {at_pos.x + width, at_pos.y + height}, ui.colour(kit::Token::sunk), 4.0F);
  const bool fits =
      figures.volume_hot_L <= machine.vat.working_L && figures.volume_cold_L >= machine.vat.minimum_L;
  draw->AddRectFilled(at_pos, {x_of(figures.volume_hot_L), at_pos.y + height},
                      ui.colour(fits ? kit::Token::ok : kit::Token::bad), 4.0F);
  for (const double mark : {machine.vat.minimum_L, machine.vat.working_L}) {
    draw->AddLine({x_of(mark), at_pos.y - 3.0F}, {x_of(mark), at_pos.y + height + 3.0F},
                  ui.colour(kit::Token::ink), 2.0F);
  }
  at(ui, at_pos.x, at_pos.y + height + ui.px(4.0F));
  text(ui,
       tr("least {low}, most {high}, hot {now}",
          {{"low", ui.shown(kit::Quantity::volume, machine.vat.minimum_L * litre_m3)},
           {"high", ui.shown(kit::Quantity::volume, machine.vat.working_L * litre_m3)},
           {"now", ui.shown(kit::Quantity::volume, figures.volume_hot_L * litre_m3)}}),
       {.type = kit::Type::caption, .colour = kit::Token::ink2});
}

void heat_rows(kit::Ui& ui, const work::RecipeDraft& draft) {
  title(ui, tr("Published heat-treatment rows"));
  text(ui,
       tr("By temperature and time as the phases are written. Spread in the vat, air-space heat and "
          "recording are not judged: a tick is no "
          "approval. The machine heat-treats; it is a pasteuriser only where it is approved as one."),
       {.type = kit::Type::caption, .colour = kit::Token::ink2});
  std::size_t number = 0;
  for (const auto& verdict : draft.report.rows) {
    const std::string words =
        work::with_degrees(tr(verdict.row.title)) + (verdict.claimed ? " · " + tr("claimed") : "");
    const kit::Status state = verdict.met       ? kit::Status::good
                              : verdict.claimed ? kit::Status::bad
                                                : kit::Status::not_yet;
    status_mark(ui, state, words, ("recipes.row." + std::to_string(number++)).c_str());
  }
}

}  // namespace

void draw_recipe_report(kit::Ui& ui, const work::RecipeDraft& draft, const plant::MachineSpec& machine,
                        const std::optional<double>& finish_s, bool estimating, const kit::Rect& rect) {
  kit::PanelScope panel(ui, "recipes.report", rect, {.caption = tr("What follows from it")});
  std::size_t number = 0;
  for (const auto& problem : draft.report.problems) {
    notice(ui, "recipes.problem." + std::to_string(number++), kit::Status::bad, work::problem_words(problem));
    gap(ui, 4.0F);
  }
  const product::Figures& f = draft.report.figures;
  figure(ui, "recipes.figure.mass", tr("Mass"), ui.shown(kit::Quantity::mass, f.mass_kg));
  figure(ui, "recipes.figure.volume", tr("Volume, cold"),
         ui.shown(kit::Quantity::volume, f.volume_cold_L * litre_m3));
  volume_bar(ui, f, machine);
  gap(ui, 6.0F);
  figure(ui, "recipes.figure.fat", tr("Fat"), percent(f.fat_pct));
  figure(ui, "recipes.figure.snf", tr("Milk solids-not-fat"), percent(f.milk_solids_not_fat_pct));
  figure(ui, "recipes.figure.sugars", tr("Sugars"), percent(f.sugars_pct));
  figure(ui, "recipes.figure.solids", tr("Total solids"), percent(f.total_solids_pct));
  if (f.yolk_solids_pct > 0.0)
    figure(ui, "recipes.figure.yolk", tr("Egg-yolk solids"), percent(f.yolk_solids_pct));
  figure(ui, "recipes.figure.freezing", tr("Freezing point"),
         ui.shown(kit::Quantity::temperature, f.freezing_point_degC));
  figure(ui, "recipes.figure.finish", tr("Ready after about"),
         estimating        ? tr("working it out")
         : !finish_s       ? "–"
         : *finish_s < 0.0 ? tr("not within 12 h")
                           : kit::show_duration(*finish_s));
  for (std::size_t i = 0; i < draft.report.cautions.size(); ++i) {
    gap(ui, 6.0F);
    notice(ui, "recipes.caution." + std::to_string(i), kit::Status::due, draft.report.cautions[i]);
  }
  gap(ui, 12.0F);
  heat_rows(ui, draft);
}

}  // namespace stirbench::desk::screens
