#include "app/desk/kit/theme/theme.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstring>

namespace stirbench::desk::kit {

namespace {

// One row per token, in the order of the enum: name, light, dark, contrast.
// Light and dark are the project's own palette. The contrast column is white on black with every text at 7 :
// 1 or more.
struct Row {
  const char* name;
  const char* light;
  const char* dark;
  const char* contrast;
};

constexpr std::array<Row, static_cast<std::size_t>(Token::count)> rows = {{
    {"paper", "#F3F1EC", "#161B1E", "#000000"},       {"panel", "#FFFFFF", "#20272B", "#0A0A0A"},
    {"sunk", "#E9E6DF", "#2A3338", "#242424"},        {"stage", "#FCFBF8", "#1B2124", "#000000"},
    {"floor", "#E4DFD8", "#2A3134", "#2B2B2B"},       {"ink", "#1D2529", "#EDF1F2", "#FFFFFF"},
    {"ink2", "#4F5B63", "#A9B6BD", "#E0E0E0"},        {"line", "#CFCAC0", "#3B464D", "#9A9A9A"},
    {"edge", "#4F5B63", "#7D8B93", "#FFFFFF"},        {"act", "#0A5563", "#6CC3D0", "#7FE3F2"},
    {"act2", "#DCEBEC", "#17393F", "#00343C"},        {"on_act", "#FFFFFF", "#0E1A1D", "#000000"},
    {"stop", "#1D2529", "#EDF1F2", "#FFFFFF"},        {"on_stop", "#FFFFFF", "#161B1E", "#000000"},
    {"hot", "#B4400F", "#F08A5A", "#FFB08A"},         {"cold", "#1B5A9E", "#7FB4EA", "#A6D1FF"},
    {"ok", "#246B43", "#6CC492", "#86EBB0"},          {"due", "#8A5A00", "#E0AE4A", "#FFD479"},
    {"bad", "#A3211B", "#F0857D", "#FFB0AA"},         {"caution", "#FFDF94", "#5A4410", "#4A3600"},
    {"display", "#12201F", "#12201F", "#000000"},     {"on_display", "#EAF3EF", "#EAF3EF", "#FFFFFF"},
    {"on_display2", "#A9BDB7", "#A9BDB7", "#E0E0E0"}, {"metal", "#C3C9CE", "#7B868D", "#9A9A9A"},
    {"metal_dark", "#38444A", "#C3CCD1", "#FFFFFF"},  {"metal_light", "#ECEEEE", "#2C3539", "#1C1C1C"},
    {"element", "#D1451A", "#E86A3C", "#FF8A5C"},     {"shade", "#1D252980", "#000000A0", "#000000C0"},
    {"sign_yellow", "#FFD100", "#FFD100", "#FFD100"}, {"sign_black", "#0B0B0B", "#0B0B0B", "#0B0B0B"},
    {"sign_white", "#FFFFFF", "#FFFFFF", "#FFFFFF"},  {"sign_blue", "#005387", "#005387", "#005387"},
    {"sign_red", "#B01C22", "#B01C22", "#B01C22"},
}};

std::uint8_t hex_digit(char c) {
  if (c >= '0' && c <= '9') return static_cast<std::uint8_t>(c - '0');
  if (c >= 'A' && c <= 'F') return static_cast<std::uint8_t>(c - 'A' + 10);
  if (c >= 'a' && c <= 'f') return static_cast<std::uint8_t>(c - 'a' + 10);
  return 255;
}

// The table parsed once, for each theme.
using Palette = std::array<Colour, static_cast<std::size_t>(Token::count)>;
const Palette& palette(ThemeKind kind) {
  static const std::array<Palette, 3> all = [] {
    std::array<Palette, 3> made{};
    for (std::size_t i = 0; i < rows.size(); ++i) {
      made[0][i] = parse_colour(rows[i].light);
      made[1][i] = parse_colour(rows[i].dark);
      made[2][i] = parse_colour(rows[i].contrast);
    }
    return made;
  }();
  return all[static_cast<std::size_t>(kind)];
}

// sRGB transfer function (IEC 61966-2-1), as WCAG 2.2 writes it.
double to_linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

std::uint8_t from_linear(double linear) {
  const double l = std::clamp(linear, 0.0, 1.0);
  const double c = l <= 0.0031308 ? l * 12.92 : 1.055 * std::pow(l, 1.0 / 2.4) - 0.055;
  return static_cast<std::uint8_t>(std::lround(c * 255.0));
}

}  // namespace

ImVec4 Colour::vec() const {
  return {static_cast<float>(r) / 255.0F, static_cast<float>(g) / 255.0F, static_cast<float>(b) / 255.0F,
          static_cast<float>(a) / 255.0F};
}

Colour Colour::faded(float factor) const {
  const float alpha = static_cast<float>(a) * std::clamp(factor, 0.0F, 1.0F);
  return {r, g, b, static_cast<std::uint8_t>(std::lround(alpha))};
}

Colour mix(Colour a, Colour b, float share) {
  const double s = std::clamp(static_cast<double>(share), 0.0, 1.0);
  const auto channel = [s](std::uint8_t from, std::uint8_t to) {
    return from_linear(to_linear(from) * (1.0 - s) + to_linear(to) * s);
  };
  const double alpha = a.a * (1.0 - s) + b.a * s;
  return {channel(a.r, b.r), channel(a.g, b.g), channel(a.b, b.b),
          static_cast<std::uint8_t>(std::lround(alpha))};
}

Colour parse_colour(const char* text) {
  const std::size_t length = std::strlen(text);
  if (text[0] != '#' || (length != 7 && length != 9)) return {};
  std::array<std::uint8_t, 4> bytes{0, 0, 0, 255};
  for (std::size_t i = 0; i < (length - 1) / 2; ++i) {
    const std::uint8_t high = hex_digit(text[1 + 2 * i]);
    const std::uint8_t low = hex_digit(text[2 + 2 * i]);
    if (high == 255 || low == 255) return {};
    bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
  }
  return {bytes[0], bytes[1], bytes[2], bytes[3]};
}

double relative_luminance(Colour colour) {
  return 0.2126 * to_linear(colour.r) + 0.7152 * to_linear(colour.g) + 0.0722 * to_linear(colour.b);
}

double contrast_ratio(Colour a, Colour b) {
  const double la = relative_luminance(a);
  const double lb = relative_luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

Colour token_colour(ThemeKind kind, Token token) { return palette(kind)[static_cast<std::size_t>(token)]; }

const char* token_name(Token token) { return rows[static_cast<std::size_t>(token)].name; }

const std::vector<TextPair>& text_pairs() {
  using enum Token;
  static const std::vector<TextPair> pairs = {
      {ink, paper},
      {ink, panel},
      {ink, sunk},
      {ink, stage},
      {ink, floor},
      {ink, act2},
      {ink, caution},
      {ink2, paper},
      {ink2, panel},
      {ink2, sunk},
      {ink2, stage},
      {ink2, floor},
      {ink2, act2},
      {act, panel},
      {act, paper},
      {act, act2},
      {act, sunk},
      {on_act, act},
      {on_stop, stop},
      {hot, panel},
      {hot, paper},
      {hot, stage},
      {cold, panel},
      {cold, paper},
      {cold, stage},
      {ok, panel},
      {ok, paper},
      {due, panel},
      {due, paper},
      {bad, panel},
      {bad, paper},
      {bad, stage},
      {on_display, display},
      {on_display2, display},
      {sign_black, sign_yellow},
      {sign_white, sign_blue},
  };
  return pairs;
}

const std::vector<TextPair>& shape_pairs() {
  using enum Token;
  static const std::vector<TextPair> pairs = {
      {edge, panel},
      {edge, paper},
      {edge, sunk},
      {act, panel},
      {act, paper},
      {act, stage},
      {stop, panel},
      {ok, panel},
      {due, panel},
      {bad, panel},
      {act, caution},
      {metal_dark, stage},
      {metal_dark, metal_light},
      {element, stage},
      {sign_red, sign_white},
  };
  return pairs;
}

float type_px(Type type) {
  switch (type) {
    case Type::caption:
    case Type::caption_bold: return 14.0F;
    case Type::body:
    case Type::body_bold:
    case Type::mono: return 16.0F;
    case Type::step: return 20.0F;
    case Type::title: return 25.0F;
    case Type::display: return 32.0F;
    case Type::display_large: return 40.0F;
    case Type::count: break;
  }
  return 16.0F;
}

float Theme::line_px(Type type) const { return std::round(text_px(type) * 1.3F); }

float Theme::control_height() const {
  // 34 at the body size of 16; room for the ring and the padding stays the same when the text grows.
  return std::round(px(Measure::target) + (text_px(Type::body) - px(type_px(Type::body))));
}

}  // namespace stirbench::desk::kit
