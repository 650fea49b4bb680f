#include "app/desk/kit/theme/theme.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>

using namespace stirbench::desk::kit;

namespace {

constexpr std::array themes{ThemeKind::light, ThemeKind::dark, ThemeKind::contrast};

const char* name_of(ThemeKind kind) {
  switch (kind) {
    case ThemeKind::light: return "light";
    case ThemeKind::dark: return "dark";
    case ThemeKind::contrast: return "contrast";
  }
  return "?";
}

}  // namespace

// The pairs that WCAG's own texts use as the borders of its levels, as ratios by the formula of WCAG 2.2
// ("relative luminance", "contrast ratio"), to four decimals. Black on white is 21 by definition.
TEST_CASE("theme: the contrast formula gives the published borderline values") {
  const Colour white = parse_colour("#FFFFFF");
  struct Row {
    const char* grey;
    double ratio;
  };
  for (const Row& row : {Row{"#767676", 4.5422}, Row{"#777777", 4.4781}, Row{"#595959", 7.0047},
                         Row{"#949494", 3.0335}, Row{"#959595", 2.9953}, Row{"#000000", 21.0}}) {
    INFO(row.grey);
    CHECK(contrast_ratio(parse_colour(row.grey), white) == doctest::Approx(row.ratio).epsilon(2e-5));
  }
}

// Okabe and Ito (2008), colour-blind-safe palette; contrasts on white and black by the same formula.
TEST_CASE("theme: the contrast formula on coloured pairs") {
  struct Row {
    const char* colour;
    double on_white;
    double on_black;
  };
  for (const Row& row : {Row{"#E69F00", 2.25, 9.32}, Row{"#56B4E9", 2.31, 9.10}, Row{"#009E73", 3.42, 6.14},
                         Row{"#F0E442", 1.32, 15.88}, Row{"#0072B2", 5.19, 4.05}, Row{"#D55E00", 3.87, 5.43},
                         Row{"#CC79A7", 3.06, 6.86}}) {
    INFO(row.colour);
    CHECK(std::abs(contrast_ratio(parse_colour(row.colour), parse_colour("#FFFFFF")) - row.on_white) <=
          0.006);
    CHECK(std::abs(contrast_ratio(parse_colour(row.colour), parse_colour("#000000")) - row.on_black) <=
          0.006);
  }
}

// WCAG 2.2, success criteria 1.4.3 (text 4.5 : 1) and 1.4.11 (shapes and borders of controls 3 : 1). Ratios
// are not rounded up.
TEST_CASE("theme: every text and every shape has the contrast it needs, in all themes") {
  for (const ThemeKind kind : themes) {
    for (const TextPair& pair : text_pairs()) {
      const double ratio = contrast_ratio(token_colour(kind, pair.text), token_colour(kind, pair.ground));
      INFO(name_of(kind), ": ", token_name(pair.text), " on ", token_name(pair.ground), " = ", ratio);
      CHECK(ratio >= 4.5);
    }
    for (const TextPair& pair : shape_pairs()) {
      const double ratio = contrast_ratio(token_colour(kind, pair.text), token_colour(kind, pair.ground));
      INFO(name_of(kind), ": ", token_name(pair.text), " on ", token_name(pair.ground), " = ", ratio);
      CHECK(ratio >= 3.0);
    }
  }
}

// WCAG 2.2, success criterion 1.4.6: 7 : 1.
TEST_CASE("theme: the high-contrast theme keeps all text at 7 to 1") {
  for (const TextPair& pair : text_pairs()) {
    const double ratio = contrast_ratio(token_colour(ThemeKind::contrast, pair.text),
                                        token_colour(ThemeKind::contrast, pair.ground));
    INFO(token_name(pair.text), " on ", token_name(pair.ground), " = ", ratio);
    CHECK(ratio >= 7.0);
  }
}

TEST_CASE("theme: every token is opaque but the veil, and has a name of its own") {
  for (std::size_t i = 0; i < static_cast<std::size_t>(Token::count); ++i) {
    const auto token = static_cast<Token>(i);
    for (const ThemeKind kind : themes) {
      INFO(token_name(token));
      CHECK((token_colour(kind, token).a == 255) == (token != Token::shade));
    }
    for (std::size_t j = i + 1; j < static_cast<std::size_t>(Token::count); ++j) {
      CHECK(std::string(token_name(token)) != token_name(static_cast<Token>(j)));
    }
  }
}

TEST_CASE("theme: text sizes never fall below 14 px and targets never below 24") {
  for (std::size_t i = 0; i < static_cast<std::size_t>(Type::count); ++i)
    CHECK(type_px(static_cast<Type>(i)) >= 14.0F);
  CHECK(Measure::target_min >= 24.0F);
  CHECK(Measure::target >= 32.0F);
}

TEST_CASE("theme: colours are read strictly, mixed between their ends, and faded") {
  CHECK(parse_colour("#0A5563") == Colour{10, 85, 99, 255});
  CHECK(parse_colour("#0A556380") == Colour{10, 85, 99, 128});
  CHECK(parse_colour("0A5563") == Colour{});
  CHECK(parse_colour("#0A556") == Colour{});
  CHECK(parse_colour("#0A55ZZ") == Colour{});
  const Colour a{10, 85, 99, 255};
  const Colour b{255, 223, 148, 255};
  CHECK(mix(a, b, 0.0F) == a);
  CHECK(mix(a, b, 1.0F) == b);
  const Colour half = mix(a, b, 0.5F);
  CHECK(half.r > a.r);
  CHECK(half.r < b.r);
  // Half of white light on black is 188 in sRGB (IEC 61966-2-1: 0.5 linear = 0.7354 encoded).
  CHECK(mix({0, 0, 0, 255}, {255, 255, 255, 255}, 0.5F).r == 188);
  CHECK(a.faded(0.5F).a == 128);
}

// Colour-blind-safe means: apart in lightness, which every eye sees, and towards the ends in blue against
// yellow.
TEST_CASE("theme: product colour runs evenly from blue over cream to orange-brown and is clamped") {
  const Colour cold = product_colour(0.0);
  const Colour middle = product_colour(40.0);
  const Colour hot = product_colour(95.0);
  CHECK(cold.b > cold.r);
  CHECK(hot.r > hot.b);
  CHECK(relative_luminance(middle) > relative_luminance(cold) + 0.2);
  CHECK(relative_luminance(middle) > relative_luminance(hot) + 0.2);
  CHECK(product_colour(-20.0) == cold);
  CHECK(product_colour(130.0) == hot);
  CHECK(product_colour(std::nan("")) == middle);
  // Lightness rises all the way to the middle and falls all the way after it.
  for (double t = 2.0; t <= 40.0; t += 2.0)
    CHECK(relative_luminance(product_colour(t)) >= relative_luminance(product_colour(t - 2.0)));
  for (double t = 42.0; t <= 94.0; t += 2.0)
    CHECK(relative_luminance(product_colour(t)) <= relative_luminance(product_colour(t - 2.0)));
}
