#include "app/desk/views/body/body_view.h"

#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/button.h"
#include "app/desk/kit/widgets/text_block.h"
#include "app/desk/views/body/view_internal.h"
#include "app/desk/views/machine_view/view_switch.h"
#include "sim_core/hands/hand.h"

namespace stirbench::desk::views {

using kit::tr;

namespace {

using namespace body;

Colours colours_of(const kit::Ui& ui) {
  const auto colour = [&](kit::Token token) { return rgba(ui.theme.colour(token)); };
  return {colour(kit::Token::stage), colour(kit::Token::floor), colour(kit::Token::metal_dark),
          colour(kit::Token::act)};
}

// The part that the hand holds, shown faintly where it goes.
int ghost_of(const ViewCore& core, const machine::State& state) {
  const plant::AssemblyState& assembly = state.plant.assembly;
  if (assembly.hand < 0) return -1;
  const plant::PartId place = assembly.items[static_cast<std::size_t>(assembly.hand)].kind;
  return plant::in_place(assembly, place) ? -1 : core.model->index(std::string(plant::part_key(place)));
}

// A change of the look or of the room's shape asks for a new distance; the direction stays.
void fit_when_wanted(ViewCore& core, const PartPositions& moment, double aspect) {
  const bool other_room = std::abs(core.fitted_aspect - aspect) > 0.02;
  if (!core.fit_wanted && !other_room && core.fitted_look == core.choice.look) return;
  Choice whole = core.choice;
  whole.apart_norm = 1.0;
  core.camera.fit(bounds_of(*core.model, moment, whole), aspect);
  core.fitted_aspect = aspect;
  core.fitted_look = core.choice.look;
  core.fit_wanted = false;
}

// Goes near one part; after the fit, which would take the eye away again.
void aim_when_wanted(ViewCore& core, const PartPositions& moment) {
  const int i = core.aim_at.empty() ? -1 : core.model->index(core.aim_at);
  core.aim_at.clear();
  if (i < 0) return;
  const PartModel& part = core.model->parts[static_cast<std::size_t>(i)];
  core.camera.target = pose_of(part, moment, core.choice).apply(part.bounds.centre());
  core.camera.distance_m = std::clamp(8.0 * part.bounds.radius(), 0.9, 3.2);
}

// The choices of the chosen part as buttons in rows above its card, the last row nearest to it.
void draw_choices(kit::Ui& ui, const MachineViewInput& input, const kit::Rect& row, float right,
                  MachineRequests& wants) {
  const float apart = ui.px(6.0F);
  std::vector<std::vector<std::size_t>> rows(1);
  float x = row.x;
  for (std::size_t i = 0; i < input.part_choices.size(); ++i) {
    const float width = button_width(ui, input.part_choices[i].label);
    if (x + width > right && !rows.back().empty()) {
      rows.emplace_back();
      x = row.x;
    }
    rows.back().push_back(i);
    x += width + apart;
  }
  for (std::size_t r = 0; r < rows.size(); ++r) {
    const float y = row.y - static_cast<float>(rows.size() - 1 - r) * (row.h + apart);
    x = row.x;
    for (const std::size_t i : rows[r]) {
      const PartChoice& choice = input.part_choices[i];
      const float width = button_width(ui, choice.label);
      const std::string key = choice.key.empty() ? std::string(choice.action.hand()->name) : choice.key;
      if (button_at(ui, input.id + ".part." + key, choice.label, {x, y, width, row.h},
                    {.kind = kit::ButtonKind::primary, .hint = choice.how}))
        wants.part_work.push_back(choice.action);
      x += width + apart;
    }
  }
}

// What the pointer is over, or what was chosen: its name and what it is for. With something to do on it, the
// chosen one stays.
void draw_purpose(kit::Ui& ui, const ViewCore& core, const MachineViewInput& input, const kit::Rect& rect,
                  MachineRequests& wants) {
  const int i = core.hovered >= 0 && input.part_choices.empty() ? core.hovered
                : core.chosen >= 0                              ? core.chosen
                                                                : core.hovered;
  if (i < 0) return;
  const library::BodyPart& part = *core.model->parts[static_cast<std::size_t>(i)].part;
  const std::string title = input.asks_for_parts ? tr("This one?") : tr(part.title);
  const float pad = ui.px(8.0F);
  const float width = std::min(rect.w - 4.0F * pad, ui.em(420.0F));
  const std::string purpose =
      input.asks_for_parts ? tr("Press \"This is it\" when it is what you are asked for.") : tr(part.purpose);
  const float high =
      text_size(ui, purpose, kit::Type::caption, width).y + ui.theme.line_px(kit::Type::body_bold);
  const kit::Rect card{rect.x + pad, rect.bottom() - high - 3.0F * pad, width + 2.0F * pad,
                       high + 1.5F * pad};
  ImDrawList* draw = kit::current_draw();
  draw->AddRectFilled(card.min(), card.max(), ui.theme.colour(kit::Token::panel).faded(0.94F).u32(),
                      ui.px(6.0F));
  draw->AddRect(card.min(), card.max(), ui.colour(kit::Token::line), ui.px(6.0F));
  text_at(ui, draw, {card.x + pad, card.y + 0.5F * pad}, title, {.type = kit::Type::body_bold});
  text_at(ui, draw, {card.x + pad, card.y + 0.5F * pad + ui.theme.line_px(kit::Type::body_bold)}, purpose,
          {.type = kit::Type::caption, .colour = kit::Token::ink2, .wrap = width});
  const float row_h = ui.theme.control_height();
  if (i == core.chosen)
    draw_choices(ui, input, {card.x, card.y - row_h - pad, card.w, row_h}, rect.right() - pad, wants);
}

}  // namespace

struct BodyView::Impl {
  ViewCore core;

