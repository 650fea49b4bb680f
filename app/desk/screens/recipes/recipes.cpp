#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/recipes/editor.h"
#include "app/desk/screens/screens.h"
#include "app/library/food/finish_estimate.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

class RecipeBench final : public Screen {
 public:
  explicit RecipeBench(work::Desk& desk) : desk_(desk) {
    if (!desk_.library.recipes.empty()) open(desk_.library.recipes.begin()->first);
  }
  const char* name() const override { return "recipes"; }

  TopBar top_bar(kit::Ui&) override {
    return {tr("Recipe bench"), machine().title + (draft_.changed ? " · " + tr("not saved") : ""), "", true};
  }

  void draw_tools(kit::Ui& ui) override {
    std::vector<std::string> ids;
    std::vector<std::string> titles;
    for (const auto& [id, spec] : desk_.library.machines) {
      ids.push_back(id);
      titles.push_back(spec.title);
    }
    const int picked = menu_button(ui, "recipes.machine", machine().title, titles);
    if (picked >= 0) {
      desk_.machine_id = ids[static_cast<std::size_t>(picked)];
      check();
    }
    same_line(ui);
    if (button(ui, "recipes.copy", tr("Copy as my own"))) {
      draft_.copy(desk_);
      estimate();
    }
    same_line(ui);
    const std::string reason = draft_.why_not_saved();
    if (button(ui, "recipes.save", tr("Save"),
               {.kind = kit::ButtonKind::primary, .enabled = reason.empty(), .reason = reason})) {
      save(ui);
    }
  }

  void draw(kit::Ui& ui) override {
    estimate_.poll();
    kit::Rect area = ui.area;
    const bool narrow = area.w < ui.em(236.0F + 372.0F + 430.0F);
    if (narrow) {
      // Large text or a small window: one part at a time.
      const kit::Rect choice = area.take_top(ui.theme.control_height(), ui.px(10.0F));
      at(ui, choice.x, choice.y);
      radio_row(ui, "recipes.part", {tr("Recipes"), tr("Amounts and phases"), tr("What follows")}, part_);
    }
    kit::Rect list = area;
    kit::Rect report = area;
    if (!narrow) {
      list = area.take_left(ui.em(236.0F), ui.px(kit::Measure::gutter));
      report = area.take_right(ui.em(372.0F), ui.px(kit::Measure::gutter));
    }
    if (!narrow || part_ == 0) draw_list(ui, list);
    if ((!narrow || part_ == 1) && draw_recipe_editor(ui, draft_, desk_.library, area)) check();
    if (!narrow || part_ == 2)
      draw_recipe_report(ui, draft_, machine(), estimate_.seconds(), estimate_.busy(), report);
    if (leaving_) ask_before_leaving(ui);
  }

  bool may_leave(kit::Ui&) override {
    leaving_ = draft_.changed;
    return !draft_.changed;
  }

 private:
  const plant::MachineSpec& machine() const { return desk_.library.machines.at(desk_.machine_id); }

  void open(const std::string& id) {
    draft_.open(desk_, id);
    estimate();
  }

  void check() {
    draft_.check(desk_);
    estimate();
  }

  // How long it would take is worked out beside the drawing.
  void estimate() {
    estimate_.ask(desk_.library, desk_.machine_id, draft_.recipe, draft_.report.problems.empty());
  }

  void draw_list(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "recipes.list", rect, {.caption = tr("Recipes")});
    std::string chosen;
    for (const auto& [id, recipe] : desk_.library.recipes) {
      kit::RowStyle row;
      row.title = tr(recipe.title);
      row.detail = work::is_own_recipe(desk_, id) ? tr("my own") : tr("comes with the program");
      row.selected = id == draft_.recipe.id;
      row.enabled = !draft_.changed || row.selected;
      row.reason = tr("Save or drop your changes first.");
      if (list_row(ui, "recipes.item." + id, row)) chosen = id;
    }
    if (!chosen.empty() && chosen != draft_.recipe.id) open(chosen);
    if (draft_.changed) {
      gap(ui, 10.0F);
      if (button(ui, "recipes.drop", tr("Drop my changes"))) {
        draft_.drop(desk_);
        estimate();
      }
    }
    if (draft_.own && !draft_.changed && desk_.library.recipes.count(draft_.recipe.id) != 0) {
      gap(ui, 10.0F);
      if (button(ui, "recipes.delete", tr("Delete this recipe"), {.icon = kit::Icon::bin})) remove(ui);
    }
  }

  void save(kit::Ui& ui) {
    const std::string problem = draft_.save(desk_);
    ui.host.toast(problem.empty() ? kit::Status::good : kit::Status::bad,
                  problem.empty() ? tr("Saved.") : problem);
    if (problem.empty()) estimate();
  }

  void remove(kit::Ui& ui) {
    const std::string problem = draft_.remove(desk_);
    if (!problem.empty())
      ui.host.toast(kit::Status::bad, problem);
    else
      estimate();
  }

  void ask_before_leaving(kit::Ui& ui) {
    kit::DialogScope dialog(ui, "recipes.leave", tr("Leave without saving?"));
    text(ui, tr("Your changes to {name} are not saved.", {{"name", draft_.recipe.title}}));
    gap(ui, 8.0F);
    if (button(ui, "recipes.leave.stay", tr("Stay"), {.kind = kit::ButtonKind::primary})) leaving_ = false;
    same_line(ui);
    if (button(ui, "recipes.leave.drop", tr("Leave and drop them"))) {
      draft_.changed = false;
      leaving_ = false;
      shell().back(true);
    }
    if (dialog.dismissed()) leaving_ = false;
  }

  work::Desk& desk_;
  work::RecipeDraft draft_;
  library::FinishEstimate estimate_{[this] { shell().wake(); }};
  int part_ = 1;  // shown part when there is no room for all three
  bool leaving_ = false;
};

}  // namespace

std::unique_ptr<Screen> make_recipes(work::Desk& desk) { return std::make_unique<RecipeBench>(desk); }

}  // namespace stirbench::desk::screens
