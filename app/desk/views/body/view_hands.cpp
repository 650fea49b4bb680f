#include <GLFW/glfw3.h>
#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/button.h"
#include "app/desk/kit/widgets/spot.h"
#include "app/desk/views/body/view_internal.h"
#include "sim_core/hands/handles.h"

// Mouse, wheel and keys on the picture, and the tools under it.
namespace stirbench::desk::views::body {

using kit::tr;

namespace {

using library::MovedBy;

// What a click on a thing with one use does.
std::optional<hands::Action> simple_hand(const std::string& id, const machine::State& state) {
  const plant::Fittings& f = state.plant.fittings;
  const plant::FreezerState& freezer = state.plant.freezer;
  if (id == "rinse_gun") return hands::rinse(!f.rinse_on);
  if (id == "isolator" || id == "isolator_knob") return hands::isolate(f.isolator_on);
  if (id == "stop_key") return hands::press("stop");
  if (id == "emergency_stop" || id == "emergency_stop_base")
    return state.plant.safety.emergency_stop_in ? hands::release_emergency_stop()
                                                : hands::press_emergency_stop();
  if (id == "hose_clamp") return hands::clamp_hose(!state.plant.line.clamped);
  if (id == "freezer_door") return hands::freezer_lid(!freezer.lid_open);
  if (id == "freezer_drain" || id == "freezer_drain_lever") return hands::freezer_drain(!freezer.drain_open);
  if (id == "freezer_inlet") return hands::freezer_inlet(!freezer.inlet_open);
  if (id == "freezer_gate") return hands::freezer_draw(freezer.gate_norm > 0.0 ? 0.0 : 1.0);
  if (id == "freezer_tub") return hands::empty_tub();
  return std::nullopt;
}

void act_on(const ViewCore& core, int part, const MachineViewInput& input, MachineRequests& wants) {
  if (input.asks_for_parts) return;
  const library::BodyPart& one = *core.model->parts[static_cast<std::size_t>(part)].part;
  switch (one.move.by) {
    case MovedBy::lid: wants.toggle_lid = true; return;
    case MovedBy::shaft_cover: wants.toggle_shaft_cover = true; return;
    case MovedBy::draw_handle:
      if (one.id == "valve_handle") wants.draw_opening_norm = opening_of(input) > 0.0 ? 0.0 : 0.5;
      return;
    default: break;
  }
  if (one.id == "pail") wants.pail = true;
  if (one.id == "vat") wants.vat = true;
  if (const auto action = simple_hand(one.id, input.state)) wants.part_work.push_back(*action);
}

void choose(ViewCore& core, int part) {
  core.chosen = part;
  core.chosen_id = part < 0 ? "" : core.model->parts[static_cast<std::size_t>(part)].part->id;
}

void keys(kit::Ui& ui, ViewCore& core, const kit::SpotState& s) {
  if (!s.focused) return;
  if (s.key_x != 0.0F || s.key_y != 0.0F) {
    core.camera.orbit(12.0 * static_cast<double>(s.key_x), 8.0 * static_cast<double>(-s.key_y));
    touched(ui, core);
  }
  const bool nearer = ImGui::IsKeyPressed(GLFW_KEY_EQUAL) || ImGui::IsKeyPressed(GLFW_KEY_KP_ADD);
  const bool away = ImGui::IsKeyPressed(GLFW_KEY_MINUS) || ImGui::IsKeyPressed(GLFW_KEY_KP_SUBTRACT);
  if (nearer || away) {
    core.camera.zoom(nearer ? 0.85 : 1.0 / 0.85);
    touched(ui, core);
  }
  // The cutting plane, by two centimetres.
  const bool deeper = ImGui::IsKeyPressed(GLFW_KEY_PAGE_UP);
  const bool shallower = ImGui::IsKeyPressed(GLFW_KEY_PAGE_DOWN);
  if ((deeper || shallower) && core.choice.look == Look::cutaway) {
    core.choice.cut_m = std::clamp(core.choice.cut_m + (deeper ? 0.02 : -0.02), -0.4, 0.4);
    touched(ui, core);
  }
  if (ImGui::IsKeyPressed(GLFW_KEY_HOME)) core.fit_wanted = true;
}

// Named places, so that lessons can point at them and the keyboard reaches them.
void named_spots(kit::Ui& ui, ViewCore& core, const MachineViewInput& input, const kit::Rect& picture,
                 const PartPositions& moment, MachineRequests& wants) {
  const double aspect = static_cast<double>(picture.w) / static_cast<double>(picture.h);
  struct Place {
    const char* id;
    const char* part;
    std::string label;
  };
  for (const Place& place :
       {Place{"lid", "lid_handle", tr("Lid")}, Place{"shaft_cover", "shaft_cover", tr("Shaft cover")},
        Place{"draw_valve", "valve_handle", tr("Draw valve handle")}, Place{"pail", "pail", tr("Pail")},
        Place{"vat", "vat", tr("Vat")}, Place{"hose_clamp", "hose_clamp", tr("Hose clamp")},
        Place{"freezer_lid", "freezer_door", tr("Freezer lid")},
        Place{"freezer_drain", "freezer_drain_lever", tr("Drain lever")},
        Place{"emergency_stop", "emergency_stop", tr("Emergency stop")}}) {
    const int i = core.model->index(place.part);
    if (i < 0) continue;
    const PartModel& part = core.model->parts[static_cast<std::size_t>(i)];
    if (!is_shown(*part.part, moment, core.choice)) continue;
    const auto at =
        core.camera.project(pose_of(part, moment, core.choice).apply(part.bounds.centre()), aspect);
    if (!at) continue;
    // What has moved out of the picture is reached at its edge; not over the tools.
    const float side = ui.px(26.0F);
    const float low = picture.bottom() - ui.theme.control_height() - ui.px(24.0F) - side * 0.5F;
    const ImVec2 c{std::clamp(picture.x + static_cast<float>((*at)[0]) * picture.w, picture.x + side,
                              picture.right() - side),
                   std::clamp(picture.y + static_cast<float>((*at)[1]) * picture.h, picture.y + side,
                              std::max(low, picture.y + side))};
    const std::string hint =
        input.asks_for_parts ? tr("This one?") : std::string();  // its name would be the answer
    const kit::SpotState s =
        spot(ui, input.id + "." + place.id, place.label, {c.x - side * 0.5F, c.y - side * 0.5F, side, side},
             {.hint = hint, .draw_hover = false});
    if (s.pressed) {
      choose(core, i);
      act_on(core, i, input, wants);
    }
    if (s.pressed && std::string(place.id) == "vat" && !input.pouring.empty()) {
      wants.vat = false;
      wants.pour = true;
    }
  }
}

}  // namespace

int part_under(const ViewCore& core, const PartPositions& moment, const kit::Rect& picture, ImVec2 mouse) {
  const double aspect = static_cast<double>(picture.w) / static_cast<double>(picture.h);
  const Ray ray = core.camera.ray(static_cast<double>((mouse.x - picture.x) / picture.w),
                                  static_cast<double>((mouse.y - picture.y) / picture.h), aspect);
  return pick(*core.model, moment, core.choice, ray).part;
}

MachineRequests take_hands(kit::Ui& ui, ViewCore& core, const MachineViewInput& input,
                           const kit::Rect& picture, const PartPositions& moment) {
  MachineRequests wants;
  if (input.interactive) named_spots(ui, core, input, picture, moment, wants);
  const bool acted = wants.toggle_lid || wants.toggle_shaft_cover || wants.pail || wants.vat || wants.pour ||
                     wants.draw_opening_norm;
  // Not over the tools under the picture.
  kit::Rect reach = picture;
  reach.h -= ui.theme.control_height() + ui.px(20.0F);
  std::string label = tr("The machine in three dimensions");
  if (core.hovered >= 0 && !input.asks_for_parts)
    label += ": " + tr(core.model->parts[static_cast<std::size_t>(core.hovered)].part->title);
  const kit::SpotState s =
      spot(ui, input.id + ".view", label, reach,
           {.value = core.chosen_id, .draggable = true, .tooltip = false, .draw_hover = false});
  const ImGuiIO& io = ImGui::GetIO();
  const bool over = s.hovered && !gesture_under_way();
  const int under = over ? part_under(core, moment, picture, s.mouse) : -1;
  if (!gesture_under_way()) core.hovered = under;
  follow_gesture(ui, core, input, picture, s, moment, wants);
  if (s.hovered && io.MouseWheel != 0.0F) {
    core.camera.zoom(std::pow(0.88, static_cast<double>(io.MouseWheel)));
    touched(ui, core);
  }
  if (s.hovered && (ImGui::IsMouseDown(1) || ImGui::IsMouseDown(2)))
    orbit_by_mouse(ui, core, picture, io.MouseDelta);
  keys(ui, core, s);
  if (s.pressed && !acted) {
    const bool by_mouse = ImGui::IsMouseReleased(0);
    const int part = by_mouse ? part_under(core, moment, picture, s.mouse) : core.chosen;
    if (by_mouse) choose(core, part);
    if (input.interactive && part >= 0) act_on(core, part, input, wants);
    if (wants.vat && !input.pouring.empty()) {
      wants.vat = false;
      wants.pour = true;
    }
  }
  return wants;
}

namespace {

// How the machine is looked at: a button for each, or one menu where they would leave no room for the rest.
// Returns where the rest begins.
float draw_looks(kit::Ui& ui, ViewCore& core, const std::string& id, const kit::Rect& strip, float h) {
  const std::array<std::pair<const char*, std::string>, 4> looks = {std::pair{"whole", tr("Whole")},
                                                                    {"cutaway", tr("Cut open")},
                                                                    {"see_through", tr("See-through")},
                                                                    {"apart", tr("Taken apart")}};
  const auto choose = [&](std::size_t i) {
    core.choice.look = static_cast<Look>(i);
    touched(ui, core);
  };
  const auto now = static_cast<std::size_t>(core.choice.look);
  const float between = ui.px(4.0F);
  float all = 3.0F * h + 3.0F * between;  // nearer, farther, fit
  for (const auto& look : looks) all += button_width(ui, look.second) + between;
  float x = strip.x;
  if (all > strip.w) {
    std::vector<std::string> words;
    words.reserve(looks.size());
    for (const auto& look : looks) words.push_back(look.second);
    at(ui, x, strip.y);
    if (const int picked = menu_button(ui, id + ".look", looks[now].second, words); picked >= 0)
      choose(static_cast<std::size_t>(picked));
    return x + button_width(ui, looks[now].second, {.icon_after = kit::Icon::chevron_down}) + between;
  }
  for (std::size_t i = 0; i < looks.size(); ++i) {
    const kit::ButtonStyle style{.selected = now == i};
    const float width = button_width(ui, looks[i].second, style);
    if (button_at(ui, id + ".look." + looks[i].first, looks[i].second, {x, strip.y, width, h}, style))
      choose(i);
    x += width + between;
  }
  return x;
}

}  // namespace

void draw_tools(kit::Ui& ui, ViewCore& core, const std::string& id, const kit::Rect& strip) {
  const ImVec2 cursor = ImGui::GetCursorScreenPos();
  const float h = std::min(strip.h, ui.theme.control_height());
  float x = draw_looks(ui, core, id, strip, h);
  struct Tool {
    const char* id;
    const char* mark;
    std::string hint;
  };
  x += ui.px(8.0F);
  for (const Tool& tool : {Tool{"nearer", "+", tr("Nearer")}, Tool{"away", "\xE2\x88\x92", tr("Farther")},
                           Tool{"fit", "\xE2\x97\x8B", tr("Fit")}}) {
    const std::string words = std::string(tool.id) == "fit" ? tr("Fit") : tool.mark;
    const float width = std::max(h, button_width(ui, words));
    if (x + width > strip.right()) break;
    if (button_at(ui, id + "." + tool.id, words, {x, strip.y, width, h}, {.hint = tool.hint})) {
      if (std::string(tool.id) == "fit")
        core.fit_wanted = true;
      else
        core.camera.zoom(std::string(tool.id) == "nearer" ? 0.8 : 1.25);
      touched(ui, core);
    }
    x += width + ui.px(4.0F);
  }
  const std::string names = tr("Names");
  const float width = button_width(ui, names, {.selected = core.labels});
  if (x + ui.px(8.0F) + width <= strip.right() &&
      button_at(ui, id + ".names", names, {x + ui.px(8.0F), strip.y, width, h}, {.selected = core.labels}))
    core.labels = !core.labels;
  ImGui::SetCursorScreenPos(cursor);
}

}  // namespace stirbench::desk::views::body
