#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"
#include "app/desk/screens/train/at_hand.h"
#include "app/desk/screens/train/body_choices.h"
#include "app/desk/screens/train/injury_sheet.h"
#include "app/desk/screens/train/instructor_panel.h"
#include "app/desk/screens/train/now_card.h"
#include "app/desk/screens/train/part_hands.h"
#include "app/desk/screens/train/pointing.h"
#include "app/desk/screens/train/speed_bar.h"
#include "app/desk/views/body/body_view.h"
#include "app/desk/views/diagram/wiring_panel.h"
#include "app/desk/views/machine/machine_view.h"
#include "app/desk/views/machine/view_switch.h"
#include "app/desk/views/panel/alarm_sheet.h"
#include "app/desk/views/panel/panel.h"
#include "app/desk/views/trend/trend.h"
#include "app/desk/work/run/pacing.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// The machine on its stage, its own panel, the Now card, things at hand and the trend: one run, live.
class Train final : public Screen {
 public:
  explicit Train(work::Desk& desk) : desk_(desk) {}
  const char* name() const override { return "train"; }

  TopBar top_bar(kit::Ui& ui) override {
    if (!desk_.run) return {tr("Train"), "", "", true};
    const work::LiveRun& run = *desk_.run;
    const double litres_m3 = run.state().plant.coefficients.volume_L * 1.0e-3;
    const std::string title = run.lesson() != nullptr ? tr(run.lesson()->title) : tr("Free run");
    return {title, tr(run_mode_name(run.mode())) + " · " + ui.shown(kit::Quantity::volume, litres_m3), tr("Leave"), true};
  }

  void draw_tools(kit::Ui& ui) override {
    if (!desk_.run || !pacing_) return;
    const bool runs = !desk_.run->frozen();
    if (runs) draw_speed_bar(ui, *pacing_, *desk_.run);
    // Instructors are people with a role, and roles hold where the records have a manager.
    if (!managed_) return;
    if (runs) same_line(ui);
    if (button(ui, "train.instructor", tr("Instructor"), {.selected = instructor_.open})) {
      if (instructor_.open && !desk_.run->frozen()) instructor_ = {};  // signs out too
      else open_instructor(instructor_, desk_);
    }
  }

  void draw_bar_middle(kit::Ui& ui, const kit::Rect& free) override {
    if (!desk_.run) return;
    const auto& state = desk_.run->state().control;
    const auto& recipes = desk_.run->machine().recipes;
    if (state.recipe < 0 || static_cast<std::size_t>(state.recipe) >= recipes.size()) return;
    std::vector<std::string> labels;
    for (const auto& phase : recipes[static_cast<std::size_t>(state.recipe)].phases) labels.push_back(tr(phase.title));
    const float width = std::min(free.w, ui.em(78.0F) * static_cast<float>(labels.size()));
    if (width < ui.em(44.0F) * static_cast<float>(labels.size())) return;
    beads(ui, "train.phases", labels, state.phase, {free.x + (free.w - width) * 0.5F, free.y, width, free.h});
  }

  void entered(kit::Ui& ui) override {
    if (!pacing_) pacing_ = std::make_unique<work::Pacing>([&clock = shell()] { return clock.now_s(); });
    pacing_->pause(false);
    try {
      managed_ = desk_.store && desk_.store->managed();
    } catch (const records::StoreError&) {
      managed_ = false;  // the run says by itself that nothing can be kept
    }
  }

  void draw(kit::Ui& ui) override {
    if (!desk_.run) {
      notice(ui, "train.none", kit::State::info, tr("No run is open. Choose a lesson or a free run first."));
      return;
    }
    step_frame(ui);
    kit::Rect area = ui.area;
    const float side_width = std::min(ui.em(406.0F), area.w * 0.46F);
    kit::Rect side = area.take_right(side_width, ui.px(kit::Measure::gutter));
    kit::Rect foot = area.take_bottom(std::min(ui.em(222.0F), area.h * 0.36F), ui.px(14.0F));
    const kit::Rect now = foot.take_left(std::min(ui.em(420.0F), foot.w * 0.52F), ui.px(14.0F));
    draw_stage(ui, area);
    draw_now(ui, now);
    draw_chart(ui, foot);
    draw_side(ui, side);
    point(ui);
    if (leaving_) ask_before_leaving(ui);
    if (desk_.run->state().injured && !desk_.run->finished()) tell_injury(ui);
    else end_when_over(ui);
  }

