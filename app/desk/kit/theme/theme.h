#pragma once

#include <imgui.h>

#include <array>
#include <cstdint>
#include <string>
#include <utility>
#include <vector>

// The one table of colours, sizes and fonts. No screen types a colour or a size of its own.
namespace stirbench::desk::kit {

enum class ThemeKind : std::uint8_t { light, dark, contrast };

// What a colour is for. Ground tokens are drawn under text, the others on top of a ground.
enum class Token : std::uint8_t {
  paper,        // ground of the window
  panel,        // ground of panels, keys, fields
  sunk,         // tracks, chips
  stage,        // ground behind the machine and drawings
  floor,        // the floor under the machine
  ink,          // text
  ink2,         // secondary text
  line,         // hairlines; never the only mark of a control
  edge,         // border of a control (>= 3:1 on panel)
  act,          // primary action, focus ring, selected
  act2,         // ground of selected things, of the Now card
  on_act,       // text on act
  stop,         // ground of the stop key and other dark buttons
  on_stop,      // text on stop
  hot,          // temperature, heat
  cold,         // cold, electrical power
  ok,           // good, done
  due,          // soon due
  bad,          // wrong, alarm
  caution,      // ground of cautions, ink text
  display,      // ground of the machine's own display
  on_display,   // text on it
  on_display2,  // secondary text on it
  metal,        // drawn steel
  metal_dark,   // outlines of drawn steel
  metal_light,  // housing
  element,      // a heating element that is on
  shade,        // the veil behind a modal dialog (has alpha)
  sign_yellow,  // ISO 3864 warning sign: same in all themes
  sign_black,
  sign_white,
  sign_blue,  // mandatory
  sign_red,   // prohibition
  count
};

struct Colour {
  std::uint8_t r = 0;
  std::uint8_t g = 0;
  std::uint8_t b = 0;
  std::uint8_t a = 255;
  bool operator==(const Colour&) const = default;
  ImU32 u32() const { return IM_COL32(r, g, b, a); }
  ImVec4 vec() const;
  // Same colour, alpha times `factor` (0..1).
  Colour faded(float factor) const;
};

// Mix in linear light, 0 = a, 1 = b.
Colour mix(Colour a, Colour b, float share);
// "#RRGGBB" or "#RRGGBBAA"; anything else gives opaque black.
Colour parse_colour(const char* text);

// WCAG 2.2 relative luminance (0..1) and contrast ratio (1..21).
double relative_luminance(Colour colour);
double contrast_ratio(Colour a, Colour b);

Colour token_colour(ThemeKind kind, Token token);
const char* token_name(Token token);

// A pair that is used as text on a ground somewhere; a test holds all of them to >= 4.5.
struct TextPair {
  Token text;
  Token ground;
};
const std::vector<TextPair>& text_pairs();
// Pairs that are borders or shapes on a ground (WCAG 1.4.11): >= 3.
const std::vector<TextPair>& shape_pairs();

// Colour of product at a temperature: perceptually even from blue (0 degC) over cream (40 degC) to
// orange-brown (95 degC). Same in all themes; always shown with the number beside it. Values outside are
// clamped.
Colour product_colour(double temp_degC);

// Text sizes. In pixels at 96 dpi and 100 %: caption 14, body 16, step 20, title 25, display 32,
// display_large 40.
enum class Type : std::uint8_t {
  caption,
  caption_bold,
  body,
  body_bold,
  step,
  title,
  display,
  display_large,
  mono,
  count
};
float type_px(Type type);

// Spacing in steps of 4 px and fixed measures, in unscaled pixels; multiply with Theme::px().
struct Measure {
  static constexpr float gap_small = 8.0F;
  static constexpr float gap = 12.0F;
  static constexpr float gutter = 16.0F;
  static constexpr float panel_padding = 14.0F;
  static constexpr float top_bar = 52.0F;
  static constexpr float target = 34.0F;  // height of a control; never under 24
  static constexpr float target_min = 24.0F;
  static constexpr float corner_panel = 8.0F;
  static constexpr float corner_control = 6.0F;
  static constexpr float line = 1.0F;
  static constexpr float focus_width = 3.0F;
  static constexpr float focus_gap = 2.0F;
};

// Durations of explaining motion, s.
struct Motion {
  static constexpr double quick_s = 0.15;
  static constexpr double slow_s = 0.20;
};

class Theme {
 public:
  Colour colour(Token token) const { return token_colour(kind_, token); }
  ImU32 u32(Token token) const { return token_colour(kind_, token).u32(); }
  ThemeKind kind() const { return kind_; }
  ImFont* font(Type type) const { return fonts_[static_cast<std::size_t>(type)]; }
  // Scaled height of a text size and of one line of wrapped text in it.
  float text_px(Type type) const { return type_px(type) * dpi_scale_ * text_scale_; }
  float line_px(Type type) const;
  // Scaled length: `unscaled` at 96 dpi. Layout lengths do not grow with the text size.
  float px(float unscaled) const { return unscaled * dpi_scale_; }
  // Scaled length that grows with the text size too (column widths that hold text, icon sizes beside text).
  float em(float unscaled) const { return unscaled * dpi_scale_ * text_scale_; }
  // Height of a standard control: grows with the text.
  float control_height() const;
  float dpi_scale() const { return dpi_scale_; }
  float text_scale() const { return text_scale_; }

  void set_kind(ThemeKind kind) { kind_ = kind; }

 private:
  friend class FontSet;
  ThemeKind kind_ = ThemeKind::light;
  float dpi_scale_ = 1.0F;
  float text_scale_ = 1.0F;
  std::array<ImFont*, static_cast<std::size_t>(Type::count)> fonts_{};
};

}  // namespace stirbench::desk::kit
