#include "app/desk/views/panel/panel.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/item.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/views/panel/display.h"
#include "app/desk/views/panel/emergency_stop.h"
#include "sim_core/control/controller.h"
#include "sim_core/hands/handles.h"

namespace stirbench::desk::views {

using kit::tr;
using kit::trc;

namespace {

using control::Key;

struct KeyFace {
  Key key;
  const char* label;  // English, for tr()
};
constexpr std::array<KeyFace, control::key_count> faces{{{Key::heat, "Heat"},
                                                         {Key::chill, "Chill"},
                                                         {Key::stir, "Stir"},
                                                         {Key::run, "Run"},
                                                         {Key::rinse, "Rinse"},
                                                         {Key::stop, "Stop"}}};
constexpr int key_columns = 3;
constexpr int key_rows = 2;

enum class Lamp : std::uint8_t { dark, half, lit };

Lamp lamp_of(const control::ControlState& state, Key key) {
  const auto lit_if = [](bool on) { return on ? Lamp::lit : Lamp::dark; };
  switch (key) {
    case Key::heat: return lit_if(state.mode == control::Mode::heating);
    case Key::chill: return lit_if(state.mode == control::Mode::chilling);
    case Key::stir: return lit_if(state.mode == control::Mode::stirring);
    case Key::run:
      return state.mode == control::Mode::paused && state.phase >= 0
                 ? Lamp::half
                 : lit_if(state.mode == control::Mode::running);
    case Key::rinse: return lit_if(state.mode == control::Mode::rinsing);
    case Key::stop:
    case Key::count: break;
  }
  return Lamp::dark;
}

float key_height(const kit::Ui& ui) { return std::max(ui.theme.control_height(), ui.px(38.0F)); }

void draw_key(kit::Ui& ui, const kit::Rect& rect, const std::string& label, Lamp lamp, bool is_stop,
              const kit::Item& item, bool down) {
  ImDrawList* draw = kit::current_draw();
  const kit::Colour plain = ui.theme.colour(is_stop ? kit::Token::stop : kit::Token::panel);
  const kit::Colour towards = ui.theme.colour(is_stop ? kit::Token::on_stop : kit::Token::act);
  const kit::Colour ground = mix(plain, towards, item.held || down ? 0.24F : item.hovered ? 0.10F : 0.0F);
  const bool active = lamp != Lamp::dark;
  const kit::Rect cap = down ? rect.moved(0.0F, ui.px(1.0F)) : rect;
  kit::box(draw, cap, ground.u32(),
           ui.colour(active    ? kit::Token::act
                     : is_stop ? kit::Token::stop
                               : kit::Token::edge),
           ui.px(kit::Measure::corner_control), ui.px(active ? 2.5F : 1.0F));
  const kit::Token words = is_stop ? kit::Token::on_stop : kit::Token::ink;
  const float side = std::round(ui.em(11.0F));
  const float mark = active ? side + ui.px(7.0F) : 0.0F;
  const std::string shown = fitted(ui, label, kit::Type::body, rect.w - mark - ui.px(8.0F));
  const float width = text_size(ui, shown, kit::Type::body).x + mark;
  const float x = std::round(cap.x + (cap.w - width) * 0.5F);
  const float line = ui.theme.line_px(kit::Type::body);
  text_at(ui, draw, {x, std::round(cap.y + (cap.h - line) * 0.5F)}, shown, {.colour = words});
  if (active)
    kit::icon(draw, lamp == Lamp::half ? kit::Icon::half_ring : kit::Icon::dot,
              {x + width - side, std::round(cap.y + (cap.h - side) * 0.5F), side, side},
              ui.colour(kit::Token::act));
  if (item.focused) focus_ring(ui, rect, ui.px(kit::Measure::corner_control));
}

hands::Action press_of(Key key, double held_s) { return hands::press(control::key_name(key), held_s); }

void draw_keys(kit::Ui& ui, const PanelState& panel, const machine::State& state, kit::Rect rect,
               std::vector<hands::Action>& out) {
  // The emergency stop stands apart from the keys, as high as both their rows.
  const kit::Rect emergency = rect.take_right(ui.em(84.0F), ui.px(kit::Measure::gap_small));
  if (const auto pushed = draw_emergency_stop(ui, state, emergency)) out.push_back(*pushed);
  const std::vector<kit::Rect> rows = rect.rows(key_rows, ui.px(kit::Measure::gap_small));
  for (std::size_t i = 0; i < faces.size(); ++i) {
    const auto columns = rows[i / key_columns].columns(key_columns, ui.px(kit::Measure::gap_small));
    const kit::Rect& place = columns[i % key_columns];
    const Key key = faces[i].key;
    const Lamp lamp = lamp_of(state.control, key);
    const std::string id = "panel.key." + std::string(control::key_name(key));
    const std::string label = trc("key", faces[i].label);
    at(ui, place.x, place.y);
    kit::ItemSpec spec;
    spec.id = id;
    spec.label = label;
    spec.value = lamp == Lamp::lit ? "lit" : lamp == Lamp::half ? "half" : "";
    spec.on_press = true;
    const kit::Item item = add_item(ui, place, spec);
    draw_key(ui, place, label, lamp, key == Key::stop, item,
             item.held || state.key_ticks_left[static_cast<std::size_t>(key)] > 0);
    const std::uint64_t passed = state.tick > panel.last_tick ? state.tick - panel.last_tick : 0;
    const double held_s =
        finger_press_s(item.pressed, item.held, passed, state.key_ticks_left[static_cast<std::size_t>(key)]);
    if (held_s > 0.0) out.push_back(press_of(key, held_s));
  }
}

void recipe_chooser(kit::Ui& ui, const PanelInput& input, float width, std::vector<hands::Action>& out) {
  const auto& recipes = input.machine.recipes;
  std::vector<std::string> titles;
  titles.reserve(recipes.size());
  for (const control::Recipe& recipe : recipes) titles.push_back(tr(recipe.title));
  const std::int32_t now = input.state.control.recipe;
  const bool chosen = now >= 0 && static_cast<std::size_t>(now) < recipes.size();
  const std::string label = chosen ? titles[static_cast<std::size_t>(now)] : tr("Recipe");
  const std::string reason(control::why_not_choose(input.state.control));
  kit::ButtonStyle style;
  style.enabled = reason.empty() && !recipes.empty();
  style.reason = recipes.empty() ? tr("This machine has no recipes.") : tr(reason);
  style.hint = tr("Choose the recipe that Run starts");
  style.place = {.w = width};
  style.align = kit::Align::left;
  style.value = chosen ? recipes[static_cast<std::size_t>(now)].id : "";
  const int picked =
      menu_button(ui, "panel.recipe", fitted(ui, label, kit::Type::body, width - ui.em(13.0F) - ui.px(34.0F)),
                  titles, style);
  if (picked < 0 || static_cast<std::size_t>(picked) >= recipes.size()) return;
  out.push_back(hands::choose_recipe(recipes[static_cast<std::size_t>(picked)].id));
}

void target_field(kit::Ui& ui, PanelState& panel, const PanelInput& input, float width,
                  std::vector<hands::Action>& out) {
  const control::ControlState& c = input.state.control;
  const control::ControlSpec& spec = input.machine.control;
  if (c.target_degC != panel.target_seen_degC) panel.target_degC = panel.target_seen_degC = c.target_degC;
  const bool off = c.mode == control::Mode::off;
  kit::QuantityStyle style;
  style.min_si = spec.lowest_target_degC;
  style.max_si = spec.highest_target_degC;
  style.enabled = !off;
  style.reason = off ? tr("The display is dark: there is no supply.") : "";
  style.label_above = false;
  style.place = {.w = width};
  if (!quantity_field(ui, "panel.target", tr("Target"), kit::Quantity::temperature, panel.target_degC, style))
    return;
  out.push_back(hands::set_target(panel.target_degC));
}

void confirm_button(kit::Ui& ui, const PanelInput& input, float width, std::vector<hands::Action>& out) {
  const std::int32_t index = input.state.control.recipe;
  const bool chosen = index >= 0 && static_cast<std::size_t>(index) < input.machine.recipes.size();
  const std::string reason(control::why_not_confirm(
      chosen ? &input.machine.recipes[static_cast<std::size_t>(index)] : nullptr, input.state.control));
  kit::ButtonStyle style;
  style.enabled = reason.empty();
  style.reason = tr(reason);
  style.kind = style.enabled ? kit::ButtonKind::primary : kit::ButtonKind::normal;
  style.place = {.w = width};
  if (!button(ui, "panel.confirm", tr("Confirm"), style)) return;
  out.push_back(hands::confirm());
}

// Widths of the row under the keys; with large text it breaks into two rows.
bool entries_in_one_row(const kit::Ui& ui, float width) { return width >= ui.em(330.0F); }

void draw_entries(kit::Ui& ui, PanelState& panel, const PanelInput& input, const kit::Rect& rect,
                  std::vector<hands::Action>& out) {
  const float gap_px = ui.px(kit::Measure::gap_small);
  const float confirm_w = std::ceil(text_size(ui, tr("Confirm"), kit::Type::body).x + ui.px(26.0F));
  if (entries_in_one_row(ui, rect.w)) {
    const float target_w = ui.em(138.0F);
    const float recipe_w = rect.w - target_w - confirm_w - 2.0F * gap_px;
    at(ui, rect.x, rect.y);
    recipe_chooser(ui, input, recipe_w, out);
    at(ui, rect.x + recipe_w + gap_px, rect.y);
    target_field(ui, panel, input, target_w, out);
    at(ui, rect.right() - confirm_w, rect.y);
    confirm_button(ui, input, confirm_w, out);
    return;
  }
  at(ui, rect.x, rect.y);
  recipe_chooser(ui, input, rect.w, out);
  const float y = rect.y + ui.theme.control_height() + gap_px;
  at(ui, rect.x, y);
  target_field(ui, panel, input, rect.w - confirm_w - gap_px, out);
  at(ui, rect.right() - confirm_w, y);
  confirm_button(ui, input, confirm_w, out);
}

struct Heights {
  float display = 0.0F;
  float keys = 0.0F;
  float entries = 0.0F;
  float all = 0.0F;
};

Heights heights(const kit::Ui& ui, float width) {
  Heights h;
  h.display = panel::display_height(ui, width);
  h.keys = static_cast<float>(key_rows) * key_height(ui) + ui.px(kit::Measure::gap_small);
  h.entries = entries_in_one_row(ui, width)
                  ? ui.theme.control_height()
                  : 2.0F * ui.theme.control_height() + ui.px(kit::Measure::gap_small);
  h.all = h.display + h.keys + h.entries + 2.0F * ui.px(8.0F);
  return h;
}

}  // namespace

double finger_press_s(bool down_now, bool held, std::uint64_t ticks_passed, std::uint32_t ticks_left) {
  constexpr double tap_s = 0.3;
  if (down_now) return tap_s;
  // While simulated time stands still a finger changes nothing.
  if (!held || ticks_passed == 0) return 0.0;
  // The next press has to be there before the last one runs out, which may be within the coming frame.
  const std::uint64_t margin = ticks_passed + 2;
  if (ticks_left > margin) return 0.0;
  return std::clamp(static_cast<double>(2 * margin) * machine::tick_s, tap_s, 600.0);
}

float panel_height(kit::Ui& ui, float width) {
  const float padding = ui.px(kit::Measure::panel_padding);
  return std::ceil(heights(ui, width - 2.0F * padding).all + 2.0F * padding +
                   ui.theme.line_px(kit::Type::caption) + ui.px(8.0F));
}

std::vector<hands::Action> draw_panel(kit::Ui& ui, PanelState& panel, const PanelInput& input,
                                      const kit::Rect& rect) {
  std::vector<hands::Action> actions;
  {
    const kit::PanelScope scope(ui, "panel", rect,
                                {.caption = input.caption.empty() ? tr("Machine panel") : input.caption});
    const float width = width_left(ui);
    const Heights h = heights(ui, width);
    kit::Rect area = kit::at_cursor({width, h.all});
    const kit::Rect whole = area;
    const float space = ui.px(8.0F);
    const auto touched = panel::draw_display(ui, input.machine, input.state, area.take_top(h.display, space));
    if (touched.acknowledge) actions.push_back(hands::acknowledge("all"));
    panel.alarms_asked = touched.details;
    draw_keys(ui, panel, input.state, area.take_top(h.keys, space), actions);
    draw_entries(ui, panel, input, area, actions);
    at(ui, whole.x, whole.y);
    advance(whole);
  }
  panel.last_tick = input.state.tick;
  return actions;
}

}  // namespace stirbench::desk::views