  bool animating() const override {
    if (!desk_.run || !pacing_) return false;
    return !pacing_->paused() && !desk_.run->finished() && !desk_.run->frozen();
  }

  bool may_leave(kit::Ui&) override {
    if (!desk_.run || desk_.run->finished()) return true;
    leaving_ = true;
    if (pacing_) pacing_->pause(true);
    return false;
  }

 private:
  // Advances the simulation by this frame's share; a rush stops at what needs the person.
  void step_frame(kit::Ui& ui) {
    work::LiveRun& run = *desk_.run;
    const bool running = !pacing_->paused() && !run.finished() && !run.state().injured && !run.frozen();
    constexpr double budget_s = 0.008;
    if (running) {
      pacing_->run_frame([&] { return step_once(ui); }, budget_s);
    }
    // A jump of more than a second leaves nothing to show on the way: lid and cover stand where they are now.
    const bool jumped = run.state().tick > shown_tick_ + bench::ticks_per_second;
    motion_.advance(run.machine(), run.state(), jumped ? 1.0 : ui.dt_s, running, ui.reduced_motion);
    shown_tick_ = run.state().tick;
  }

  // False stops a rush.
  bool step_once(kit::Ui& ui) {
    work::LiveRun& run = *desk_.run;
    const std::size_t before = run.history().size();
    const work::Attention attention = run.step();
    const auto& history = run.history();
    log_.record(run.machine(), run.state(), {history.data() + before, history.size() - before});
    for (std::size_t i = before; asks_ && i < history.size(); ++i) {
      if (is_pointing(history[i])) now_.pointed = pointed_at(body_.parts(), history[i].name, attention.kind == work::Attention::Kind::step_done);
    }
    if (run.over()) {
      if (run.state().injured) pacing_->pause(true);
      return false;
    }
    switch (attention.kind) {
      case work::Attention::Kind::none: break;
      case work::Attention::Kind::harm: ui.host.toast(kit::State::bad, tr(attention.text), 12.0); return false;
      case work::Attention::Kind::refused: ui.host.toast(kit::State::due, tr(attention.text)); return false;
      default: return false;
    }
    if (pacing_->rushing() && !run.something_runs()) {
      ui.host.toast(kit::State::info, tr("Nothing is running: the machine waits for you."));
      return false;
    }
    return true;
  }

  void hand_over(kit::Ui& ui, const std::vector<bench::Action>& actions) {
    for (const bench::Action& action : actions) {
      const std::string refusal = desk_.run->act(action);
      if (!refusal.empty()) ui.host.toast(kit::State::due, tr(refusal));
      if (pacing_->paused()) pacing_->pause(false);  // hands move only in running time
    }
  }

  // Beside the switch of views; at the top where the foot has no room for it and the tools of the solid view.
  bool wiring_at_foot(const kit::Ui& ui, const kit::Rect& stage) const { return stage.w >= ui.em(640.0F); }

  float wiring_width(const kit::Ui& ui) const { return button_width(ui, tr("Wiring diagram")); }

  // The diagram instead of the machine.
  void wiring_switch(kit::Ui& ui, const kit::Rect& stage) {
    const std::string label = tr("Wiring diagram");
    const float width = wiring_width(ui);
    const float height = ui.theme.control_height();
    const float margin = ui.px(10.0F);
    const bool foot = wiring_at_foot(ui, stage);
    const float beside = foot && body_.is_open() ? views::view_switch_width(ui) + ui.px(8.0F) : 0.0F;
    const float y = foot ? stage.bottom() - height - (desk_.solid_view && body_.is_open() ? margin : ui.px(4.0F)) : stage.y + margin;
    const kit::Rect rect{stage.right() - width - margin - beside, y, width, height};
    std::string hint = tr("Measure with instruments at the terminals");
    if (button_at(ui, "train.wiring", label, rect, {.hint = hint})) wiring_open_ = true;
  }

  void draw_wiring_stage(kit::Ui& ui, const kit::Rect& rect) {
    work::LiveRun& run = *desk_.run;
    const auto sheets = desk_.library.diagrams.find(run.machine().plant.id);
    static const std::vector<library::DiagramSheet> none;
    const views::WiringInput input{.machine = run.machine(), .state = run.state(), .sheets = sheets == desk_.library.diagrams.end() ? none : sheets->second, .show_live = !run.hides_faults(), .back_id = "train.wiring"};
    hand_over(ui, views::draw_wiring(ui, wiring_, input, rect));
    if (wiring_.back_asked) wiring_open_ = false;
  }

