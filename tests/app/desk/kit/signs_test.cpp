#include <doctest/doctest.h>
#include <imgui.h>

#include <set>
#include <string>

#include "app/desk/kit/signs/signs.h"
#include "app/library/library.h"
#include "sim_core/machine/state.h"
#include "tests/support/files.h"

using namespace stirbench;
using namespace stirbench::desk::kit;

TEST_CASE("safety signs: numbers and meanings as ISO 7010 has them, shapes by the letter") {
  // ISO 7010 numbers and meanings as read off the standard's numbered pictograms (project reference table).
  CHECK(sign_meaning(*find_sign("W017")) == "Hot surface");
  CHECK(sign_meaning(*find_sign("W012")) == "Electricity");
  CHECK(sign_meaning(*find_sign("W018")) == "Automatic start-up");
  CHECK(sign_meaning(*find_sign("W023")) == "Corrosive substance");
  CHECK(sign_meaning(*find_sign("M028")) == "Keep locked");
  CHECK(sign_meaning(*find_sign("P015")) == "No reaching in");
  CHECK_FALSE(find_sign("W999").has_value());
  std::set<std::string_view> numbers;
  for (std::size_t i = 0; i < sign_count; ++i) {
    const auto which = static_cast<SignId>(i);
    CAPTURE(sign_number(which));
    numbers.insert(sign_number(which));
    CHECK(find_sign(sign_number(which)) == which);
    CHECK(sign_meaning(which).size() > 5);
    const char letter = sign_number(which).front();
    CHECK((sign_shape(which) == SignShape::warning) == (letter == 'W'));
    CHECK((sign_shape(which) == SignShape::mandatory) == (letter == 'M'));
    CHECK((sign_shape(which) == SignShape::prohibition) == (letter == 'P'));
  }
  CHECK(numbers.size() == sign_count);
}

TEST_CASE("every caution and every harm has a sign that is drawn") {
  const library::LoadResult content = library::load((test_support::source_root() / "content").string(), "");
  REQUIRE(content.problems.empty());
  REQUIRE(content.library.cautions.size() > 20);
  for (const auto& [key, caution] : content.library.cautions) {
    CAPTURE(key);
    CHECK(find_sign(caution.sign).has_value());
  }
  for (std::size_t i = 0; i < machine::harm_count; ++i) {
    CHECK(find_sign(machine::harm_sign(static_cast<machine::HarmId>(i))).has_value());
  }
}

TEST_CASE("a sign is drawn inside its box, each one differently") {
  ImGui::CreateContext();
  ImGui::GetIO().Fonts->Build();
  ImGui::GetIO().DisplaySize = {200.0F, 200.0F};
  ImGui::NewFrame();
  ImDrawList* draw = ImGui::GetForegroundDrawList();
  std::set<std::string> pictures;
  for (std::size_t i = 0; i < sign_count; ++i) {
    CAPTURE(sign_number(static_cast<SignId>(i)));
    const int before = draw->VtxBuffer.Size;
    draw_sign(draw, static_cast<SignId>(i), {20.0F, 20.0F, 64.0F, 64.0F});
    REQUIRE(draw->VtxBuffer.Size > before);
    std::string picture;
    for (int v = before; v < draw->VtxBuffer.Size; ++v) {
      const ImVec2 p = draw->VtxBuffer[v].pos;
      CHECK((p.x >= 18.5F && p.x <= 85.5F && p.y >= 18.5F && p.y <= 85.5F));
      picture += std::to_string(p.x) + "," + std::to_string(p.y) + ";";
    }
    pictures.insert(picture);
  }
  CHECK(pictures.size() == sign_count);
  ImGui::EndFrame();
  ImGui::DestroyContext();
}
