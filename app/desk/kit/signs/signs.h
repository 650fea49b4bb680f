#pragma once

#include <imgui.h>

#include <cstdint>
#include <optional>
#include <string_view>

#include "app/desk/kit/theme/geometry.h"

// Safety signs: shapes and colours of ISO 3864-1, numbers and meanings of ISO 7010, the symbols drawn by this
// project. Warning: yellow triangle, black border and symbol. Mandatory: blue disc, white symbol.
// Prohibition: red ring and bar, black symbol on white. The colours are the same in all themes.
namespace stirbench::desk::kit {

enum class SignId : std::uint8_t {
  w001,
  w010,
  w011,
  w012,
  w017,
  w018,
  w021,
  w023,
  w024,
  m002,
  m004,
  m008,
  m009,
  m010,
  m011,
  m013,
  m021,
  m028,
  p010,
  p015,
  count
};
inline constexpr std::size_t sign_count = static_cast<std::size_t>(SignId::count);

enum class SignShape : std::uint8_t { warning, mandatory, prohibition };

std::string_view sign_number(SignId which);   // "W017"
std::string_view sign_meaning(SignId which);  // "Hot surface"; pass through tr()
SignShape sign_shape(SignId which);
std::optional<SignId> find_sign(std::string_view number);

// Draws inside `box`, square and centred; legible from 24 px on.
void draw_sign(ImDrawList* draw, SignId which, const Rect& box);

}  // namespace stirbench::desk::kit