  void look_for_names(kit::Ui& ui, const PartPositions& moment, double aspect, const kit::Rect& picture,
                      float strip_h) {
    const bool stands = ui.now_s - core.touched_s > 0.2;
    const bool same =
        core.named_from && *core.named_from == core.camera && core.named_choice.look == core.choice.look &&
        core.named_choice.freezer == core.choice.freezer && core.named_choice.cut_m == core.choice.cut_m &&
        core.named_choice.apart_norm == core.choice.apart_norm && core.named_chosen == core.chosen &&
        core.named_moment.lid_norm == moment.lid_norm && core.named_moment.hose == moment.hose &&
        core.named_moment.freezer == moment.freezer && core.named_moment.off == moment.off &&
        core.named_moment.cover_norm == moment.cover_norm;
    if (same) return;
    if (!stands) {
      core.names.clear();
      core.named_from.reset();
      return;
    }
    Covered covered{.low = 1.0 - (strip_h + ui.px(14.0F)) / picture.h};
    if (core.chosen >= 0) {
      covered.card_top = covered.low - ui.em(86.0F) / picture.h;
      covered.card_right = std::min(1.0F, ui.em(440.0F) / picture.w);
    }
    core.names = find_names(core, moment, aspect, covered);
    core.named_from = core.camera;
    core.named_choice = core.choice;
    core.named_moment = moment;
    core.named_chosen = core.chosen;
  }

