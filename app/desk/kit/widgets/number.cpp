#include <GLFW/glfw3.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/field.h"
#include "app/desk/kit/widgets/field_internal.h"

namespace stirbench::desk::kit {

namespace {

// What stands in a number field while it is typed into, or stays there because it cannot be read.
struct Draft {
  std::string words;
  double for_value = 0.0;
  double before = 0.0;  // the value when typing began
  bool kept = false;
};

std::map<ImGuiID, Draft>& drafts() {
  static std::map<ImGuiID, Draft> value;
  return value;
}

bool inside(double value, const NumberStyle& style) {
  // Half a unit of the last digit beyond the bound is what rounding the bound for display can cost.
  const double slack = 0.5 * std::pow(10.0, -style.decimals) * (1.0 + 1e-9);
  return value >= style.min - slack && value <= style.max + slack;
}

double stepped(double value, double by, const NumberStyle& style) {
  return std::clamp(value + by, style.min, style.max);
}

std::string range_words(const NumberStyle& style) {
  const std::string unit = style.unit.empty() ? "" : narrow_gap + style.unit;
  return tr("Between {low} and {high}.", {{"low", plain_number(style.min, style.decimals) + unit},
                                          {"high", plain_number(style.max, style.decimals) + unit}});
}

// Reads the draft into the value; true when the value changed.
bool take_draft(Draft& draft, double& value, const NumberStyle& style) {
  double read = 0.0;
  draft.kept = !read_number(draft.words, read) || !inside(read, style);
  if (draft.kept) {
    // "200" passes through "20": a number that is no good in the end must not leave its first digits behind.
    const bool undone = value != draft.before;
    value = draft.for_value = draft.before;
    return undone;
  }
  const double bounded = std::clamp(read, style.min, style.max);
  const bool changed = bounded != value;
  value = bounded;
  draft.for_value = value;
  return changed;
}

bool step_buttons(Ui& ui, std::string_view id, std::string_view label, double& value,
                  const NumberStyle& style) {
  bool changed = false;
  const auto one = [&](const char* suffix, Icon which, const std::string& words, double by, bool can) {
    same_line(ui, ui.px(4.0F));
    const ButtonStyle button_style{.enabled = style.enabled && can,
                                   .reason = style.enabled ? range_words(style) : style.reason};
    if (icon_button(ui, std::string(id) + suffix, which, words, button_style)) {
      value = stepped(value, by, style);
      changed = true;
    }
  };
  const TextArgs args{{"what", std::string(label)}};
  one(".minus", Icon::minus, tr("Less: {what}", args), -style.step, value > style.min);
  one(".plus", Icon::plus, tr("More: {what}", args), style.step, value < style.max);
  return changed;
}

}  // namespace

bool number_field(Ui& ui, std::string_view id, std::string_view label, double& value,
                  const NumberStyle& style) {
  field_label(ui, label, style.label_above);
  const ImGuiID key = ImHashStr(id.data(), id.size());
  Draft& draft = drafts()[key];
  const bool typing = ui.registry.find(id) != nullptr && GImGui->ActiveId == ui.registry.find(id)->imgui_id;
  if (draft.kept && draft.for_value != value) draft.kept = false;
  if (!typing && !draft.kept) draft = {plain_number(value, style.decimals), value, value, false};

  const float height = ui.theme.control_height();
  const float unit_room = style.unit.empty() ? 0.0F : text_size(ui, style.unit, Type::body).x + ui.px(12.0F);
  const float least = ui.em(58.0F) + unit_room;
  const float wanted_steppers = style.stepper ? 2.0F * (height + ui.px(4.0F)) : 0.0F;
  const float whole = placed_width(style.place.w, ui.em(92.0F) + unit_room + wanted_steppers);
  // In a narrow place the number comes first; the arrow keys step too.
  const bool has_steppers = style.stepper && whole - wanted_steppers >= least;
  const float steppers = has_steppers ? wanted_steppers : 0.0F;
  const Rect rect = at_cursor({std::max(whole - steppers, 1.0F), height});
  FieldStyle look;
  look.enabled = style.enabled;
  look.error = draft.kept ? range_words(style) : style.error;
  const ItemSpec spec{.id = id,
                      .kind = "field",
                      .label = label,
                      .value = {},
                      .enabled = style.enabled,
                      .reason = style.reason};
  const TextEdit edit = edit_text(ui, rect, spec, draft.words, look, unit_room);
  if (unit_room > 0.0F) {
    const float line = ui.theme.line_px(Type::body);
    text_at(ui, current_draw(), {rect.right() - ui.px(10.0F), rect.y + std::round((rect.h - line) * 0.5F)},
            style.unit, {.colour = Token::ink2}, Align::right);
  }
  bool changed = edit.changed && take_draft(draft, value, style);
  if (edit.active && style.enabled) {
    const double by = ImGui::IsKeyPressed(GLFW_KEY_UP)     ? style.step
                      : ImGui::IsKeyPressed(GLFW_KEY_DOWN) ? -style.step
                                                           : 0.0;
    if (by != 0.0) {
      value = stepped(value, by, style);
      changed = true;
      // The text input holds its own copy while active: let go of it so that the new number shows, and come
      // back.
      ImGui::ClearActiveID();
      draft = {plain_number(value, style.decimals), value, value, false};
      ui.registry.request_focus(id);
    }
  }
  if (has_steppers && step_buttons(ui, id, label, value, style)) {
    changed = true;
    draft = {plain_number(value, style.decimals), value, value, false};
  }
  if (edit.hovered && !style.enabled && !style.reason.empty()) tooltip(ui, style.reason);
  field_error(ui, look.error);
  return changed;
}

bool quantity_field(Ui& ui, std::string_view id, std::string_view label, Quantity quantity, double& si,
                    const QuantityStyle& style) {
  NumberStyle number;
  number.unit = unit_label(quantity, ui.units);
  number.min = to_shown(quantity, style.min_si, ui.units);
  number.max = to_shown(quantity, style.max_si, ui.units);
  number.step = style.step_shown;
  number.decimals = style.decimals < 0 ? usual_decimals(quantity, ui.units) : style.decimals;
  number.error = style.error;
  number.enabled = style.enabled;
  number.reason = style.reason;
  number.stepper = style.stepper;
  number.label_above = style.label_above;
  number.place = style.place;
  double shown = to_shown(quantity, si, ui.units);
  if (!number_field(ui, id, label, shown, number)) return false;
  si = std::clamp(from_shown(quantity, shown, ui.units), style.min_si, style.max_si);
  return true;
}

bool slider(Ui& ui, std::string_view id, std::string_view label, double& value, const SliderStyle& style) {
  const int decimals = style.step >= 1.0 ? 0 : 2;
  const std::string shown = style.value_text.empty() ? plain_number(value, decimals) : style.value_text;
  const float width = placed_width(style.place.w, ui.em(260.0F));
  if (style.label_above) {
    const Rect row = at_cursor({width, ui.theme.line_px(Type::caption)});
    text_at(ui, current_draw(), row.min(), label, {.type = Type::caption, .colour = Token::ink2});
    text_at(ui, current_draw(), {row.right(), row.y}, shown, {.type = Type::caption}, Align::right);
    advance(row);
    gap(ui, 0.0F);
  }
  const Rect rect = at_cursor({width, ui.theme.control_height()});
  advance(rect);
  const Item item = add_item(ui, rect,
                             {.id = id,
                              .kind = "slider",
                              .label = label,
                              .value = shown,
                              .enabled = style.enabled,
                              .reason = style.reason,
                              .on_press = true});
  const double span = style.max - style.min;
  const float knob = ui.px(9.0F);
  const float left = rect.x + knob;
  const float length = std::max(rect.w - 2.0F * knob, 1.0F);
  double wanted = value;
  if (item.held && style.enabled)
    wanted = style.min +
             span * std::clamp(static_cast<double>((ImGui::GetIO().MousePos.x - left) / length), 0.0, 1.0);
  if (item.has_keyboard && style.enabled) {
    claim_arrows();
    const double by = style.step > 0.0 ? style.step : span / 20.0;
    if (focused_key(item, GLFW_KEY_RIGHT) || focused_key(item, GLFW_KEY_UP)) wanted += by;
    if (focused_key(item, GLFW_KEY_LEFT) || focused_key(item, GLFW_KEY_DOWN)) wanted -= by;
    if (focused_key(item, GLFW_KEY_HOME)) wanted = style.min;
    if (focused_key(item, GLFW_KEY_END)) wanted = style.max;
  }
  if (style.step > 0.0 && wanted != value)
    wanted = style.min + std::round((wanted - style.min) / style.step) * style.step;
  wanted = std::clamp(wanted, style.min, style.max);
  const bool changed = wanted != value;
  value = wanted;
  if (item.drawn) {
    const float share = span > 0.0 ? static_cast<float>((value - style.min) / span) : 0.0F;
    const ImVec2 at{left + length * share, rect.y + rect.h * 0.5F};
    const float thick = ui.px(6.0F);
    const Rect track{rect.x, std::round(at.y - thick * 0.5F), rect.w, thick};
    ImDrawList* draw = current_draw();
    box(draw, track, ui.colour(Token::line), 0, thick * 0.5F, 0.0F);
    const Token fill = style.enabled ? Token::act : Token::ink2;
    box(draw, {track.x, track.y, at.x - track.x, track.h}, ui.colour(fill), 0, thick * 0.5F, 0.0F);
    draw->AddCircleFilled(at, knob, ui.colour(Token::panel));
    draw->AddCircle(at, knob - ui.px(1.0F), ui.colour(fill), 0,
                    ui.px(item.hovered || item.held ? 4.0F : 2.5F));
    if (item.focused) focus_ring(ui, {at.x - knob, at.y - knob, 2.0F * knob, 2.0F * knob}, knob);
  }
  return changed;
}

}  // namespace stirbench::desk::kit
