#include "app/desk/screens/fault/fault_aids.h"

#include <algorithm>
#include <array>
#include <utility>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "sim_core/hands/handles.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// Words of checks for places that the body calls by the parts they are made of.
constexpr std::array<std::pair<std::string_view, std::string_view>, 6> body_words{
    {{"drive", "motor"},
     {"draw_valve", "valve_handle"},
     {"chiller", "compressor"},
     {"panel", "isolator"},
     {"handle", "valve_handle"},
     {"console", "panel"}}};

std::string body_part_of(const std::string& picture) {
  for (const auto& [word, part] : body_words) {
    if (picture == word) return std::string(part);
  }
  return picture;
}

}  // namespace

std::vector<std::string> checks_at(const std::vector<diagnosis::Check>& checks, const std::string& part_id) {
  std::vector<std::string> titles;
  for (const diagnosis::Check& check : checks) {
    if (body_part_of(check.picture) == part_id) titles.push_back(check.title);
  }
  return titles;
}

FaultAids::FaultAids(const library::Library& library, const std::string& machine_id)
    : library_(library), machine_(library.machine(machine_id)) {}

bool FaultAids::has_diagram(const diagnosis::Check& check) const {
  return !views::pictured_terminals(machine_.plant.circuit, check.picture).empty();
}

bool FaultAids::has_body(const diagnosis::Check& check) const {
  const auto body = library_.bodies.find(machine_.plant.id);
  if (body == library_.bodies.end() || check.picture.empty()) return false;
  const std::string wanted = body_part_of(check.picture);
  const auto& parts = body->second.parts;
  return std::any_of(parts.begin(), parts.end(),
                     [&wanted](const library::BodyPart& one) { return one.id == wanted; });
}

void FaultAids::show_check(const diagnosis::Check& check) {
  check_ = check;
  with_check_ = true;
  marked_ = views::pictured_terminals(machine_.plant.circuit, check.picture);
  what_ = marked_.empty() ? What::body : What::diagram;
  body_aimed_ = false;
  if (what_ != What::diagram) return;
  start_good_machine();
  const auto sheets = library_.diagrams.find(machine_.plant.id);
  if (sheets == library_.diagrams.end()) return;
  show_terminals(wiring_,
                 {.machine = machine_, .state = good_->state(), .sheets = sheets->second, .marked = marked_});
}

void FaultAids::show_wiring() {
  with_check_ = false;
  marked_.clear();
  what_ = What::diagram;
  start_good_machine();
}

std::string FaultAids::take_simulator() { return std::exchange(asked_fault_, {}); }

std::string FaultAids::why_not_simulator(const std::string& fault) const {
  return machine_.fault_index(fault) >= 0 ? "" : "The simulator has no fault under this name.";
}

// In order, panel off: isolated and locked as a check with ohms wants it, or with supply and doing something.
void FaultAids::start_good_machine() {
  journal::SessionHeader header;
  header.machine = machine_.plant.id;
  header.start.situation.trade = faults::Who::electrician;
  header.start.environment.ambient_degC = 22.0;
  if (machine_.ingredient_index("whole_milk") >= 0)
    header.start.loaded = {{"whole_milk", 0.6 * machine_.plant.vat.working_L, 8.0}};
  good_ = std::make_unique<journal::Session>(machine_, header);
  good_->act(hands::put_on("face_shield"));
  if (pose_ == 0) {
    good_->act(hands::isolate(true));
    good_->act(hands::fit_lock("you"));
    good_->act(hands::take_key());
    good_->step();
  } else {
    constexpr std::array<const char*, 4> keys{"", "stir", "heat", "chill"};
    good_->act(hands::press(keys[static_cast<std::size_t>(pose_)]));
    for (int i = 0; i < 60; ++i) good_->step();
  }
  good_->act(hands::take_panel_off());
  good_->act(hands::take_tool("multimeter"));
  if (pose_ == 0) good_->act(hands::set_meter("Ohm"));
  good_->step();
}

