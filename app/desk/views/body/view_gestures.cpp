#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/views/body/view_internal.h"
#include "sim_core/hands/handles.h"
#include "sim_core/plant/upkeep/service.h"

// Presses that move: what hands do on the picture beyond a click.
namespace stirbench::desk::views::body {

namespace {

using library::MovedBy;

enum class Does : std::uint8_t { orbit, pull_handle, squeeze, turn, pull_part, swing_clamp };

// One pointer, so one memory; from the press on.
struct Gesture {
  bool on = false;
  bool done = false;
  Does does = Does::orbit;
  int part = -1;
  ImVec2 last{0.0F, 0.0F};
  double opening = 0.0;
  double asked = -1.0;
  double turned_rad = 0.0;  // of a thread; positive clockwise on the screen
  bool squeezed = false;
};
Gesture& gesture() {
  static Gesture value;
  return value;
}

const PartModel& part_of(const ViewCore& core, int part) {
  return core.model->parts[static_cast<std::size_t>(part)];
}

bool on_thread(const MachineViewInput& input, const PartModel& part) {
  return part.place >= 0 &&
         plant::on_thread(input.machine.plant.assembly.rules[static_cast<std::size_t>(part.place)]) &&
         plant::in_place(input.state.plant.assembly, static_cast<plant::PartId>(part.place));
}

Does what_it_does(const ViewCore& core, const MachineViewInput& input, int part) {
  if (!input.interactive || part < 0) return Does::orbit;
  const PartModel& one = part_of(core, part);
  if (one.part->id == "valve_handle" && part != core.chosen) return Does::pull_handle;
  if (one.part->id == "rinse_gun") return Does::squeeze;
  if (one.part->id == "hose_clamp") return Does::swing_clamp;
  if (on_thread(input, one)) return Does::turn;
  if (part == core.chosen && (one.place >= 0 || one.part->move.by == MovedBy::lid)) return Does::pull_part;
  return one.part->id == "valve_handle" ? Does::pull_handle : Does::orbit;
}

// The lid swings, a part that comes off comes off, one that is off is taken up and put home. Once a gesture.
void pull_part(const ViewCore& core, const MachineViewInput& input, MachineRequests& wants) {
  const PartModel& part = part_of(core, gesture().part);
  if (part.part->move.by == MovedBy::lid) {
    wants.toggle_lid = true;
    return;
  }
  const plant::AssemblyState& assembly = input.state.plant.assembly;
  if (plant::in_place(assembly, static_cast<plant::PartId>(part.place))) {
    wants.part_work.push_back(hands::take_part_off(part.part->id));
  } else {
    if (assembly.hand < 0) wants.part_work.push_back(hands::pick_up(part.part->id));
    wants.part_work.push_back(hands::put_part_on(part.part->id));
  }
}

// Clockwise as the hand that holds the part sees it: from the side on which it comes off.
bool clockwise(const ViewCore& core, const PartModel& part, const PartPositions& moment, bool on_screen) {
  const Vec3 outward = part.part->apart_m;
  const Vec3 to_eye = core.camera.eye() - pose_of(part, moment, core.choice).apply(part.bounds.centre());
  return dot(outward, to_eye) >= 0.0 ? on_screen : !on_screen;
}

// An arc round the thread, as far as it was turned, with an arrow at its end.
void draw_arc(kit::Ui& ui, ImVec2 centre, float radius, double from_rad, double turned_rad) {
  ImDrawList* draw = kit::current_draw();
  constexpr int steps = 24;
  std::array<ImVec2, steps + 1> way{};
  for (int i = 0; i <= steps; ++i) {
    const auto a = static_cast<float>(from_rad + turned_rad * i / steps);
    way[static_cast<std::size_t>(i)] = {centre.x + radius * std::cos(a), centre.y + radius * std::sin(a)};
  }
  const ImU32 colour = ui.colour(kit::Token::act);
  draw->AddPolyline(way.data(), steps + 1, colour, 0, ui.px(5.0F));
  draw->AddCircleFilled(way.back(), ui.px(8.0F), colour);
}

void turn(kit::Ui& ui, const ViewCore& core, const MachineViewInput&, const kit::Rect& picture,
          const PartPositions& moment, ImVec2 mouse, MachineRequests& wants) {
  const PartModel& part = part_of(core, gesture().part);
  const double aspect = static_cast<double>(picture.w) / static_cast<double>(picture.h);
  const auto at = core.camera.project(pose_of(part, moment, core.choice).apply(part.bounds.centre()), aspect);
  if (!at) return;
  const ImVec2 centre{picture.x + static_cast<float>((*at)[0]) * picture.w,
                      picture.y + static_cast<float>((*at)[1]) * picture.h};
  const auto angle_of = [&](ImVec2 p) {
    return std::atan2(static_cast<double>(p.y - centre.y), static_cast<double>(p.x - centre.x));
  };
  const double far =
      std::hypot(static_cast<double>(mouse.x - centre.x), static_cast<double>(mouse.y - centre.y));
  const double before = std::hypot(static_cast<double>(gesture().last.x - centre.x),
                                   static_cast<double>(gesture().last.y - centre.y));
  constexpr double least_px = 14.0;  // nearer to the axis an angle means nothing
  if (far > least_px && before > least_px)
    gesture().turned_rad += std::remainder(angle_of(mouse) - angle_of(gesture().last), 6.283185307179586);
  draw_arc(ui, centre, static_cast<float>(std::max(far, 3.0 * least_px)),
           angle_of(mouse) - gesture().turned_rad, gesture().turned_rad);
  constexpr double enough_rad = 1.2;  // some seventy degrees of a spanner
  if (gesture().done || std::abs(gesture().turned_rad) < enough_rad) return;
  gesture().done = true;
  wants.part_work.push_back(
      hands::unscrew(part.part->id, clockwise(core, part, moment, gesture().turned_rad > 0.0)));
}

void end_gesture(MachineRequests& wants) {
  if (gesture().squeezed) wants.part_work.push_back(hands::rinse(false));
  gesture() = {};
}

}  // namespace

void touched(kit::Ui& ui, ViewCore& core) {
  core.touched_s = ui.now_s;
  ui.host.wake_at(ui.now_s + 0.25);  // a finer picture and the names once it stands
}

double opening_of(const MachineViewInput& input) {
  return input.draw_opening_norm.value_or(input.state.plant.fittings.draw_opening_norm);
}

bool gesture_under_way() { return gesture().on; }

void orbit_by_mouse(kit::Ui& ui, ViewCore& core, const kit::Rect& picture, ImVec2 by) {
  const ImGuiIO& io = ImGui::GetIO();
  if (io.KeyShift || ImGui::IsMouseDown(1) || ImGui::IsMouseDown(2)) {
    core.camera.pan(-static_cast<double>(by.x), static_cast<double>(by.y), static_cast<double>(picture.h));
  } else {
    core.camera.orbit(-0.35 * static_cast<double>(by.x), 0.35 * static_cast<double>(by.y));
  }
  if (by.x != 0.0F || by.y != 0.0F) touched(ui, core);
}

void follow_gesture(kit::Ui& ui, ViewCore& core, const MachineViewInput& input, const kit::Rect& picture,
                    const kit::SpotState& spot, const PartPositions& moment, MachineRequests& wants) {
  if (!spot.dragging) {
    if (gesture().on) end_gesture(wants);
    return;
  }
  const ImVec2 mouse = ImGui::GetIO().MousePos;
  Gesture& g = gesture();
  if (!g.on) {
    const ImVec2 from{mouse.x - spot.drag.x, mouse.y - spot.drag.y};
    const int part = part_under(core, moment, picture, from);
    core.hovered = part;
    g = {.on = true,
         .does = what_it_does(core, input, part),
         .part = part,
         .last = from,
         .opening = opening_of(input)};
    if (g.does == Does::squeeze && !input.state.plant.fittings.rinse_on) {
      g.squeezed = true;
      wants.part_work.push_back(hands::rinse(true));
    }
  }
  const bool far = std::hypot(spot.drag.x, spot.drag.y) > ui.px(36.0F);
  switch (g.does) {
    case Does::squeeze: ui.host.animate(); break;
    case Does::turn: turn(ui, core, input, picture, moment, mouse, wants); break;
    case Does::swing_clamp:
      if (far && !g.done) wants.part_work.push_back(hands::clamp_hose(!input.state.plant.line.clamped));
      g.done = g.done || far;
      break;
    case Does::pull_part:
      if (far && !g.done) pull_part(core, input, wants);
      g.done = g.done || far;
      break;
    case Does::pull_handle: {
      const double wanted =
          std::round(std::clamp(g.opening + static_cast<double>(spot.drag.x / ui.px(120.0F)), 0.0, 1.0) *
                     100.0) /
          100.0;
      if (std::abs(wanted - opening_of(input)) >= 0.01 && wanted != g.asked)
        wants.draw_opening_norm = g.asked = wanted;
      break;
    }
    case Does::orbit: orbit_by_mouse(ui, core, picture, {mouse.x - g.last.x, mouse.y - g.last.y}); break;
  }
  g.last = mouse;
}

}  // namespace stirbench::desk::views::body
