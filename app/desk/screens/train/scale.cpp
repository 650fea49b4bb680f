#include "app/desk/screens/train/scale.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "sim_core/bench/step.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

const control::Recipe* chosen_recipe(const work::LiveRun& run) {
  const std::int32_t index = run.state().control.recipe;
  const auto& recipes = run.machine().recipes;
  return index >= 0 && static_cast<std::size_t>(index) < recipes.size()
             ? &recipes[static_cast<std::size_t>(index)]
             : nullptr;
}

double poured_kg(const work::LiveRun& run, const std::string& ingredient) {
  double sum = 0.0;
  for (const machine::Event& event : run.history()) {
    if (was_done(event, hands::pour) && event.name == ingredient) {
      sum += event.number;
    }
  }
  return sum;
}

// What stands on the shelf: the lesson's list, else everything.
std::vector<const product::Ingredient*> shelf(const work::LiveRun& run) {
  std::vector<const product::Ingredient*> list;
  const training::Lesson* lesson = run.lesson();
  for (const product::Ingredient& ingredient : run.machine().ingredients) {
    const bool wanted =
        lesson == nullptr || lesson->at_hand.empty() ||
        std::find(lesson->at_hand.begin(), lesson->at_hand.end(), ingredient.id) != lesson->at_hand.end();
    if (wanted) list.push_back(&ingredient);
  }
  return list;
}

void choose(AtHandState& state, const work::LiveRun& run, const product::Ingredient& ingredient) {
  state.ingredient = ingredient.id;
  state.degC = run.delivered_degC(ingredient);
  state.kg = 0.0;  // to weigh is the person's work in every mode; the words of help tell the amount
}

void shelf_rows(kit::Ui& ui, AtHandState& state, const work::LiveRun& run) {
  for (const product::Ingredient* ingredient : shelf(run)) {
    const double asked = still_asked_kg(run, ingredient->id);
    kit::RowStyle row;
    row.title = tr(ingredient->title);
    row.selected = ingredient->id == state.ingredient;
    row.right = asked > 0.0 ? tr("asked: {kg}", {{"kg", ui.shown(kit::Quantity::mass, asked, 3)}}) : "";
    if (list_row(ui, "scale.ingredient." + ingredient->id, row)) choose(state, run, *ingredient);
  }
}

void pour_row(kit::Ui& ui, AtHandState& state, const work::LiveRun& run, std::vector<hands::Action>& out) {
  quantity_field(ui, "scale.kg", tr("On the scale"), kit::Quantity::mass, state.kg,
                 {.min_si = 0.0,
                  .max_si = 60.0,
                  .step_shown = 0.1,
                  .decimals = 3,
                  .label_above = false,
                  .place = {.w = ui.em(190.0F)}});
  same_line(ui);
  const hands::Action pour = hands::pour(state.ingredient, state.kg, state.degC);
  std::string reason;
  if (state.ingredient.empty()) {
    reason = tr("Choose an ingredient first.");
  } else if (state.kg <= 0.0) {
    reason = tr("Nothing is on the scale.");
  } else {
    reason = tr(hands::why_not(run.machine(), run.state(), pour));
  }
  if (button(ui, "scale.pour", tr("Pour it in"),
             {.kind = kit::ButtonKind::primary,
              .enabled = reason.empty(),
              .reason = reason,
              .place = {.w = -1.0F}})) {
    out.push_back(pour);
    state.kg = 0.0;
  }
  if (!reason.empty())
    text(ui, reason, {.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = -1.0F});
}

}  // namespace

double still_asked_kg(const work::LiveRun& run, const std::string& ingredient) {
  const control::Recipe* recipe = chosen_recipe(run);
  if (recipe == nullptr) return 0.0;
  double asked = 0.0;
  for (const auto& one : recipe->start) asked += one.ingredient == ingredient ? one.kg : 0.0;
  for (const auto& phase : recipe->phases) {
    for (const auto& one : phase.additions) asked += one.ingredient == ingredient ? one.kg : 0.0;
  }
  const double left = asked - poured_kg(run, ingredient);
  return left > 5.0e-4 ? left : 0.0;
}

void draw_scale(kit::Ui& ui, AtHandState& state, const work::LiveRun& run, const kit::Rect& rect,
                std::vector<hands::Action>& out) {
  kit::PanelScope panel(ui, "scale", rect, {.scroll = false});
  kit::Rect inner = panel.inner();
  const kit::Rect foot = inner.take_bottom(
      ui.theme.control_height() + ui.theme.line_px(kit::Type::caption) + ui.px(6.0F), ui.px(6.0F));
  const kit::Rect head = inner.take_top(ui.theme.control_height(), ui.px(4.0F));
  at(ui, head.x, head.y);
  if (button(ui, "scale.back", tr("At hand"),
             {.kind = kit::ButtonKind::quiet, .icon = kit::Icon::arrow_left}))
    state.scale_open = false;
  same_line(ui);
  text(ui, tr("Scale"), {.type = kit::Type::body_bold, .wrap = -1.0F});
  {
    kit::ScrollScope scroll(ui, "scale.shelf", inner);
    shelf_rows(ui, state, run);
  }
  at(ui, foot.x, foot.y);
  pour_row(ui, state, run, out);
}

}  // namespace stirbench::desk::screens
