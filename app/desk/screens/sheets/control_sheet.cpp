#include "app/desk/screens/screens.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;
using kit::trn;

namespace {

class Sheet : public Screen {
 public:
  const char* name() const override { return "sheet"; }
  TopBar top_bar(kit::Ui&) override { return {tr("Widget sheet"), tr("every control once"), "", true}; }
  void draw_bar_middle(kit::Ui& ui, const kit::Rect& free) override;
  void draw_tools(kit::Ui& ui) override;
  void draw(kit::Ui& ui) override;

 private:
  void draw_actions(kit::Ui& ui, const kit::Rect& rect);
  void draw_inputs(kit::Ui& ui, const kit::Rect& rect);
  void draw_lists(kit::Ui& ui, const kit::Rect& rect);
  void draw_now(kit::Ui& ui, const kit::Rect& rect);
  void draw_display(kit::Ui& ui, const kit::Rect& rect);
  void draw_shapes(kit::Ui& ui, const kit::Rect& rect);
  void draw_dialog(kit::Ui& ui);

  int pressed_ = 0;
  int speed_ = 0;
  int unit_ = 0;
  int recipe_ = 0;
  int row_ = 0;
  int phase_ = 2;
  bool guide_ = true;
  bool reduced_ = false;
  bool lid_open_ = false;
  bool dialog_ = false;
  double mass_kg_ = 20.0;
  double target_degC_ = 85.0;
  double opening_ = 0.4;
  std::string name_;
};

void Sheet::draw_bar_middle(kit::Ui& ui, const kit::Rect& free) {
  const float width = std::min(free.w, ui.em(380.0F));
  if (width < ui.em(300.0F)) return;
  beads(ui, "sheet.beads", {tr("warm"), tr("add"), tr("hold"), tr("chill"), tr("keep")}, phase_,
        {free.x + (free.w - width) * 0.5F, free.y, width, free.h}, 0.4);
}

void Sheet::draw_tools(kit::Ui& ui) {
  Settings settings = shell().settings();
  if (button(ui, "sheet.theme", tr("Theme"))) {
    settings.theme = static_cast<kit::ThemeKind>((static_cast<int>(settings.theme) + 1) % 3);
    shell().change_settings(settings);
  }
  same_line(ui, ui.px(8.0F));
  if (button(ui, "sheet.text", tr("Text {n} %", {{"n", std::to_string(settings.text_percent)}}))) {
    settings.text_percent = settings.text_percent >= 200 ? 100 : settings.text_percent + 50;
    shell().change_settings(settings);
  }
}

void Sheet::draw_actions(kit::Ui& ui, const kit::Rect& rect) {
  const kit::PanelScope panel(ui, "sheet.actions", rect, {.caption = tr("Actions")});
  if (button(ui, "sheet.press", tr("Press me"))) ++pressed_;
  same_line(ui);
  if (button(ui, "sheet.primary", tr("Start"), {.kind = kit::ButtonKind::primary}))
    ui.host.toast(kit::Status::good, tr("Started."));
  same_line(ui);
  if (button(ui, "sheet.stop", tr("Stop"), {.kind = kit::ButtonKind::stop})) phase_ = (phase_ + 1) % 6;
  same_line(ui);
  button(ui, "sheet.quiet", tr("Quiet"), {.kind = kit::ButtonKind::quiet});
  button(ui, "sheet.disabled", tr("Run"), {.enabled = false, .reason = tr("Close the lid first.")});
  same_line(ui);
  button(ui, "sheet.selected", tr("Vat"), {.selected = true});
  same_line(ui);
  icon_button(ui, "sheet.icon", kit::Icon::pause, tr("Pause"));
  same_line(ui);
  if (const int picked = menu_button(ui, "sheet.menu", tr("More"), {tr("Save"), tr("Copy"), tr("Delete")});
      picked >= 0)
    pressed_ += 100;
  for (int i = 0; i < 4; ++i) {
    const std::vector<std::string> labels{"1×", "10×", "60×", "300×"};
    if (i > 0) same_line(ui);
    if (chip(ui, "sheet.speed." + std::to_string(i), labels[static_cast<std::size_t>(i)], speed_ == i))
      speed_ = i;
  }
  text(ui, trn("Pressed {n} time", "Pressed {n} times", pressed_), {.id = "sheet.count"});
  if (link(ui, "sheet.link", tr("Open a dialog"))) dialog_ = true;
}

void Sheet::draw_inputs(kit::Ui& ui, const kit::Rect& rect) {
  const kit::PanelScope panel(ui, "sheet.inputs", rect, {.caption = tr("Inputs")});
  text_field(ui, "sheet.name", tr("Name"), name_, {.hint = tr("type a name"), .place = {.w = -1.0F}});
  quantity_field(ui, "sheet.mass", tr("Whole milk"), kit::Quantity::mass, mass_kg_,
                 {.min_si = 0.0, .max_si = 45.0, .step_shown = 0.5});
  quantity_field(ui, "sheet.target", tr("Target"), kit::Quantity::temperature, target_degC_,
                 {.min_si = 2.0, .max_si = 95.0});
  slider(ui, "sheet.opening", tr("Draw valve"), opening_,
         {.step = 0.05, .value_text = ui.shown(kit::Quantity::share, opening_), .place = {.w = -1.0F}});
  checkbox(ui, "sheet.guide", tr("Show hints"), guide_,
           {.detail = tr("In practice, hints come when you ask.")});
  checkbox(ui, "sheet.reduced", tr("Less motion"), reduced_);
  radio_row(ui, "sheet.unit", {"°C", "°F"}, unit_);
  choice(ui, "sheet.recipe", tr("Recipe"), {tr("White base"), tr("Chocolate"), tr("Fruit syrup")}, recipe_,
         {.place = {.w = -1.0F}});
}

void Sheet::draw_lists(kit::Ui& ui, const kit::Rect& rect) {
  const kit::PanelScope panel(ui, "sheet.lists", rect, {.caption = tr("Lists")});
  if (list_row(ui, "sheet.row.0",
               {.title = tr("First batch"),
                .detail = tr("about 25 min · guided"),
                .icon = kit::Icon::dot,
                .icon_colour = kit::Token::ok,
                .selected = row_ == 0,
                .chevron = true}))
    row_ = 0;
  if (list_row(ui, "sheet.row.1",
               {.title = tr("Guards stop it"),
                .detail = tr("about 8 min"),
                .icon = kit::Icon::half_ring,
                .icon_colour = kit::Token::due,
                .selected = row_ == 1,
                .chevron = true}))
    row_ = 1;
  gap(ui, 14.0F);
  kit::TableScope table(ui, "sheet.table",
                        {{tr("Ingredient"), 2.0F, kit::Align::left},
                         {tr("Mass"), 1.0F, kit::Align::right},
                         {tr("State"), -70.0F, kit::Align::centre}});
  table.header();
  table.row("sheet.cell.0", {{tr("Whole milk")},
                             {ui.shown(kit::Quantity::mass, 20.0)},
                             {"", kit::Icon::check, kit::Token::ok, tr("added")}});
  table.row("sheet.cell.1",
            {{tr("Sugar")},
             {ui.shown(kit::Quantity::mass, 6.4)},
             {"", kit::Icon::ring, kit::Token::ink2, tr("not yet")}},
            true);
  table.row("sheet.cell.2", {{tr("Cream")},
                             {ui.shown(kit::Quantity::mass, 4.25)},
                             {"", kit::Icon::cross, kit::Token::bad, tr("wrong")}});
  gap(ui, 14.0F);
  progress_bar(ui, 0.62, tr("62 % · third line carries nothing"), kit::Token::act, "sheet.progress");
  gap(ui, 12.0F);
  notice(ui, "sheet.notice", kit::Status::info, tr("The batch is kept as it is."));
  status_mark(ui, kit::Status::good, tr("valid"));
  same_line(ui, ui.px(18.0F));
  status_mark(ui, kit::Status::due, tr("due within 30 days"));
  same_line(ui, ui.px(18.0F));
  status_mark(ui, kit::Status::bad, tr("lapsed"));
}

void Sheet::draw_now(kit::Ui& ui, const kit::Rect& rect) {
  const kit::PanelScope panel(ui, "sheet.now", rect,
                              {.caption = tr("Now"), .ground = kit::Token::act2, .border = kit::Token::act});
  step_text(ui, tr("Let the hold run its 30 seconds. Keep the lid closed: opening it stops heat and flow, "
                   "and the hold starts again."));
  gap(ui, 10.0F);
  text(ui, tr("Every drop must stay hot for the whole time."),
       {.type = kit::Type::caption, .colour = kit::Token::act});
  gap(ui, 12.0F);
  if (button(ui, "sheet.point", tr("Show me where")))
    ui.registry.point_at(ui.registry.pointed().empty() ? "sheet.stop" : "");
  same_line(ui);
  button(ui, "sheet.why", tr("Why?"));
}

void Sheet::draw_display(kit::Ui& ui, const kit::Rect& rect) {
  const kit::PanelScope panel(ui, "sheet.display", rect,
                              {.ground = kit::Token::display, .border = kit::Token::line});
  const kit::Rect inner = panel.inner();
  ImDrawList* draw = kit::current_draw();
  const kit::Shown product = show(kit::Quantity::temperature, target_degC_, ui.units);
  const kit::TextStyle quiet{.type = kit::Type::caption, .colour = kit::Token::on_display2};
  text_at(ui, draw, inner.min(), tr("product"), quiet);
  at(ui, inner.x, inner.y + ui.theme.line_px(kit::Type::caption));
  value_text(ui, product, kit::Type::display_large, kit::Token::on_display, "sheet.product");
  text_at(ui, draw, {inner.right(), inner.y}, tr("hold"), quiet, kit::Align::right);
  value_at(ui, draw, {inner.right(), inner.y + ui.theme.line_px(kit::Type::caption)},
           show(kit::Quantity::duration, 18.0, ui.units), kit::Type::title, kit::Token::on_display,
           kit::Align::right);
}

void Sheet::draw_shapes(kit::Ui& ui, const kit::Rect& rect) {
  const kit::PanelScope panel(ui, "sheet.shapes", rect,
                              {.caption = tr("Shapes, signs and a drawing"), .ground = kit::Token::stage});
  const float side = ui.px(18.0F);
  const int count = static_cast<int>(kit::Icon::gear);
  kit::Rect strip{panel.inner().x, panel.inner().y, panel.inner().w, side};
  for (int i = 1; i <= count; ++i) {
    if (strip.w < side) {
      strip = {panel.inner().x, strip.y + side + ui.px(6.0F), panel.inner().w, side};
    }
    kit::icon(kit::current_draw(), static_cast<kit::Icon>(i), strip.take_left(side, ui.px(8.0F)),
              ui.colour(kit::Token::ink));
  }
  kit::Rect signs{panel.inner().x, strip.y + side + ui.px(8.0F), panel.inner().w, ui.px(38.0F)};
  for (int i = 0; i < 9; ++i)
    kit::draw_sign(kit::current_draw(), static_cast<kit::SignId>(i),
                   signs.take_left(ui.px(38.0F), ui.px(4.0F)));
  const kit::Rect ramp{panel.inner().x, signs.bottom() + ui.px(8.0F), panel.inner().w, ui.px(14.0F)};
  for (int i = 0; i < 48; ++i) {
    const float x = ramp.x + ramp.w * static_cast<float>(i) / 48.0F;
    kit::current_draw()->AddRectFilled({x, ramp.y}, {x + ramp.w / 48.0F + 1.0F, ramp.bottom()},
                                       kit::product_colour(2.0 * i).u32());
  }
  const kit::Rect vat{panel.inner().x + ui.px(10.0F), ramp.bottom() + ui.px(14.0F), ui.px(90.0F),
                      ui.px(60.0F)};
  kit::current_draw()->AddRectFilled(vat.min(), vat.max(), kit::product_colour(target_degC_).u32(),
                                     ui.px(6.0F));
  kit::current_draw()->AddRect(vat.min(), vat.max(), ui.colour(kit::Token::metal_dark), ui.px(6.0F), 0,
                               ui.px(3.0F));
  const kit::SpotState state =
      spot(ui, "sheet.vat", tr("Vat"), vat, {.value = lid_open_ ? "open" : "closed"});
  if (state.pressed) lid_open_ = !lid_open_;
  label_line(ui, kit::current_draw(), {vat.right() - ui.px(12.0F), vat.y + ui.px(20.0F)},
             {vat.right() + ui.px(50.0F), vat.y + ui.px(4.0F)},
             tr("Vat {t}", {{"t", ui.shown(kit::Quantity::temperature, target_degC_)}}),
             tr("fill {v}", {{"v", ui.shown(kit::Quantity::volume, 0.0413)}}));
}

void Sheet::draw_dialog(kit::Ui& ui) {
  if (!dialog_) return;
  const kit::DialogScope dialog(ui, "sheet.dialog", tr("Leave this batch?"));
  text(ui, tr("The batch is kept up to here. You can go on later, or look at it in the list of attempts."));
  gap(ui, 16.0F);
  caution_box(ui, "sheet.caution",
              tr("The vat is hot. Product can burn you. Let it cool below 40 °C before you open the lid."),
              kit::SignId::w017);
  gap(ui, 16.0F);
  if (button(ui, "sheet.dialog.yes", tr("Leave"), {.kind = kit::ButtonKind::primary})) dialog_ = false;
  same_line(ui);
  if (button(ui, "sheet.dialog.no", tr("Stay"))) dialog_ = false;
  if (dialog.dismissed()) dialog_ = false;
}

void Sheet::draw(kit::Ui& ui) {
  const float gutter = ui.px(kit::Measure::gutter);
  const auto columns = ui.area.columns({1.0F, 0.9F, 1.1F}, gutter);
  kit::Rect left = columns[0];
  draw_now(ui, left.take_bottom(left.h * 0.36F, gutter));
  draw_display(ui, left.take_bottom(ui.px(32.0F) + ui.theme.line_px(kit::Type::caption) +
                                        ui.theme.line_px(kit::Type::display_large),
                                    gutter));
  draw_actions(ui, left);
  draw_inputs(ui, columns[1]);
  kit::Rect right = columns[2];
  draw_shapes(ui, right.take_bottom(right.h * 0.4F, gutter));
  draw_lists(ui, right);
  draw_dialog(ui);
}

}  // namespace

std::unique_ptr<Screen> make_control_sheet(const ScreenArgs&) { return std::make_unique<Sheet>(); }

}  // namespace stirbench::desk::screens
