#include "app/desk/screens/recipes/editor.h"

#include <algorithm>
#include <array>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

constexpr double most_kg = 60.0;
constexpr double longest_hold_s = 86400.0;

const char* const read_only = "A shipped recipe stays as it is. Make a copy of your own to change it.";

std::string kind_title(control::PhaseKind kind) {
  switch (kind) {
    case control::PhaseKind::heat: return tr("heat");
    case control::PhaseKind::add: return tr("add");
    case control::PhaseKind::hold: return tr("hold");
    case control::PhaseKind::chill: return tr("chill");
    case control::PhaseKind::age: return tr("age");
    case control::PhaseKind::keep: return tr("keep");
  }
  return "";
}

// One column of the editor: what is drawn and whether it changed the recipe.
struct Editor {
  kit::Ui& ui;
  work::RecipeDraft& draft;
  const library::Library& library;
  std::vector<std::string> ingredient_ids;
  std::vector<std::string> ingredient_titles;
  bool changed = false;

  std::string reason() const { return draft.own ? "" : tr(read_only); }

  void addition(const std::string& id, std::vector<control::Addition>& list, std::size_t index,
                bool& removed) {
    control::Addition& one = list[index];
    const auto found = std::find(ingredient_ids.begin(), ingredient_ids.end(), one.ingredient);
    int chosen = found == ingredient_ids.end() ? 0 : static_cast<int>(found - ingredient_ids.begin());
    const std::string label =
        found == ingredient_ids.end() ? one.ingredient : ingredient_titles[static_cast<std::size_t>(chosen)];
    kit::ButtonStyle pick{
        .enabled = draft.own, .reason = reason(), .place = {.w = ui.em(230.0F)}, .align = kit::Align::left};
    const int picked = menu_button(ui, id + ".ingredient", label, ingredient_titles, pick);
    if (picked >= 0) {
      one.ingredient = ingredient_ids[static_cast<std::size_t>(picked)];
      changed = true;
    }
    same_line(ui);
    if (quantity_field(ui, id + ".kg", tr("Amount"), kit::Quantity::mass, one.kg,
                       {.min_si = 0.001,
                        .max_si = most_kg,
                        .step_shown = 0.1,
                        .decimals = 3,
                        .enabled = draft.own,
                        .reason = reason(),
                        .label_above = false,
                        .place = {.w = ui.em(180.0F)}})) {
      changed = true;
    }
    same_line(ui);
    if (icon_button(ui, id + ".remove", kit::Icon::bin, tr("Take {name} out", {{"name", label}}),
                    {.kind = kit::ButtonKind::quiet, .enabled = draft.own, .reason = reason()})) {
      removed = true;
    }
  }

  void additions(const std::string& id, std::vector<control::Addition>& list) {
    std::size_t remove = list.size();
    for (std::size_t i = 0; i < list.size(); ++i) {
      bool removed = false;
      addition(id + "." + std::to_string(i), list, i, removed);
      if (removed) remove = i;
    }
    if (remove < list.size()) {
      list.erase(list.begin() + static_cast<std::ptrdiff_t>(remove));
      changed = true;
    }
    if (!ingredient_ids.empty() && button(ui, id + ".add", tr("Add an ingredient"),
                                          {.kind = kit::ButtonKind::quiet,
                                           .icon = kit::Icon::plus,
                                           .enabled = draft.own,
                                           .reason = reason()})) {
      list.push_back({ingredient_ids.front(), 1.0});
      changed = true;
    }
  }

  void phase_fields(const std::string& id, control::Phase& phase) {
    if (quantity_field(ui, id + ".target", tr("Temperature"), kit::Quantity::temperature, phase.target_degC,
                       {.min_si = 0.0,
                        .max_si = 95.0,
                        .step_shown = 1.0,
                        .enabled = draft.own,
                        .reason = reason(),
                        .place = {.w = ui.em(170.0F)}})) {
      changed = true;
    }
    if (phase.kind == control::PhaseKind::hold || phase.kind == control::PhaseKind::age) {
      same_line(ui);
      const bool hours = phase.kind == control::PhaseKind::age;
      const double unit_s = hours ? 3600.0 : 1.0;
      double shown = phase.duration_s / unit_s;
      if (number_field(ui, id + ".duration", tr("For"), shown,
                       {.unit = hours ? "h" : "s",
                        .min = hours ? 0.1 : 1.0,
                        .max = longest_hold_s / unit_s,
                        .step = hours ? 0.5 : 5.0,
                        .decimals = hours ? 1 : 0,
                        .enabled = draft.own,
                        .reason = reason(),
                        .place = {.w = ui.em(170.0F)}})) {
        phase.duration_s = shown * unit_s;
        changed = true;
      }
    }
    if (phase.kind == control::PhaseKind::add) {
      if (text_field(ui, id + ".instruction", tr("What the display asks for"), phase.instruction,
                     {.enabled = draft.own, .reason = reason(), .place = {.w = -1.0F}})) {
        changed = true;
      }
      additions(id + ".additions", phase.additions);
    }
  }

