#include <algorithm>
#include <memory>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/band_switch.h"
#include "app/desk/screens/screens.h"
#include "app/desk/screens/train/injury_sheet.h"
#include "app/desk/screens/train/leave_dialog.h"
#include "app/desk/screens/train/now_card.h"
#include "app/desk/screens/train/side.h"
#include "app/desk/screens/train/speed_bar.h"
#include "app/desk/screens/train/stage.h"
#include "app/desk/views/trend/trend.h"
#include "app/desk/work/debrief/why.h"
#include "app/desk/work/run/paced_run.h"
#include "sim_core/hands/handles.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// The machine on its stage, the Now card and the trend below it, panel and things at hand beside it: one run,
// live. This class lays the parts out and carries between them what was done; each part draws itself, and
// PacedRun lets the time go by.
class Train final : public Screen {
 public:
  explicit Train(work::Desk& desk) : desk_(desk) {}
  const char* name() const override { return "train"; }

  TopBar top_bar(kit::Ui& ui) override {
    if (!desk_.run) return {tr("Train"), "", "", true};
    const work::LiveRun& run = *desk_.run;
    const double litres_m3 = run.state().plant.coefficients.volume_L * 1.0e-3;
    const std::string title = run.lesson() != nullptr ? tr(run.lesson()->title) : tr("Free run");
    return {title, tr(run_mode_name(run.mode())) + " · " + ui.shown(kit::Quantity::volume, litres_m3),
            tr("Leave"), true};
  }

  void draw_tools(kit::Ui& ui) override {
    if (!desk_.run || !paced_) return;
    const bool runs = !desk_.run->frozen();
    if (runs) draw_speed_bar(ui, paced_->pacing(), *desk_.run);
    // Instructors are people with a role, and roles hold where the records have a manager.
    if (!managed_) return;
    if (runs) same_line(ui);
    if (button(ui, "train.instructor", tr("Instructor"), {.selected = side_.instructing()}))
      side_.toggle_instructor(desk_);
  }

  void draw_bar_middle(kit::Ui& ui, const kit::Rect& free) override {
    if (!desk_.run) return;
    const auto& state = desk_.run->state().control;
    const auto& recipes = desk_.run->machine().recipes;
    if (state.recipe < 0 || static_cast<std::size_t>(state.recipe) >= recipes.size()) return;
    std::vector<std::string> labels;
    for (const auto& phase : recipes[static_cast<std::size_t>(state.recipe)].phases)
      labels.push_back(tr(phase.title));
    const float width = std::min(free.w, ui.em(78.0F) * static_cast<float>(labels.size()));
    if (width < ui.em(44.0F) * static_cast<float>(labels.size())) return;
    beads(ui, "train.phases", labels, state.phase, {free.x + (free.w - width) * 0.5F, free.y, width, free.h});
  }

  void entered(kit::Ui&) override {
    if (!paced_) paced_ = std::make_unique<work::PacedRun>([&clock = shell()] { return clock.now_s(); });
    paced_->pacing().pause(false);
    try {
      managed_ = desk_.store && desk_.store->managed();
    } catch (const records::StoreError&) {
      managed_ = false;  // the run says by itself that nothing can be kept
    }
  }

  void draw(kit::Ui& ui) override {
    if (!desk_.run) {
      notice(ui, "train.none", kit::Status::info, tr("No run is open. Choose a lesson or a free run first."));
      return;
    }
    let_time_go_by(ui);
    kit::Rect area = ui.area;
    const float side_width = std::min(ui.em(406.0F), area.w * 0.46F);
    const kit::Rect side = area.take_right(side_width, ui.px(kit::Measure::gutter));
    kit::Rect foot = area.take_bottom(std::min(ui.em(222.0F), area.h * 0.36F), ui.px(14.0F));
    const kit::Rect now = foot.take_left(std::min(ui.em(420.0F), foot.w * 0.52F), ui.px(14.0F));
    hand_over(ui, stage_.draw(ui, desk_, side_.at_hand(), area));
    const NowCardRequests asked = draw_now_card(ui, now_, *desk_.run, now);
    if (asked.rung) desk_.run->note_rung(*asked.rung);
    if (asked.finish) end_now(ui);
    draw_chart(ui, foot);
    draw_side(ui, side);
    point(ui);
    if (asked.again) try_again(ui);
    if (asked.rewind) rewind(ui);
    if (leaving_) ask_before_leaving(ui);
    if (desk_.run->state().injured && !desk_.run->finished())
      tell_injury(ui);
    else
      end_when_over(ui);
  }

