#include <algorithm>
#include <cmath>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/band_switch.h"
#include "app/desk/screens/debrief/compare.h"
#include "app/desk/screens/debrief/score_list.h"
#include "app/desk/screens/debrief/treatment.h"
#include "app/desk/screens/screens.h"
#include "app/desk/views/body/body_view.h"
#include "app/desk/views/machine_view/machine_view.h"
#include "app/desk/views/machine_view/view_switch.h"
#include "app/desk/views/trend/trend.h"
#include "app/desk/work/debrief/debrief_model.h"
#include "app/library/reading/paths.h"
#include "app/reports/debrief_paper.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// Looking back at a run: drag along the trend and the machine is drawn as it was; criteria and events lead to
// their moments.
class Debrief final : public Screen {
 public:
  explicit Debrief(work::Desk& desk) : desk_(desk) { load(); }
  const char* name() const override { return "debrief"; }

  TopBar top_bar(kit::Ui&) override {
    return {tr("Looking back"), desk_.debrief ? desk_.debrief->title : "", tr("Back"), true};
  }

  void draw_tools(kit::Ui& ui) override {
    std::vector<std::string> sides = {tr("Score"), tr("What happened"), tr("Heat and cooling")};
    if (lesson_ != nullptr) sides.push_back(tr("Best run"));
    radio_row(ui, "debrief.side", sides, side_);
    if (lesson_ == nullptr) return;
    same_line(ui);
    if (button(ui, "debrief.again", tr("Run it again"), {.kind = kit::ButtonKind::primary})) {
      shell().replace("lesson", {{"lesson", lesson_->id}});
    }
  }

  void draw(kit::Ui& ui) override {
    if (model_.snapshots.empty()) {
      notice(ui, "debrief.none", kit::Status::bad,
             model_.problem.empty() ? tr("There is nothing to look back at.") : model_.problem);
      return;
    }
    kit::Rect area = ui.area;
    const kit::Rect side =
        area.take_right(std::min(ui.em(430.0F), area.w * 0.46F), ui.px(kit::Measure::gutter));
    const kit::Rect chart = area.take_bottom(std::min(ui.em(250.0F), area.h * 0.42F), ui.px(14.0F));
    draw_stage(ui, area);
    draw_chart(ui, chart);
    const double moment = draw_side(ui, side);
    if (moment >= 0.0) cursor_s_ = moment;
  }

 private:
  double draw_side(kit::Ui& ui, const kit::Rect& rect) {
    if (side_ == 0) return draw_score_list(ui, model_, rect);
    if (side_ == 3 && lesson_ != nullptr) {
      // Looked for once, when it is asked for: it plays a whole run.
      if (!looked_for_best_) {
        if (auto asked = work::best_run_question(desk_, *machine_, *lesson_, model_))
          best_.start(std::move(*asked));
      }
      looked_for_best_ = true;
      return draw_compare(ui, best_, model_, *lesson_, *machine_, cursor_s_, rect);
    }
    if (side_ == 1 || !model_.judge) return draw_event_list(ui, model_, *machine_, cursor_s_, rect);
    return draw_treatment(ui, *model_.judge, model_.snapshots.back(), shell().settings().rules_of, organism_,
                          rect);
  }

  void load() {
    if (!desk_.debrief) return;
    journal::Journal head;
    const journal::JournalProblem fault = journal::read_journal(desk_.debrief->journal_text, head);
    if (desk_.library.machines.count(head.header.machine) == 0) {
      model_.problem = !fault.message.empty() ? fault.message
                                              : tr("The journal's machine {id} is not in the content.",
                                                   {{"id", head.header.machine}});
      return;
    }
    machine_ = std::make_unique<machine::Machine>(desk_.library.machine(head.header.machine));
    drawn_ = desk_.library.lesson(head.header.lesson, head.header.start.seed);
    lesson_ = drawn_ ? &*drawn_ : nullptr;
    body_.open(desk_.library, *machine_);
    model_ = work::build_debrief(*machine_, lesson_, desk_.debrief->journal_text);
    side_ = lesson_ == nullptr ? 1 : 0;
    std::size_t event = 0;
    for (const machine::State& state : model_.snapshots) {
      const std::size_t first = event;
      while (event < model_.history.size() && model_.history[event].tick <= state.tick) ++event;
      log_.record(*machine_, state, {model_.history.data() + first, event - first});
    }
    cursor_s_ = model_.end_s();
    pdf_hint_ = tr("Writes score, trend, events and cautions into a file.");
  }

  work::SpreadQuestion question() const {
    return {*machine_, model_.journal.header, model_.journal.acts, model_.snapshots.back().tick};
  }

  std::string why_not_branch() const {
    if (!model_.problem.empty()) return tr("This run cannot be taken up again: its journal does not verify.");
    if (model_.at(cursor_s_).injured) return tr("Choose a moment before somebody was hurt.");
    if (cursor_s_ >= model_.end_s()) return tr("Choose a moment before the end.");
    return {};
  }

  // A new practice run that has done, up to the cursor, what this one did.
  void branch(kit::Ui& ui) {
    work::LiveRun::Setup setup;
    setup.machine = *machine_;
    if (lesson_ != nullptr) {
      setup.lesson = *lesson_;
      setup.lesson->start = model_.journal.header.start;
    } else {
      setup.free_start = model_.journal.header.start;
    }
    setup.mode = work::RunMode::retry;
    setup.program = STIRBENCH_VERSION;
    setup.started_utc = work::utc_now();
    // Whose computer it is now; the run that is looked at may be another person's.
    setup.person = desk_.person.id;
    setup.store = desk_.store.get();
    const auto tick = static_cast<std::uint64_t>(std::llround(cursor_s_ * machine::ticks_per_second));
    setup.branch = training::LessonRun::Branch{desk_.debrief->attempt_uid, model_.journal.acts, tick};
    try {
      desk_.run = std::make_unique<work::LiveRun>(std::move(setup));
      shell().replace("train");
    } catch (const std::exception& error) {
      ui.host.toast(kit::Status::bad, error.what());
    }
  }

