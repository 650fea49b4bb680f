#include "app/desk/kit/signs/signs.h"

#include <array>

#include "app/desk/kit/signs/symbols.h"
#include "app/desk/kit/theme/theme.h"

namespace stirbench::desk::kit {

namespace {

struct SignWords {
  std::string_view number;
  std::string_view meaning;
};

constexpr std::array<SignWords, sign_count> words{{{"W001", "General warning"},
                                                   {"W010", "Low temperature"},
                                                   {"W011", "Slippery surface"},
                                                   {"W012", "Electricity"},
                                                   {"W017", "Hot surface"},
                                                   {"W018", "Automatic start-up"},
                                                   {"W021", "Flammable material"},
                                                   {"W023", "Corrosive substance"},
                                                   {"W024", "Crushing of hands"},
                                                   {"M002", "Read the instructions"},
                                                   {"M004", "Wear eye protection"},
                                                   {"M008", "Wear safety footwear"},
                                                   {"M009", "Wear protective gloves"},
                                                   {"M010", "Wear protective clothing"},
                                                   {"M011", "Wash your hands"},
                                                   {"M013", "Wear a face shield"},
                                                   {"M021", "Disconnect before maintenance or repair"},
                                                   {"M028", "Keep locked"},
                                                   {"P010", "Do not touch"},
                                                   {"P015", "No reaching in"}}};

ImU32 fixed(Token token) { return token_colour(ThemeKind::light, token).u32(); }

// A black triangle with cut corners and a yellow one in it: two fills, more than half of the area yellow.
void triangle(const SignPaper& paper) {
  paper.polygon({{0.465F, 0.065F},
                 {0.535F, 0.065F},
                 {0.985F, 0.855F},
                 {0.95F, 0.915F},
                 {0.05F, 0.915F},
                 {0.015F, 0.855F}});
  paper.polygon({{0.5F, 0.175F}, {0.885F, 0.838F}, {0.115F, 0.838F}}, true);
}

}  // namespace

std::string_view sign_number(SignId which) { return words[static_cast<std::size_t>(which)].number; }
std::string_view sign_meaning(SignId which) { return words[static_cast<std::size_t>(which)].meaning; }

SignShape sign_shape(SignId which) {
  if (which <= SignId::w024) return SignShape::warning;
  return which <= SignId::m028 ? SignShape::mandatory : SignShape::prohibition;
}

std::optional<SignId> find_sign(std::string_view number) {
  for (std::size_t i = 0; i < sign_count; ++i) {
    if (words[i].number == number) return static_cast<SignId>(i);
  }
  return std::nullopt;
}

void draw_sign(ImDrawList* draw, SignId which, const Rect& box) {
  const float side = std::min(box.w, box.h);
  if (side < 6.0F || which >= SignId::count) return;
  const ImVec2 origin{box.x + (box.w - side) * 0.5F, box.y + (box.h - side) * 0.5F};
  const ImU32 black = fixed(Token::sign_black);
  const ImU32 white = fixed(Token::sign_white);
  switch (sign_shape(which)) {
    case SignShape::warning: {
      const SignPaper paper{draw, origin, side, black, fixed(Token::sign_yellow)};
      triangle(paper);
      draw_warning_symbol(paper, which);
      break;
    }
    case SignShape::mandatory: {
      const SignPaper ground{draw, origin, side, fixed(Token::sign_blue), white};
      // A thin white edge keeps the disc apart from dark grounds.
      ground.disc(0.5F, 0.5F, 0.5F, true);
      ground.disc(0.5F, 0.5F, 0.48F);
      draw_mandatory_symbol({draw, origin, side, white, fixed(Token::sign_blue)}, which);
      break;
    }
    case SignShape::prohibition: {
      const SignPaper ground{draw, origin, side, fixed(Token::sign_red), white};
      ground.disc(0.5F, 0.5F, 0.49F, true);
      draw_prohibition_symbol({draw, origin, side, black, white}, which);
      // Red over the symbol: ring and bar, from the upper left to the lower right.
      ground.ring(0.5F, 0.5F, 0.44F, 0.10F);
      ground.line(0.20F, 0.20F, 0.80F, 0.80F, 0.085F);
      break;
    }
  }
}

}  // namespace stirbench::desk::kit
