#include <algorithm>
#include <cmath>

#include "app/desk/body/body_view.h"
#include "app/desk/debrief/score_list.h"
#include "app/desk/debrief/treatment.h"
#include "app/desk/machine_view/machine_view.h"
#include "app/desk/machine_view/view_switch.h"
#include "app/desk/run/debrief_model.h"
#include "app/desk/screens/screens.h"
#include "app/desk/text/text.h"
#include "app/desk/trend/trend.h"
#include "app/desk/ui/widgets.h"

namespace stirbench::desk {

namespace {

// Looking back at a run: drag along the trend and the machine is drawn as it was; criteria and events lead to their moments.
class Debrief final : public Screen {
 public:
  explicit Debrief(Desk& desk) : desk_(desk) { load(); }
  const char* name() const override { return "debrief"; }

  TopBar top_bar(Ui&) override {
    return {tr("Looking back"), desk_.debrief ? desk_.debrief->title : "", tr("Back"), true};
  }

  void draw_tools(Ui& ui) override {
    radio_row(ui, "debrief.side", {tr("Score"), tr("What happened"), tr("Heat and cooling")}, side_);
    if (lesson_ == nullptr) return;
    same_line(ui);
    if (button(ui, "debrief.again", tr("Run it again"), {.kind = ButtonKind::primary})) {
      ui.app.replace("lesson", {{"lesson", lesson_->id}});
    }
  }

  void draw(Ui& ui) override {
    if (model_.snapshots.empty()) {
      notice(ui, "debrief.none", State::bad, model_.problem.empty() ? tr("There is nothing to look back at.") : model_.problem);
      return;
    }
    Rect area = ui.area;
    const Rect side = area.take_right(std::min(ui.em(430.0F), area.w * 0.46F), ui.px(Measure::gutter));
    const Rect chart = area.take_bottom(std::min(ui.em(250.0F), area.h * 0.42F), ui.px(14.0F));
    draw_stage(ui, area);
    draw_chart(ui, chart);
    const double moment = draw_side(ui, side);
    if (moment >= 0.0) cursor_s_ = moment;
  }

 private:
  double draw_side(Ui& ui, const Rect& rect) {
    if (side_ == 0) return draw_score_list(ui, model_, rect);
    if (side_ == 1 || !model_.judge) return draw_event_list(ui, model_, *machine_, cursor_s_, rect);
    return draw_treatment(ui, *model_.judge, model_.snapshots.back(), ui.app.settings().rules_of, organism_, rect);
  }

  void load() {
    if (!desk_.debrief) return;
    bench::Journal head;
    const bench::JournalFault fault = bench::read_journal(desk_.debrief->journal_text, head);
    if (desk_.library.machines.count(head.header.machine) == 0) {
      model_.problem = !fault.message.empty() ? fault.message
                                              : tr("The journal's machine {id} is not in the content.", {{"id", head.header.machine}});
      return;
    }
    machine_ = std::make_unique<bench::Machine>(desk_.library.machine(head.header.machine));
    const auto found = desk_.library.lessons.find(head.header.lesson);
    lesson_ = found == desk_.library.lessons.end() ? nullptr : &found->second;
    body_.open(desk_.library, *machine_);
    model_ = build_debrief(*machine_, lesson_, desk_.debrief->journal_text);
    side_ = lesson_ == nullptr ? 1 : 0;
    std::size_t event = 0;
    for (const bench::State& state : model_.snapshots) {
      const std::size_t first = event;
      while (event < model_.history.size() && model_.history[event].tick <= state.tick) ++event;
      log_.record(*machine_, state, {model_.history.data() + first, event - first});
    }
    cursor_s_ = model_.end_s();
  }

  void draw_stage(Ui& ui, const Rect& rect) {
    const bench::State& state = model_.at(cursor_s_);
    MachineMotion motion;  // a moment stands still
    motion.advance(*machine_, state, 0.0, false, true);
    const MachineViewInput input{*machine_, state, motion, false, true, "", "debrief.machine"};
    if (desk_.solid_view && body_.is_open()) body_.draw(ui, input, rect);
    else draw_machine(ui, input, rect);
    if (body_.is_open()) view_switch(ui, "debrief.view", desk_.solid_view, rect);
  }

  void draw_chart(Ui& ui, const Rect& rect) {
    PanelScope panel(ui, "debrief.trend", rect, {.caption = tr("Drag along the trend to move through the run"), .scroll = false});
    Rect inner = panel.inner();
    const Rect foot = inner.take_bottom(ui.theme.control_height(), ui.px(4.0F));
    const TrendWants wants = draw_trend(
        ui, TrendInput{.log = log_, .from_s = 0.0, .to_s = std::max(1.0, model_.end_s()), .cursor_s = cursor_s_, .scrub = true,
                       .id = "debrief.trend"}, inner);
    if (wants.cursor_s) cursor_s_ = std::clamp(*wants.cursor_s, 0.0, model_.end_s());
    at(ui, foot.x, foot.y + ui.px(4.0F));
    text(ui, show_duration(cursor_s_) + "  ·  " + tr(control::mode_name(model_.at(cursor_s_).control.mode)),
         {.type = Type::body_bold, .wrap = -1.0F, .id = "debrief.moment"});
    at(ui, foot.x + ui.em(150.0F), foot.y);
    slider(ui, "debrief.slider", tr("Moment"), cursor_s_,
           {.min = 0.0, .max = std::max(1.0, model_.end_s()), .step = model_.every_s, .value_text = show_duration(cursor_s_),
            .label_above = false, .place = {.w = -1.0F}});
  }

  Desk& desk_;
  std::unique_ptr<bench::Machine> machine_;
  const training::Lesson* lesson_ = nullptr;
  DebriefModel model_;
  TrendLog log_;
  BodyView body_;
  double cursor_s_ = 0.0;
  int side_ = 0;
  int organism_ = 0;  // 0: all
};

}  // namespace

std::unique_ptr<Screen> make_debrief(Desk& desk) { return std::make_unique<Debrief>(desk); }

}  // namespace stirbench::desk
