#include "app/desk/screens/train/stage.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/train/body_choices.h"
#include "app/desk/screens/train/pointing.h"
#include "app/desk/views/machine_view/view_switch.h"
#include "app/desk/work/run/pointing.h"
#include "app/desk/work/run/seen_state.h"
#include "sim_core/hands/handles.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

float wiring_width(const kit::Ui& ui) { return button_width(ui, tr("Wiring diagram")); }

// Beside the switch of views; at the top where the foot has no room for it and the tools of the solid view.
bool wiring_at_foot(const kit::Ui& ui, const kit::Rect& stage) { return stage.w >= ui.em(640.0F); }

// Title of the ingredient on the scale, which the vat takes; "" when there is none.
std::string pouring_title(const machine::Machine& machine, const AtHandState& at_hand) {
  if (!at_hand.scale_open || at_hand.kg <= 0.0) return "";
  const int index = machine.ingredient_index(at_hand.ingredient);
  return index < 0 ? "" : machine.ingredients[static_cast<std::size_t>(index)].title;
}

// Tips out what is on the scale.
hands::Action pour_out(AtHandState& at_hand) {
  hands::Action pour = hands::pour(at_hand.ingredient, at_hand.kg, at_hand.degC);
  at_hand.kg = 0.0;
  return pour;
}

hands::Action take_spoonful(const machine::State& state, AtHandState& at_hand) {
  at_hand.sample_taken = true;
  at_hand.sample_words = spoon_words(state);
  return hands::take_sample();
}

}  // namespace

void TrainStage::advance(const kit::Ui& ui, const work::LiveRun& run, bool running) {
  // A jump of more than a second leaves nothing to show on the way: lid and cover stand where they are now.
  const bool jumped = run.state().tick > shown_tick_ + machine::ticks_per_second;
  motion_.advance(run.machine(), run.state(), jumped ? 1.0 : ui.dt_s, running, ui.reduced_motion);
  shown_tick_ = run.state().tick;
}

std::vector<hands::Action> TrainStage::draw(kit::Ui& ui, work::Desk& desk, AtHandState& at_hand,
                                            const kit::Rect& rect) {
  if (wiring_open_) return draw_diagram(ui, desk, rect);
  const work::LiveRun& run = *desk.run;
  open_body(desk, at_hand);
  const bool senses_only = run.senses_only();
  if (senses_only) seen_ = work::as_seen(run.state());
  views::MachineViewInput input{
      run.machine(), senses_only ? seen_ : run.state(),     motion_,   true,
      true,          pouring_title(run.machine(), at_hand), "machine", run.draw_opening_norm()};
  input.senses_only = senses_only;
  input.asks_for_parts = asks_;
  if (asks_ && !body_.chosen().empty())
    input.part_choices = {pointing_choice(body_.chosen())};
  else if (desk.solid_view)
    input.part_choices = body_choices(body_.chosen(), run);
  const bool solid = desk.solid_view && body_.is_open();
  const bool diagram = !run.machine().plant.circuit.empty();
  if (diagram && wiring_at_foot(ui, rect)) input.foot_taken = wiring_width(ui) + ui.px(4.0F);
  const views::MachineRequests wants =
      solid ? body_.draw(ui, input, rect) : views::draw_machine(ui, input, rect);
  if (body_.is_open()) views::view_switch(ui, "train.view", desk.solid_view, rect);
  if (diagram) draw_wiring_button(ui, desk.solid_view, rect);
  std::vector<hands::Action> hands = views::hands_of(wants, run.state());
  if (wants.pour) hands.push_back(pour_out(at_hand));
  if (wants.vat && pouring_title(run.machine(), at_hand).empty())
    hands.push_back(take_spoonful(run.state(), at_hand));
  return hands;
}

// The diagram instead of the machine.
std::vector<hands::Action> TrainStage::draw_diagram(kit::Ui& ui, work::Desk& desk, const kit::Rect& rect) {
  const work::LiveRun& run = *desk.run;
  const auto sheets = desk.library.diagrams.find(run.machine().plant.id);
  static const std::vector<library::DiagramSheet> none;
  const views::WiringInput input{.machine = run.machine(),
                                 .state = run.state(),
                                 .sheets = sheets == desk.library.diagrams.end() ? none : sheets->second,
                                 .show_live = !run.senses_only(),
                                 .back_id = "train.wiring"};
  std::vector<hands::Action> hands = views::draw_wiring(ui, wiring_, input, rect);
  if (wiring_.back_asked) wiring_open_ = false;
  return hands;
}

void TrainStage::draw_wiring_button(kit::Ui& ui, bool solid_view, const kit::Rect& stage) {
  const float width = wiring_width(ui);
  const float height = ui.theme.control_height();
  const float margin = ui.px(10.0F);
  const bool foot = wiring_at_foot(ui, stage);
  const float beside = foot && body_.is_open() ? views::view_switch_width(ui) + ui.px(8.0F) : 0.0F;
  const float y = foot ? stage.bottom() - height - (solid_view && body_.is_open() ? margin : ui.px(4.0F))
                       : stage.y + margin;
  const kit::Rect rect{stage.right() - width - margin - beside, y, width, height};
  std::string hint = tr("Measure with instruments at the terminals");
  if (button_at(ui, "train.wiring", tr("Wiring diagram"), rect, {.hint = hint})) wiring_open_ = true;
}

// The body belongs to the run's machine; without one the schematic stays.
void TrainStage::open_body(work::Desk& desk, AtHandState& at_hand) {
  const std::string& id = desk.run->machine().plant.id;
  if (body_of_ == id) return;
  body_of_ = id;
  body_.open(desk.library, desk.run->machine());
  ask_for_parts(desk, at_hand);
}

void TrainStage::ask_for_parts(work::Desk& desk, AtHandState& at_hand) {
  asks_ = body_.is_open() && work::asks_to_point(*desk.run);
  if (!asks_) return;
  desk.solid_view = true;
  at_hand.group = HandGroup::point;
  at_hand.pointable = &body_.parts();
}

void TrainStage::choose_together(AtHandState& at_hand) {
  if (asks_) show_listed(body_, at_hand.point_part, listed_);
}

void TrainStage::begin_afresh(work::Desk& desk, AtHandState& at_hand) {
  motion_ = {};
  wiring_ = {};
  shown_tick_ = 0;
  ask_for_parts(desk, at_hand);
}

}  // namespace stirbench::desk::screens