  bool animating() const override {
    if (!desk_.run || !paced_) return false;
    return !paced_->pacing().paused() && !desk_.run->finished() && !desk_.run->frozen();
  }

  bool may_leave(kit::Ui&) override {
    if (!desk_.run || desk_.run->finished()) return true;
    leaving_ = true;
    if (paced_) paced_->pacing().pause(true);
    return false;
  }

 private:
  // This frame's share of the run, and what the person is told of it.
  void let_time_go_by(kit::Ui& ui) {
    using Kind = work::Attention::Kind;
    const bool running = paced_->goes(*desk_.run);
    const work::PacedRun::News news = paced_->run_frame(*desk_.run);
    stage_.advance(ui, *desk_.run, running);
    if (news.pointed && stage_.asks_for_parts())
      now_.pointed = pointed_at(stage_.parts(), news.pointed->part, news.pointed->right);
    switch (news.attention.kind) {
      case Kind::harm: ui.host.toast(kit::Status::bad, tr(news.attention.text), 12.0); break;
      case Kind::refused: ui.host.toast(kit::Status::due, tr(news.attention.text)); break;
      case Kind::person: ui.host.toast(kit::Status::info, tr(news.attention.text), 12.0); break;
      case Kind::idle:
        ui.host.toast(kit::Status::info, tr("Nothing is running: the machine waits for you."));
        break;
      default: break;  // the screen shows it anyway
    }
    tell_missed(ui);
  }

  // What has just been missed, for a while; in a test it is said afterwards. An injury has its own sheet.
  void tell_missed(kit::Ui& ui) {
    const work::LiveRun& run = *desk_.run;
    const training::Scorer* scorer = run.scorer();
    if (scorer == nullptr || run.mode() == work::RunMode::test) return;
    const std::vector<int>& missed = scorer->missed_so_far();
    if (missed_told_ >= missed.size()) return;
    const training::ScoreCard card = run.card();
    for (; missed_told_ < missed.size(); ++missed_told_) {
      const training::CriterionResult& one = card.criteria[static_cast<std::size_t>(missed[missed_told_])];
      if (!run.state().injured)
        ui.host.toast(one.must_pass ? kit::Status::bad : kit::Status::due,
                      work::missed_in_brief(one, ui.units), 8.0);
    }
  }

  void hand_over(kit::Ui& ui, const std::vector<hands::Action>& actions) {
    for (const std::string& refusal : paced_->hand_over(*desk_.run, actions))
      ui.host.toast(kit::Status::due, tr(refusal));
  }

  // Each thing takes effect with the next tick; one is run when the clock is stopped, so that the journal has
  // it in order.
  void instruct(kit::Ui& ui, const std::vector<hands::Action>& actions) {
    for (const hands::Action& action : actions) {
      const std::string refusal = desk_.run->instruct(action);
      if (!refusal.empty())
        ui.host.toast(kit::Status::due, tr(refusal));
      else if (action.is(hands::mark_observation))
        ui.host.toast(kit::Status::good, tr("Kept with this moment."));
    }
  }