  void phases() {
    std::vector<control::Phase>& list = draft.recipe.phases;
    std::size_t remove = list.size();
    std::size_t up = 0;
    for (std::size_t i = 0; i < list.size(); ++i) {
      const std::string id = "recipes.phase." + std::to_string(i);
      separator(ui);
      text(ui, std::to_string(i + 1) + ".  " + kind_title(list[i].kind) + " · " + list[i].id,
           {.type = kit::Type::body_bold, .wrap = -1.0F});
      same_line(ui, ui.px(16.0F));
      if (icon_button(ui, id + ".up", kit::Icon::arrow_up, tr("Move up"),
                      {.kind = kit::ButtonKind::quiet,
                       .enabled = draft.own && i > 0,
                       .reason = draft.own ? tr("It is the first.") : reason()})) {
        up = i;
      }
      same_line(ui);
      if (icon_button(ui, id + ".remove", kit::Icon::bin, tr("Take this phase out"),
                      {.kind = kit::ButtonKind::quiet, .enabled = draft.own, .reason = reason()})) {
        remove = i;
      }
      phase_fields(id, list[i]);
    }
    if (up > 0) {
      std::swap(list[up], list[up - 1]);
      changed = true;
    }
    if (remove < list.size()) {
      list.erase(list.begin() + static_cast<std::ptrdiff_t>(remove));
      changed = true;
    }
  }

  void new_phase() {
    static constexpr std::array<control::PhaseKind, 6> kinds = {
        control::PhaseKind::heat,  control::PhaseKind::add, control::PhaseKind::hold,
        control::PhaseKind::chill, control::PhaseKind::age, control::PhaseKind::keep};
    std::vector<std::string> labels;
    labels.reserve(kinds.size());
    for (const control::PhaseKind kind : kinds) labels.push_back(kind_title(kind));
    const int chosen = menu_button(ui, "recipes.phase.new", tr("Add a phase"), labels,
                                   {.icon = kit::Icon::plus, .enabled = draft.own, .reason = reason()});
    if (chosen < 0) return;
    control::Phase phase;
    phase.kind = kinds[static_cast<std::size_t>(chosen)];
    const std::string base = labels[static_cast<std::size_t>(chosen)];
    int number = 1;
    const auto taken = [this](const std::string& id) {
      return std::any_of(draft.recipe.phases.begin(), draft.recipe.phases.end(),
                         [&](const auto& p) { return p.id == id; });
    };
    do {
      phase.id = base + "-" + std::to_string(number++);
    } while (taken(phase.id));
    phase.title = base;
    phase.target_degC = phase.kind == control::PhaseKind::heat || phase.kind == control::PhaseKind::hold
                            ? 85.0
                        : phase.kind == control::PhaseKind::add ? 40.0
                                                                : 3.0;
    if (phase.kind == control::PhaseKind::hold) phase.duration_s = 30.0;
    if (phase.kind == control::PhaseKind::age) phase.duration_s = 4.0 * 3600.0;
    draft.recipe.phases.push_back(std::move(phase));
    changed = true;
  }
};

}  // namespace

bool draw_recipe_editor(kit::Ui& ui, work::RecipeDraft& draft, const library::Library& library,
                        const kit::Rect& rect) {
  kit::PanelScope panel(ui, "recipes.editor", rect, {.caption = tr("Amounts and phases")});
  Editor editor{ui, draft, library, {}, {}, false};
  for (const auto& [id, ingredient] : library.ingredients) {
    editor.ingredient_ids.push_back(id);
    editor.ingredient_titles.push_back(tr(ingredient.title));
  }
  const kit::FieldStyle words{.enabled = draft.own, .reason = editor.reason(), .place = {.w = -1.0F}};
  if (text_field(ui, "recipes.title", tr("Name"), draft.recipe.title, words)) editor.changed = true;
  if (text_field(ui, "recipes.note", tr("What it is, in a line"), draft.recipe.note, words))
    editor.changed = true;

  double batch_kg = draft.report.figures.mass_kg;
  if (quantity_field(ui, "recipes.batch", tr("Whole batch (changes every amount)"), kit::Quantity::mass,
                     batch_kg,
                     {.min_si = 1.0,
                      .max_si = most_kg,
                      .step_shown = 1.0,
                      .enabled = draft.own,
                      .reason = editor.reason(),
                      .place = {.w = ui.em(200.0F)}}) &&
      draft.report.figures.mass_kg > 0.0) {
    draft.recipe = library::scaled(draft.recipe, batch_kg);
    editor.changed = true;
  }
  gap(ui, 10.0F);
  title(ui, tr("In the vat at the start"));
  editor.additions("recipes.start", draft.recipe.start);
  gap(ui, 10.0F);
  title(ui, tr("Phases"));
  editor.phases();
  gap(ui, 6.0F);
  editor.new_phase();
  if (editor.changed) draft.changed = true;
  return editor.changed;
}

}  // namespace stirbench::desk::screens