  void draw_stage(kit::Ui& ui, const kit::Rect& rect) {
    work::LiveRun& run = *desk_.run;
    if (wiring_open_) return draw_wiring_stage(ui, rect);
    open_body();
    views::MachineViewInput input{run.machine(),   run.state(), motion_, true, true,
                           pouring_title(), "machine",   run.draw_opening_norm()};
    input.asks_for_parts = asks_;
    if (asks_ && !body_.chosen().empty()) input.part_choices = {pointing_choice(body_.chosen())};
    else if (desk_.solid_view) input.part_choices = body_choices(body_.chosen(), run);
    const bool solid = desk_.solid_view && body_.is_open();
    const bool diagram = !run.machine().plant.circuit.empty();
    if (diagram && wiring_at_foot(ui, rect)) input.foot_taken = wiring_width(ui) + ui.px(4.0F);
    const views::MachineWants wants = solid ? body_.draw(ui, input, rect) : views::draw_machine(ui, input, rect);
    if (body_.is_open()) views::view_switch(ui, "train.view", desk_.solid_view, rect);
    if (diagram) wiring_switch(ui, rect);
    hand_over(ui, hands_of(wants, run.state()));
    if (wants.pour) pour_now(ui);
    if (wants.vat && pouring_title().empty()) {
      bench::Action spoon;
      spoon.kind = bench::ActionKind::take_sample;
      hand_over(ui, {spoon});
      at_hand_.sample_taken = true;
      at_hand_.sample_words = spoon_words(run.state());
    }
  }

  // The body belongs to the run's machine; without one the schematic stays.
  void open_body() {
    const std::string& id = desk_.run->machine().plant.id;
    if (body_of_ == id) return;
    body_of_ = id;
    body_.open(desk_.library, desk_.run->machine());
    ask_for_parts();
  }

  void ask_for_parts() {
    asks_ = body_.is_open() && asks_to_point(*desk_.run);
    if (!asks_) return;
    desk_.solid_view = true;
    at_hand_.group = HandGroup::point;
    at_hand_.pointable = &body_.parts();
  }

  // What is chosen in the list is shown in the picture; what is chosen in the picture is not named by the list.
  void choose_together() {
    if (asks_) show_listed(body_, at_hand_.point_part, listed_);
  }

  std::string pouring_title() const {
    if (!at_hand_.scale_open || at_hand_.kg <= 0.0) return "";
    const int index = desk_.run->machine().ingredient_index(at_hand_.ingredient);
    return index < 0 ? "" : desk_.run->machine().ingredients[static_cast<std::size_t>(index)].title;
  }

  void pour_now(kit::Ui& ui) {
    bench::Action pour;
    pour.kind = bench::ActionKind::pour;
    pour.name = at_hand_.ingredient;
    pour.number = at_hand_.kg;
    pour.degC = at_hand_.degC;
    pour.has_degC = true;
    hand_over(ui, {pour});
    at_hand_.kg = 0.0;
  }

  void draw_chart(kit::Ui& ui, const kit::Rect& rect) {
    kit::PanelScope panel(ui, "train.trend", rect, {.caption = tr("Temperature and power"), .scroll = false});
    views::draw_trend(ui, views::TrendInput{.log = log_}, panel.inner());
  }

  void draw_now(kit::Ui& ui, const kit::Rect& rect) {
    if (draw_now_card(ui, now_, *desk_.run, rect).finish) end_now(ui);
  }

  void draw_side(kit::Ui& ui, kit::Rect side) {
    work::LiveRun& run = *desk_.run;
    const float panel_h = std::min(views::panel_height(ui, side.w), side.h * 0.56F);
    const kit::Rect panel_rect = side.take_top(panel_h, ui.px(14.0F));
    hand_over(ui, views::draw_panel(ui, panel_, views::PanelInput{run.machine(), run.state()}, panel_rect));
    if (instructor_.open) instruct(ui, draw_instructor(ui, instructor_, desk_, side));
    else hand_over(ui, draw_at_hand(ui, at_hand_, run, side));
    choose_together();
    if (panel_.alarms_asked || at_hand_.alarms_asked) alarms_open_ = true;
    at_hand_.alarms_asked = false;
    if (alarms_open_ && !run.state().injured && !leaving_) {
      std::vector<bench::Action> touched;
      alarms_open_ = views::draw_alarm_sheet(ui, {run.machine(), run.state(), run.alarm_log(), desk_.library}, touched);
      hand_over(ui, touched);
    }
  }