  void draw_picture(kit::Ui& ui, const MachineViewInput& input, const kit::Rect& picture) {
    const ImVec2 pixel = ImGui::GetIO().DisplayFramebufferScale;
    const bool moving = ui.now_s - core.touched_s < 0.2 ||
                        machine_animating(input.state, input.motion, input.interactive, ui.reduced_motion);
    RenderInput in{input.machine,
                   input.state,
                   input.motion,
                   *core.vessel,
                   core.choice,
                   core.camera,
                   colours_of(ui),
                   static_cast<int>(picture.w * pixel.x),
                   static_cast<int>(picture.h * pixel.y),
                   moving ? 1 : 2,
                   core.hovered >= 0 ? core.hovered : core.chosen,
                   ui.reduced_motion,
                   ghost_of(core, input.state)};
    core.renderer->render(in);
    kit::current_draw()->AddImage(
        reinterpret_cast<ImTextureID>(static_cast<std::uintptr_t>(core.renderer->texture())), picture.min(),
        picture.max(), {0.0F, 1.0F}, {1.0F, 0.0F});
  }
};

BodyView::BodyView() : impl_(std::make_unique<Impl>()) {}
BodyView::~BodyView() = default;

bool BodyView::open(const library::Library& library, const machine::Machine& machine) {
  const auto found = library.bodies.find(machine.plant.id);
  if (found == library.bodies.end()) return false;
  ViewCore& core = impl_->core;
  core.renderer.reset();
  core.model = std::make_unique<BodyModel>(found->second);
  core.vessel = std::make_unique<Vessel>(machine.plant);
  core.problem.clear();
  core.fit_wanted = true;
  core.hovered = core.chosen = -1;
  core.named_from.reset();
  return true;
}

bool BodyView::is_open() const { return impl_->core.model != nullptr; }
const std::string& BodyView::problem() const { return impl_->core.problem; }
const std::string& BodyView::chosen() const { return impl_->core.chosen_id; }
void BodyView::show(Look look) { impl_->core.choice.look = look; }
void BodyView::show_freezer(bool on) { impl_->core.choice.freezer = on; }

void BodyView::fit() { impl_->core.fit_wanted = true; }

void BodyView::choose(const std::string& part_id) {
  ViewCore& core = impl_->core;
  core.chosen = core.model ? core.model->index(part_id) : -1;
  core.chosen_id = core.chosen < 0 ? "" : part_id;
}

const library::BodyPart* BodyView::part(const std::string& part_id) const {
  return impl_->core.model ? impl_->core.model->body.part(part_id) : nullptr;
}

const std::vector<library::BodyPart>& BodyView::parts() const {
  static const std::vector<library::BodyPart> none;
  return impl_->core.model ? impl_->core.model->body.parts : none;
}

void BodyView::look_at(const std::string& part_id) { impl_->core.aim_at = part_id; }

MachineRequests BodyView::draw(kit::Ui& ui, const MachineViewInput& input, const kit::Rect& rect) {
  ViewCore& core = impl_->core;
  if (!core.model) return {};
  if (!core.renderer) {
    core.renderer = std::make_unique<BodyRenderer>(*core.model);
    core.problem = core.renderer->error();
  }
  kit::Rect picture{std::round(rect.x), std::round(rect.y), std::round(rect.w), std::round(rect.h)};
  const kit::Rect strip_room = picture.inset(ui.px(10.0F));
  const float strip_h = ui.theme.control_height();
  const kit::Rect strip{strip_room.x, strip_room.bottom() - strip_h,
                        strip_room.w - view_switch_width(ui) - ui.px(8.0F) - input.foot_taken, strip_h};
  const double aspect = static_cast<double>(picture.w) / std::max(static_cast<double>(picture.h), 1.0);
  const PartPositions moment = part_positions(input.state, input.motion);
  if (core.fitted_look != core.choice.look) core.look_since_s = ui.now_s;
  core.choice.apart_norm = eased(ui, core.look_since_s, 2.0 * kit::Motion::slow_s);
  fit_when_wanted(core, moment, aspect);
  aim_when_wanted(core, moment);
  // Tools first: what is drawn earlier takes the pointer.
  kit::current_draw()->PushClipRect(picture.min(), picture.max(), true);
  impl_->draw_picture(ui, input, picture);
  draw_tools(ui, core, input.id, strip);
  // What lies on the picture comes first: what is drawn earlier takes the pointer.
  MachineRequests chosen;
  draw_purpose(ui, core, input, {picture.x, picture.y, picture.w, picture.h - strip_h - ui.px(8.0F)}, chosen);
  MachineRequests wants = take_hands(ui, core, input, picture, moment);
  wants.part_work.insert(wants.part_work.end(), chosen.part_work.begin(), chosen.part_work.end());
  impl_->look_for_names(ui, moment, aspect, picture, strip_h);
  kit::Rect room = picture.inset(ui.px(14.0F), ui.px(44.0F));
  room.h -= ui.px(14.0F) + (core.chosen >= 0 || core.hovered >= 0 ? ui.em(86.0F) : 0.0F);
  if (core.labels && input.labels && !input.asks_for_parts) draw_names(ui, core, input, picture, room);
  draw_cautions(ui, input, picture);
  if (core.touched_s > 0.0 && ui.now_s - core.touched_s < 0.3) ui.host.wake_at(core.touched_s + 0.31);
  kit::current_draw()->PopClipRect();
  return wants;
}

}  // namespace stirbench::desk::views