  void write_pdf(kit::Ui& ui) {
    try {
      reports::DebriefHead head;
      head.when_utc = desk_.debrief->when_utc;
      if (desk_.store) {
        head.site = desk_.store->site();
        if (const auto person = desk_.store->person(desk_.debrief->person)) head.person = person->name;
      }
      const std::string folder = desk_.data_dir + "/exports";
      std::string stamp = head.when_utc.empty() ? work::utc_now() : head.when_utc;
      std::erase(stamp, ':');
      const std::string file =
          folder + "/run-" + (lesson_ != nullptr ? lesson_->id : "free") + "-" + stamp + ".pdf";
      std::string failed = library::make_writable(folder);
      if (failed.empty())
        failed = library::write_atomically(
            file, reports::debrief_pdf(desk_.library, *machine_, lesson_, desk_.debrief->journal_text, head));
      if (failed.empty())
        ui.host.toast(kit::Status::good, tr("Written: {file}", {{"file", file}}), 10.0);
      else
        ui.host.toast(kit::Status::bad, failed, 10.0);
    } catch (const std::exception& error) {
      ui.host.toast(kit::Status::bad, error.what(), 10.0);
    }
  }

  void draw_stage(kit::Ui& ui, const kit::Rect& rect) {
    const machine::State& state = model_.at(cursor_s_);
    views::MachineMotion motion;  // a moment stands still
    motion.advance(*machine_, state, 0.0, false, true);
    const views::MachineViewInput input{*machine_, state, motion, false, true, "", "debrief.machine"};
    if (desk_.solid_view && body_.is_open())
      body_.draw(ui, input, rect);
    else
      views::draw_machine(ui, input, rect);
    if (body_.is_open()) views::view_switch(ui, "debrief.view", desk_.solid_view, rect);
  }

  void draw_chart(kit::Ui& ui, const kit::Rect& rect) {
    // A run whose journal does not verify cannot be run again on other machines either.
    const bool offered = work::may_spread(model_.journal.header.mode) && model_.verified;
    const std::string words = tr("Drag along the trend to move through the run");
    kit::PanelScope panel(
        ui, "debrief.trend", rect,
        {.caption = offered ? BandSwitch::caption(ui, words, rect.w) : words, .scroll = false});
    kit::Rect inner = panel.inner();
    if (offered) inner = band_.draw(ui, panel, "", [this] { return question(); });
    kit::Rect foot = inner.take_bottom(ui.theme.control_height(), ui.px(4.0F));
    const std::string again = tr("Try again from here");
    const std::string paper = tr("PDF");
    const kit::Rect last =
        foot.take_right(std::min(button_width(ui, paper), foot.w * 0.2F), ui.px(kit::Measure::gap_small));
    const kit::Rect right =
        foot.take_right(std::min(button_width(ui, again), foot.w * 0.4F), ui.px(kit::Measure::gap));
    const views::TrendRequests wants =
        views::draw_trend(ui,
                          views::TrendInput{.log = log_,
                                            .from_s = 0.0,
                                            .to_s = std::max(1.0, model_.end_s()),
                                            .cursor_s = cursor_s_,
                                            .scrub = true,
                                            .id = "debrief.trend",
                                            .spread = band_.band()},
                          inner);
    if (wants.cursor_s) cursor_s_ = std::clamp(*wants.cursor_s, 0.0, model_.end_s());
    at(ui, foot.x, foot.y + ui.px(4.0F));
    text(ui,
         kit::show_duration(cursor_s_) + "  ·  " + tr(control::mode_name(model_.at(cursor_s_).control.mode)),
         {.type = kit::Type::body_bold, .wrap = -1.0F, .id = "debrief.moment"});
    at(ui, foot.x + ui.em(150.0F), foot.y);
    slider(ui, "debrief.slider", tr("Moment"), cursor_s_,
           {.min = 0.0,
            .max = std::max(1.0, model_.end_s()),
            .step = model_.every_s,
            .value_text = kit::show_duration(cursor_s_),
            .label_above = false,
            .place = {.w = std::max(ui.px(60.0F), foot.w - ui.em(150.0F))}});
    const std::string reason = why_not_branch();
    if (button_at(ui, "debrief.from_here", again, right, {.enabled = reason.empty(), .reason = reason}))
      branch(ui);
    if (button_at(ui, "debrief.pdf", paper, last, {.hint = pdf_hint_})) write_pdf(ui);
  }

  work::Desk& desk_;
  std::unique_ptr<machine::Machine> machine_;
  std::optional<training::Lesson> drawn_;  // the lesson with this run's draws
  const training::Lesson* lesson_ = nullptr;
  work::DebriefModel model_;
  views::TrendLog log_;
  views::BodyView body_;
  double cursor_s_ = 0.0;
  int side_ = 0;
  int organism_ = 0;  // 0: all
  work::BestRunSearch best_{[this] { shell().wake(); }};
  bool looked_for_best_ = false;
  std::string pdf_hint_;
  BandSwitch band_{"debrief.band", [this] { shell().wake(); }};
};

}  // namespace

std::unique_ptr<Screen> make_debrief(work::Desk& desk) { return std::make_unique<Debrief>(desk); }

}  // namespace stirbench::desk::screens
