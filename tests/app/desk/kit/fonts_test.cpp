#include "app/desk/kit/theme/fonts.h"

#include <doctest/doctest.h>
#include <imgui.h>
#include <imgui_internal.h>

#include <array>
#include <cmath>
#include <string>

#include "app/desk/kit/widgets/text_block.h"
#include "tests/support/files.h"

using namespace stirbench::desk::kit;

namespace {

constexpr std::array all_types{Type::caption, Type::caption_bold, Type::body,    Type::body_bold,
                               Type::step,    Type::title,        Type::display, Type::mono};

struct Built {
  Theme theme;
  ImFontAtlas atlas;
  std::string problem;
  explicit Built(float dpi = 1.0F, float text = 1.0F) {
    problem = FontSet::build(theme, atlas, find_fonts(), dpi, text);
  }
};

}  // namespace

TEST_CASE("fonts: missing ones are named, with where they were looked for and what to install") {
  const stirbench::test_support::TempFolder folder("fonts");
  const FontFiles files = find_fonts({folder.path().string()});
  CHECK(files.error.find("B612-Regular") != std::string::npos);
  CHECK(files.error.find(folder.path().string()) != std::string::npos);
  CHECK(files.error.find("fonts-b612") != std::string::npos);
  Theme theme;
  ImFontAtlas atlas;
  CHECK(FontSet::build(theme, atlas, files, 1.0F, 1.0F) == files.error);
}

TEST_CASE("fonts: every character that the desk's texts use has a glyph in every size") {
  Built built;
  REQUIRE(built.problem.empty());
  const std::string needed = "°²³·−–→←↑↓•≥≤×Ω±…‘’“”µäöüßéèñçåøÆŒŠŽ½¼€▸▾●✓\u2009\u202F";
  for (const Type type : all_types) {
    const char* at = needed.c_str();
    const char* end = at + needed.size();
    while (at < end) {
      unsigned int code = 0;
      at += ImTextCharFromUtf8(&code, at, end);
      INFO("type ", static_cast<int>(type), " U+", code);
      CHECK(built.theme.font(type)->FindGlyphNoFallback(static_cast<ImWchar>(code)) != nullptr);
    }
  }
  for (const char digit : std::string("0123456789.:-+°CF")) {
    if (static_cast<unsigned char>(digit) >= 0x80U) continue;
    CHECK(built.theme.font(Type::display_large)->FindGlyphNoFallback(static_cast<ImWchar>(digit)) != nullptr);
  }
}

TEST_CASE("lines end at spaces, not inside a number, and lose no word at any width") {
  Built built;
  REQUIRE(built.problem.empty());
  const ImFont& font = *built.theme.font(Type::body);
  const std::string words = "At 0:19.5 it lost 0.05 kg, then 12.5 kg; 1,250 g in all (at 3.2 °C).";
  for (float width = 60.0F; width < 700.0F; width += 3.0F) {
    CAPTURE(width);
    std::string joined;
    for (const std::string_view line : text_lines(font, words, width)) {
      CHECK(font.CalcTextSizeA(font.FontSize, 1e6F, 0.0F, line.data(), line.data() + line.size()).x <= width);
      joined += (joined.empty() ? "" : " ") + std::string(line);
    }
    CHECK(joined == words);  // a break inside a word would show as a space too many
  }
  CHECK(text_lines(font, "one\n\nthree", 0.0F).size() == 3);
  CHECK(text_lines(font, "", 50.0F).size() == 1);
  CHECK(text_lines(font, "unbreakable", 20.0F).size() > 1);
}

TEST_CASE("fonts: digits are tabular, so that numbers do not jump") {
  Built built;
  for (const Type type : all_types) {
    const float zero = built.theme.font(type)->GetCharAdvance('0');
    for (const char digit : std::string("123456789")) {
      INFO("type ", static_cast<int>(type), " ", digit);
      CHECK(built.theme.font(type)->GetCharAdvance(static_cast<ImWchar>(digit)) == zero);
    }
  }
}

// The em square is 2000 units, capitals 1500 and ascent to descent 2430 of them (B612's tables head, OS/2 and
// hhea).
TEST_CASE("fonts: sizes are sizes of the em square and scale to 200 %") {
  for (const float text : {1.0F, 1.5F, 2.0F}) {
    Built built(1.0F, text);
    REQUIRE(built.problem.empty());
    for (const Type type : all_types) {
      const ImFont& font = *built.theme.font(type);
      CHECK(font.FontSize == doctest::Approx(type_px(type) * text * 2430.0F / 2000.0F).epsilon(0.01));
      const ImFontGlyph* capital = font.FindGlyph('H');
      CHECK(std::abs((capital->Y1 - capital->Y0) - type_px(type) * text * 0.75F) <= 1.6F);
    }
    CHECK(built.theme.control_height() >= 34.0F);
    CHECK(built.theme.control_height() >= built.theme.line_px(Type::body) + 8.0F);
  }
  Built dense(2.0F, 1.0F);
  CHECK(dense.theme.text_px(Type::body) == 32.0F);
  CHECK(dense.theme.px(16.0F) == 32.0F);
}

TEST_CASE("fonts: a thin space is narrower than a space and wider than nothing") {
  Built built;
  for (const Type type : all_types) {
    const float thin = built.theme.font(type)->GetCharAdvance(0x2009);
    CHECK(thin >= 2.0F);
    CHECK(thin < built.theme.font(type)->GetCharAdvance(' '));
  }
}
