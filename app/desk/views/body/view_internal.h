#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/desk/kit/widgets/spot.h"
#include "app/desk/views/body/body_view.h"
#include "app/desk/views/body/renderer.h"

// What the files of the body view share.
namespace stirbench::desk::views::body {

// A name with the place it points at, in the picture (0..1).
struct Named {
  int part = -1;
  Vec2 anchor{};
};

struct ViewCore {
  std::unique_ptr<BodyModel> model;
  std::unique_ptr<Vessel> vessel;
  std::unique_ptr<BodyRenderer> renderer;
  std::string problem;
  Camera camera;
  Choice choice;
  Look fitted_look = Look::cutaway;
  double fitted_aspect = 0.0;
  bool fit_wanted = true;
  std::string aim_at;  // part to go near with the next picture
  bool labels = true;
  int hovered = -1;
  int chosen = -1;
  std::string chosen_id;
  double touched_s = -10.0;     // when the camera last moved
  double look_since_s = -10.0;  // when the look was last changed: what comes apart does so before the eye
  // Names are looked for once the camera stands.
  std::vector<Named> names;
  std::optional<Camera> named_from;
  Choice named_choice;
  PartPositions named_moment;
  int named_chosen = -1;
};

// What lies on the picture (0..1): the tools below `low`, and the card of a part in the lower left corner.
struct Covered {
  double low = 1.0;
  double card_top = 1.0;
  double card_right = 0.0;
  bool covers(const Vec2& at) const { return at[1] > low || (at[1] > card_top && at[0] < card_right); }
};

// Parts worth a name that can be seen from here, each with a point of it that is not hidden.
std::vector<Named> find_names(const ViewCore& core, const PartPositions& moment, double aspect,
                              const Covered& covered);
void draw_names(kit::Ui& ui, const ViewCore& core, const MachineViewInput& input, const kit::Rect& picture,
                const kit::Rect& room);
void draw_tools(kit::Ui& ui, ViewCore& core, const std::string& id, const kit::Rect& strip);
void draw_cautions(kit::Ui& ui, const MachineViewInput& input, const kit::Rect& rect);
// What a press that moves does (view_gestures.cpp): the eye goes round; the draw handle is pulled; the rinse
// gun is squeezed as long as it is held; what sits on a thread is turned, by circling round it, the way one
// circles; a chosen part is pulled off, pushed or pressed home; the clamp swings.
void follow_gesture(kit::Ui& ui, ViewCore& core, const MachineViewInput& input, const kit::Rect& picture,
                    const kit::SpotState& spot, const PartPositions& moment, MachineRequests& wants);
bool gesture_under_way();
// The part that is seen at that place of the window; -1 none.
int part_under(const ViewCore& core, const PartPositions& moment, const kit::Rect& picture, ImVec2 mouse);
void touched(kit::Ui& ui, ViewCore& core);
void orbit_by_mouse(kit::Ui& ui, ViewCore& core, const kit::Rect& picture, ImVec2 by);
double opening_of(const MachineViewInput& input);
// Mouse, wheel and keys on the picture; what a click means.
MachineRequests take_hands(kit::Ui& ui, ViewCore& core, const MachineViewInput& input,
                           const kit::Rect& picture, const PartPositions& moment);

}  // namespace stirbench::desk::views::body