void FaultAids::draw_good_machine(kit::Ui& ui, const kit::Rect& rect) {
  kit::Rect area = rect;
  const kit::Rect head = area.take_top(ui.theme.control_height(), ui.px(8.0F));
  at(ui, head.x, head.y);
  if (radio_row(ui, "fault.aid.pose", {tr("Isolated"), tr("Stirring"), tr("Heating"), tr("Chilling")}, pose_))
    start_good_machine();
  const auto sheets = library_.diagrams.find(machine_.plant.id);
  static const std::vector<library::DiagramSheet> none;
  const views::WiringInput input{.machine = machine_,
                                 .state = good_->state(),
                                 .sheets = sheets == library_.diagrams.end() ? none : sheets->second,
                                 .show_live = true,
                                 .marked = marked_,
                                 .id = "fault.diagram"};
  const std::vector<hands::Action> wanted = views::draw_wiring(ui, wiring_, input, area);
  for (const hands::Action& one : wanted) good_->act(one);
  if (!wanted.empty()) {
    for (const machine::Event& event : good_->step()) {
      if (event.kind == machine::EventKind::refused || event.kind == machine::EventKind::harm)
        ui.host.toast(kit::Status::due, tr(event.text));
    }
  }
  if (good_->state().injured) start_good_machine();
}

void FaultAids::draw_body(kit::Ui& ui, const kit::Rect& rect) {
  if (!body_tried_) body_.open(library_, machine_);
  body_tried_ = true;
  if (!good_) start_good_machine();
  motion_.advance(machine_, good_->state(), ui.dt_s, false, ui.reduced_motion);
  const views::MachineViewInput input{.machine = machine_,
                                      .state = good_->state(),
                                      .motion = motion_,
                                      .interactive = false,
                                      .labels = false,
                                      .id = "fault.machine"};
  if (!body_.is_open()) {
    views::draw_machine(ui, input, rect);
    return;
  }
  if (!body_aimed_) {
    const std::string part = body_part_of(check_.picture);
    body_.choose(part);
    body_.look_at(part);
    body_aimed_ = true;
  }
  body_.draw(ui, input, rect);
}

void FaultAids::draw(kit::Ui& ui, const kit::Rect& area) {
  kit::Rect rest = area;
  kit::Rect words = rest.take_left(std::min(ui.em(300.0F), rest.w * 0.34F), ui.px(kit::Measure::gutter));
  {
    kit::PanelScope panel(ui, "fault.aid", words,
                          {.caption = with_check_ ? tr("How to do this check") : tr("Wiring diagram")});
    if (with_check_) {
      text(ui, tr(check_.title), {.type = kit::Type::title, .id = "fault.aid.title"});
      for (const std::string& key : check_.cautions) {
        const auto found = library_.cautions.find(key);
        if (found == library_.cautions.end()) continue;
        caution_box(ui, "fault.aid.caution." + key, tr(found->second.text),
                    kit::find_sign(found->second.sign).value_or(kit::SignId::w001));
        gap(ui, 6.0F);
      }
      step_text(ui, tr(check_.how));
      gap(ui, 6.0F);
      text(ui, tr("Good: {reading}", {{"reading", tr(check_.expected)}}), {.id = "fault.aid.expected"});
    }
    gap(ui, 10.0F);
    if (what_ == What::diagram) {
      text(ui,
           tr("This machine is simulated and in order. Choose an instrument, put its probes on the marked "
              "terminals and see what good looks like. On a real machine local rules and licensed people "
              "come first."),
           {.type = kit::Type::caption, .colour = kit::Token::ink2});
      gap(ui, 8.0F);
    }
    if (button(ui, "fault.aid.close", tr("Back to the check"),
               {.kind = kit::ButtonKind::primary, .place = {.w = -1.0F}}))
      return close();
  }
  if (what_ == What::diagram)
    draw_good_machine(ui, rest);
  else
    draw_body(ui, rest);
}

}  // namespace stirbench::desk::screens