  void draw_chart(kit::Ui& ui, const kit::Rect& rect) {
    // A lesson's run is looked into afterwards.
    const work::LiveRun& run = *desk_.run;
    const bool offered = run.lesson() == nullptr && run.mode() != work::RunMode::test;
    const bool display_only = run.senses_only();
    const std::string words = display_only ? tr("What the display showed") : tr("Temperature and power");
    kit::PanelScope panel(
        ui, "train.trend", rect,
        {.caption = offered ? BandSwitch::caption(ui, words, rect.w) : words, .scroll = false});
    kit::Rect inner = panel.inner();
    if (offered)
      inner = band_.draw(ui, panel,
                         run.state().tick < machine::ticks_per_second ? tr("Nothing recorded yet") : "",
                         [&run] { return work::spread_question(run); });
    views::draw_trend(
        ui, views::TrendInput{.log = paced_->log(), .display_only = display_only, .spread = band_.band()},
        inner);
  }

  void draw_side(kit::Ui& ui, const kit::Rect& rect) {
    const bool alone = !desk_.run->state().injured && !leaving_;
    const SideWork done = side_.draw(ui, desk_, alone, rect);
    hand_over(ui, done.hands);
    instruct(ui, done.instructed);
    stage_.choose_together(side_.at_hand());
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
      case InjuryAnswer::try_again: try_again(ui); break;
      case InjuryAnswer::rewind: rewind(ui); break;
    }
  }

  // The lesson with a new seed: the very run that failed is not asked again.
  void try_again(kit::Ui& ui) {
    desk_.run->finish();
    const training::Lesson* lesson = desk_.run->lesson();
    desk_.run = desk_.run->again(work::utc_now(),
                                 lesson == nullptr ? std::nullopt : work::lesson_to_run(desk_, lesson->id));
    begin_afresh(ui);
  }

  // The attempt so far ends and is kept as it is; what follows is one of its own.
  void rewind(kit::Ui& ui) {
    desk_.run->finish();
    try {
      desk_.run = desk_.run->rewound(work::utc_now());
      begin_afresh(ui);
    } catch (const std::exception& error) {
      ui.host.toast(kit::Status::bad, error.what());
    }
  }

  void begin_afresh(kit::Ui& ui) {
    side_.begin_afresh();
    stage_.begin_afresh(desk_, side_.at_hand());
    now_ = {};
    missed_told_ = 0;
    band_.off();
    ui.registry.stop_pointing();
    paced_->begin_afresh();
  }

  void end_when_over(kit::Ui& ui) {
    if (desk_.run->over() && !desk_.run->finished()) end_now(ui);
  }

  void end_now(kit::Ui& ui) {
    work::LiveRun& run = *desk_.run;
    run.finish();
    ui.registry.stop_pointing();
    if (!run.keeping_problem().empty()) ui.host.toast(kit::Status::bad, run.keeping_problem(), 12.0);
    desk_.debrief = work::debrief_of(run);
    shell().replace("debrief");
  }

  void ask_before_leaving(kit::Ui& ui) {
    const LeaveAnswer answer = draw_leave_dialog(ui, *desk_.run);
    if (answer == LeaveAnswer::none) return;
    leaving_ = false;
    if (answer == LeaveAnswer::stay) paced_->pacing().pause(false);
    if (answer == LeaveAnswer::look_back) end_now(ui);
    if (answer == LeaveAnswer::leave) {
      desk_.run->finish();
      ui.registry.stop_pointing();
      shell().back(true);
    }
  }

  work::Desk& desk_;
  std::unique_ptr<work::PacedRun> paced_;  // from entered() on
  TrainStage stage_;
  TrainSide side_;
  NowCardState now_;
  std::size_t missed_told_ = 0;  // of the run's missed criteria, in their order
  BandSwitch band_{"train.band", [this] { shell().wake(); }};
  bool managed_ = false;  // the records have a manager
  bool leaving_ = false;  // asked to leave; the dialog is open
};

}  // namespace

std::unique_ptr<Screen> make_train(work::Desk& desk) { return std::make_unique<Train>(desk); }

}  // namespace stirbench::desk::screens
