#include "app/desk/screens/sheets/control_sheet.h"

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/shell/app.h"

namespace stirbench::desk {

namespace {

class Sheet : public Screen {
 public:
  const char* name() const override { return "sheet"; }
  TopBar top_bar(Ui&) override { return {tr("Widget sheet"), tr("every control once"), "", true}; }
  void draw_bar_middle(Ui& ui, const Rect& free) override;
  void draw_tools(Ui& ui) override;
  void draw(Ui& ui) override;

 private:
  void draw_actions(Ui& ui, const Rect& rect);
  void draw_inputs(Ui& ui, const Rect& rect);
  void draw_lists(Ui& ui, const Rect& rect);
  void draw_now(Ui& ui, const Rect& rect);
  void draw_display(Ui& ui, const Rect& rect);
  void draw_shapes(Ui& ui, const Rect& rect);
  void draw_dialog(Ui& ui);

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

void Sheet::draw_bar_middle(Ui& ui, const Rect& free) {
  const float width = std::min(free.w, ui.em(380.0F));
  if (width < ui.em(300.0F)) return;
  beads(ui, "sheet.beads", {tr("warm"), tr("add"), tr("hold"), tr("chill"), tr("keep")}, phase_, {free.x + (free.w - width) * 0.5F, free.y, width, free.h}, 0.4);
}

void Sheet::draw_tools(Ui& ui) {
  Settings settings = ui.app.settings();
  if (button(ui, "sheet.theme", tr("Theme"))) {
    settings.theme = static_cast<ThemeKind>((static_cast<int>(settings.theme) + 1) % 3);
    ui.app.change_settings(settings);
  }
  same_line(ui, ui.px(8.0F));
  if (button(ui, "sheet.text", tr("Text {n} %", {{"n", std::to_string(settings.text_percent)}}))) {
    settings.text_percent = settings.text_percent >= 200 ? 100 : settings.text_percent + 50;
    ui.app.change_settings(settings);
  }
}

void Sheet::draw_actions(Ui& ui, const Rect& rect) {
  const PanelScope panel(ui, "sheet.actions", rect, {.caption = tr("Actions")});
  if (button(ui, "sheet.press", tr("Press me"))) ++pressed_;
  same_line(ui);
  if (button(ui, "sheet.primary", tr("Start"), {.kind = ButtonKind::primary})) ui.app.toast(State::good, tr("Started."));
  same_line(ui);
  if (button(ui, "sheet.stop", tr("Stop"), {.kind = ButtonKind::stop})) phase_ = (phase_ + 1) % 6;
  same_line(ui);
  button(ui, "sheet.quiet", tr("Quiet"), {.kind = ButtonKind::quiet});
  button(ui, "sheet.disabled", tr("Run"), {.enabled = false, .reason = tr("Close the lid first.")});
  same_line(ui);
  button(ui, "sheet.selected", tr("Vat"), {.selected = true});
  same_line(ui);
  icon_button(ui, "sheet.icon", Icon::pause, tr("Pause"));
  same_line(ui);
  if (const int picked = menu_button(ui, "sheet.menu", tr("More"), {tr("Save"), tr("Copy"), tr("Delete")}); picked >= 0) pressed_ += 100;
  for (int i = 0; i < 4; ++i) {
    const std::vector<std::string> labels{"1×", "10×", "60×", "300×"};
    if (i > 0) same_line(ui);
    if (chip(ui, "sheet.speed." + std::to_string(i), labels[static_cast<std::size_t>(i)], speed_ == i)) speed_ = i;
  }
  text(ui, trn("Pressed {n} time", "Pressed {n} times", pressed_), {.id = "sheet.count"});
  if (link(ui, "sheet.link", tr("Open a dialog"))) dialog_ = true;
}

void Sheet::draw_inputs(Ui& ui, const Rect& rect) {
  const PanelScope panel(ui, "sheet.inputs", rect, {.caption = tr("Inputs")});
  text_field(ui, "sheet.name", tr("Name"), name_, {.hint = tr("type a name"), .place = {.w = -1.0F}});
  quantity_field(ui, "sheet.mass", tr("Whole milk"), Quantity::mass, mass_kg_, {.min_si = 0.0, .max_si = 45.0, .step_shown = 0.5});
  quantity_field(ui, "sheet.target", tr("Target"), Quantity::temperature, target_degC_, {.min_si = 2.0, .max_si = 95.0});
  slider(ui, "sheet.opening", tr("Draw valve"), opening_, {.step = 0.05, .value_text = ui.shown(Quantity::share, opening_), .place = {.w = -1.0F}});
  checkbox(ui, "sheet.guide", tr("Show hints"), guide_, {.detail = tr("In practice, hints come when you ask.")});
  checkbox(ui, "sheet.reduced", tr("Less motion"), reduced_);
  radio_row(ui, "sheet.unit", {"°C", "°F"}, unit_);
  choice(ui, "sheet.recipe", tr("Recipe"), {tr("White base"), tr("Chocolate"), tr("Fruit syrup")}, recipe_, {.place = {.w = -1.0F}});
}

void Sheet::draw_lists(Ui& ui, const Rect& rect) {
  const PanelScope panel(ui, "sheet.lists", rect, {.caption = tr("Lists")});
  if (list_row(ui, "sheet.row.0", {.title = tr("First batch"), .detail = tr("about 25 min · guided"), .icon = Icon::dot, .icon_colour = Token::ok, .selected = row_ == 0, .chevron = true})) row_ = 0;
  if (list_row(ui, "sheet.row.1", {.title = tr("Guards stop it"), .detail = tr("about 8 min"), .icon = Icon::half_ring, .icon_colour = Token::due, .selected = row_ == 1, .chevron = true})) row_ = 1;
  gap(ui, 14.0F);
  TableScope table(ui, "sheet.table", {{tr("Ingredient"), 2.0F, Align::left}, {tr("Mass"), 1.0F, Align::right}, {tr("State"), -70.0F, Align::centre}});
  table.header();
  table.row("sheet.cell.0", {{tr("Whole milk")}, {ui.shown(Quantity::mass, 20.0)}, {"", Icon::check, Token::ok, tr("added")}});
  table.row("sheet.cell.1", {{tr("Sugar")}, {ui.shown(Quantity::mass, 6.4)}, {"", Icon::ring, Token::ink2, tr("not yet")}}, true);
  table.row("sheet.cell.2", {{tr("Cream")}, {ui.shown(Quantity::mass, 4.25)}, {"", Icon::cross, Token::bad, tr("wrong")}});
  gap(ui, 14.0F);
  progress_bar(ui, 0.62, tr("62 % · third line carries nothing"), Token::act, "sheet.progress");
  gap(ui, 12.0F);
  notice(ui, "sheet.notice", State::info, tr("The batch is kept as it is."));
  state_mark(ui, State::good, tr("valid"));
  same_line(ui, ui.px(18.0F));
  state_mark(ui, State::due, tr("due within 30 days"));
  same_line(ui, ui.px(18.0F));
  state_mark(ui, State::bad, tr("lapsed"));
}

void Sheet::draw_now(Ui& ui, const Rect& rect) {
  const PanelScope panel(ui, "sheet.now", rect, {.caption = tr("Now"), .ground = Token::act2, .border = Token::act});
  step_text(ui, tr("Let the hold run its 30 seconds. Keep the lid closed: opening it stops heat and flow, and the hold starts again."));
  gap(ui, 10.0F);
  text(ui, tr("Every drop must stay hot for the whole time."), {.type = Type::caption, .colour = Token::act});
  gap(ui, 12.0F);
  if (button(ui, "sheet.point", tr("Show me where"))) ui.registry.point_at(ui.registry.pointed().empty() ? "sheet.stop" : "");
  same_line(ui);
  button(ui, "sheet.why", tr("Why?"));
}

void Sheet::draw_display(Ui& ui, const Rect& rect) {
  const PanelScope panel(ui, "sheet.display", rect, {.ground = Token::display, .border = Token::line});
  const Rect inner = panel.inner();
  ImDrawList* draw = current_draw();
  const Shown product = show(Quantity::temperature, target_degC_, ui.units);
  const TextStyle quiet{.type = Type::caption, .colour = Token::on_display2};
  text_at(ui, draw, inner.min(), tr("product"), quiet);
  at(ui, inner.x, inner.y + ui.theme.line_px(Type::caption));
  value_text(ui, product, Type::display_large, Token::on_display, "sheet.product");
  text_at(ui, draw, {inner.right(), inner.y}, tr("hold"), quiet, Align::right);
  value_at(ui, draw, {inner.right(), inner.y + ui.theme.line_px(Type::caption)}, show(Quantity::duration, 18.0, ui.units), Type::title, Token::on_display, Align::right);
}

void Sheet::draw_shapes(Ui& ui, const Rect& rect) {
  const PanelScope panel(ui, "sheet.shapes", rect, {.caption = tr("Shapes, signs and a drawing"), .ground = Token::stage});
  const float side = ui.px(18.0F);
  const int count = static_cast<int>(Icon::gear);
  Rect strip{panel.inner().x, panel.inner().y, panel.inner().w, side};
  for (int i = 1; i <= count; ++i) {
    if (strip.w < side) {
      strip = {panel.inner().x, strip.y + side + ui.px(6.0F), panel.inner().w, side};
    }
    icon(current_draw(), static_cast<Icon>(i), strip.take_left(side, ui.px(8.0F)), ui.colour(Token::ink));
  }
  Rect signs{panel.inner().x, strip.y + side + ui.px(8.0F), panel.inner().w, ui.px(38.0F)};
  for (int i = 0; i < 9; ++i) draw_sign(current_draw(), static_cast<SignId>(i), signs.take_left(ui.px(38.0F), ui.px(4.0F)));
  const Rect ramp{panel.inner().x, signs.bottom() + ui.px(8.0F), panel.inner().w, ui.px(14.0F)};
  for (int i = 0; i < 48; ++i) {
    const float x = ramp.x + ramp.w * static_cast<float>(i) / 48.0F;
    current_draw()->AddRectFilled({x, ramp.y}, {x + ramp.w / 48.0F + 1.0F, ramp.bottom()}, product_colour(2.0 * i).u32());
  }
  const Rect vat{panel.inner().x + ui.px(10.0F), ramp.bottom() + ui.px(14.0F), ui.px(90.0F), ui.px(60.0F)};
  current_draw()->AddRectFilled(vat.min(), vat.max(), product_colour(target_degC_).u32(), ui.px(6.0F));
  current_draw()->AddRect(vat.min(), vat.max(), ui.colour(Token::metal_dark), ui.px(6.0F), 0, ui.px(3.0F));
  const SpotState state = spot(ui, "sheet.vat", tr("Vat"), vat, {.value = lid_open_ ? "open" : "closed"});
  if (state.pressed) lid_open_ = !lid_open_;
  label_line(ui, current_draw(), {vat.right() - ui.px(12.0F), vat.y + ui.px(20.0F)}, {vat.right() + ui.px(50.0F), vat.y + ui.px(4.0F)},
             tr("Vat {t}", {{"t", ui.shown(Quantity::temperature, target_degC_)}}), tr("fill {v}", {{"v", ui.shown(Quantity::volume, 0.0413)}}));
}

void Sheet::draw_dialog(Ui& ui) {
  if (!dialog_) return;
  const DialogScope dialog(ui, "sheet.dialog", tr("Leave this batch?"));
  text(ui, tr("The batch is kept up to here. You can go on later, or look at it in the list of attempts."));
  gap(ui, 16.0F);
  caution_box(ui, "sheet.caution", tr("The vat is hot. Product can burn you. Let it cool below 40 °C before you open the lid."), SignId::w017);
  gap(ui, 16.0F);
  if (button(ui, "sheet.dialog.yes", tr("Leave"), {.kind = ButtonKind::primary})) dialog_ = false;
  same_line(ui);
  if (button(ui, "sheet.dialog.no", tr("Stay"))) dialog_ = false;
  if (dialog.dismissed()) dialog_ = false;
}

void Sheet::draw(Ui& ui) {
  const float gutter = ui.px(Measure::gutter);
  const auto columns = ui.area.columns({1.0F, 0.9F, 1.1F}, gutter);
  Rect left = columns[0];
  draw_now(ui, left.take_bottom(left.h * 0.36F, gutter));
  draw_display(ui, left.take_bottom(ui.px(32.0F) + ui.theme.line_px(Type::caption) + ui.theme.line_px(Type::display_large), gutter));
  draw_actions(ui, left);
  draw_inputs(ui, columns[1]);
  Rect right = columns[2];
  draw_shapes(ui, right.take_bottom(right.h * 0.4F, gutter));
  draw_lists(ui, right);
  draw_dialog(ui);
}

}  // namespace

std::unique_ptr<Screen> make_sheet(const ScreenArgs&) { return std::make_unique<Sheet>(); }

}  // namespace stirbench::desk
