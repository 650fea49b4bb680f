#include "app/desk/kit/theme/fill.h"

#include <glad/gl.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace stirbench::desk::kit {

namespace {

constexpr float least_area_px = 20000.0F;  // below that the change of state costs more than it saves

// Runs while ImGui's renderer works through its commands; the scissor is set anew for each of them
// afterwards. The colour travels in the pointer, the rectangle is the command's clip rectangle.
void clear_rectangle(const ImDrawList*, const ImDrawCmd* command) {
  const ImDrawData& data = *ImGui::GetDrawData();
  const float scale_x = data.FramebufferScale.x;
  const float scale_y = data.FramebufferScale.y;
  const ImVec4& clip = command->ClipRect;
  const auto left = static_cast<int>(std::lround((clip.x - data.DisplayPos.x) * scale_x));
  const auto right = static_cast<int>(std::lround((clip.z - data.DisplayPos.x) * scale_x));
  const auto top = static_cast<int>(std::lround((clip.y - data.DisplayPos.y) * scale_y));
  const auto bottom = static_cast<int>(std::lround((clip.w - data.DisplayPos.y) * scale_y));
  if (right <= left || bottom <= top) return;
  const auto packed = static_cast<ImU32>(reinterpret_cast<std::uintptr_t>(command->UserCallbackData));
  const ImVec4 colour = ImGui::ColorConvertU32ToFloat4(packed);
  const auto height = static_cast<int>(std::lround(data.DisplaySize.y * scale_y));
  glEnable(GL_SCISSOR_TEST);
  glScissor(left, height - bottom, right - left, bottom - top);
  glClearColor(colour.x, colour.y, colour.z, 1.0F);
  glClear(GL_COLOR_BUFFER_BIT);
}

void clear_part(ImDrawList* draw, const Rect& rect, ImU32 colour) {
  if (rect.empty()) return;
  draw->PushClipRect(rect.min(), rect.max(), true);
  draw->AddCallback(clear_rectangle, reinterpret_cast<void*>(static_cast<std::uintptr_t>(colour)));
  draw->PopClipRect();
}

}  // namespace

void fill_ground(ImDrawList* draw, const Rect& rect, Colour colour, float corner) {
  const bool visible = ImGui::GetStyle().Alpha >= 1.0F;
  if (colour.a != 255 || !visible || rect.w * rect.h < least_area_px || rect.h < 4.0F * corner) {
    draw->AddRectFilled(rect.min(), rect.max(), colour.u32(), corner);
    return;
  }
  // The strips with the round corners the usual way, what lies between them by clearing.
  const float strip = std::ceil(corner);
  const Rect middle{std::round(rect.x), std::round(rect.y + strip), std::round(rect.w),
                    std::round(rect.h - 2.0F * strip)};
  clear_part(draw, middle, colour.u32());
  draw->AddRectFilled(rect.min(), {rect.right(), middle.y}, colour.u32(), corner,
                      ImDrawFlags_RoundCornersTop);
  draw->AddRectFilled({rect.x, middle.bottom()}, rect.max(), colour.u32(), corner,
                      ImDrawFlags_RoundCornersBottom);
}

}  // namespace stirbench::desk::kit