  // Each thing takes effect with the next tick; one is run when the clock is stopped, so that the journal has it in order.
  void instruct(kit::Ui& ui, const std::vector<bench::Action>& actions) {
    for (const bench::Action& action : actions) {
      const std::string refusal = desk_.run->instruct(action);
      if (!refusal.empty()) ui.host.toast(kit::State::due, tr(refusal));
      else if (action.kind == bench::ActionKind::mark_observation) ui.host.toast(kit::State::good, tr("Kept with this moment."));
    }
  }

  // The ring and arrow at what the present step means, as long as the person wants them.
  void point(kit::Ui& ui) {
    const work::LiveRun& run = *desk_.run;
    if (now_.pointing && run.mode() != work::RunMode::test) {
      const std::string target = pointed_widget(run, ui.registry);
      if (target != ui.registry.pointed()) ui.registry.point_at(target);
    } else if (!ui.registry.pointed().empty()) {
      ui.registry.stop_pointing();
    }
  }

  // An injury stops the run; what it would have meant is said before anything else.
  void tell_injury(kit::Ui& ui) {
    leaving_ = false;
    switch (draw_injury_sheet(ui, *desk_.run)) {
      case InjuryAnswer::none: break;
      case InjuryAnswer::look_back: end_now(ui); break;
      case InjuryAnswer::try_again:
        desk_.run->finish();
        desk_.run = desk_.run->again(work::utc_now());
        begin_afresh(ui);
        break;
    }
  }

  void begin_afresh(kit::Ui& ui) {
    motion_ = {};
    panel_ = {};
    at_hand_ = {};
    ask_for_parts();
    instructor_ = {};
    now_ = {};
    log_.clear();
    wiring_ = {};
    shown_tick_ = 0;
    alarms_open_ = false;
    ui.registry.stop_pointing();
    pacing_->pause(false);
  }

  void end_when_over(kit::Ui& ui) {
    if (desk_.run && desk_.run->over() && !desk_.run->finished()) end_now(ui);
  }

  void end_now(kit::Ui& ui) {
    work::LiveRun& run = *desk_.run;
    run.finish();
    ui.registry.stop_pointing();
    if (!run.keeping_problem().empty()) ui.host.toast(kit::State::bad, run.keeping_problem(), 12.0);
    const auto& kept = run.attempt();
    desk_.debrief = work::DebriefRequest{run.journal_text(), run.lesson() != nullptr ? tr(run.lesson()->title) : tr("Free run"),
                                   kept ? kept->uid : "", kept ? kept->person : 0, kept ? kept->started_utc : ""};
    shell().replace("debrief");
  }

  void ask_before_leaving(kit::Ui& ui) {
    kit::DialogScope dialog(ui, "train.leave", tr("Leave this run?"));
    text(ui, desk_.run->lesson() != nullptr ? tr("The run ends here and is scored as it stands.")
                                            : tr("The run ends here. A free run is not kept."));
    gap(ui, 8.0F);
    if (button(ui, "train.leave.stay", tr("Stay"), {.kind = kit::ButtonKind::primary})) stay();
    same_line(ui);
    if (button(ui, "train.leave.score", tr("End and look back"))) {
      leaving_ = false;
      end_now(ui);
    }
    same_line(ui);
    if (button(ui, "train.leave.go", tr("Leave"))) {
      leaving_ = false;
      desk_.run->finish();
      ui.registry.stop_pointing();
      shell().back(true);
    }
    if (dialog.dismissed()) stay();
  }

  void stay() {
    leaving_ = false;
    if (pacing_) pacing_->pause(false);
  }

  work::Desk& desk_;
  std::unique_ptr<work::Pacing> pacing_;
  views::MachineMotion motion_;
  views::BodyView body_;
  std::string body_of_;
  bool asks_ = false;   // the lesson asks for parts to be pointed at
  std::string listed_;  // chosen in the list of parts a frame ago
  views::WiringState wiring_;
  bool wiring_open_ = false;
  views::PanelState panel_;
  AtHandState at_hand_;
  InstructorState instructor_;
  bool managed_ = false;
  NowCardState now_;
  views::TrendLog log_;
  std::uint64_t shown_tick_ = 0;
  bool leaving_ = false;
  bool alarms_open_ = false;
};

}  // namespace

std::unique_ptr<Screen> make_train(work::Desk& desk) { return std::make_unique<Train>(desk); }

}  // namespace stirbench::desk::screens
