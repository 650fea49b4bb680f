#include "app/desk/screens/screens.h"

#include <cmath>
#include <utility>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/views/machine_view/machine_view.h"
#include "app/desk/views/machine_view/sample_states.h"
#include "app/desk/views/panel/panel.h"
#include "app/desk/views/trend/trend.h"
#include "sim_core/hands/handles.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

// A made-up run for the chart: warm, addition, heat, hold, chill.
void fill_trend(views::TrendLog& log) {
  log.phase(0.0, "warm");
  for (std::uint64_t second = 0; second <= 5400; ++second) {
    const auto t = static_cast<float>(second);
    float product = 5.0F + t * 0.022F;
    if (second > 1600) product = 36.0F + (t - 1600.0F) * 0.0245F;
    if (second > 3600) product = 85.0F;
    if (second > 3660) product = 4.0F + 81.0F * std::exp(-(t - 3660.0F) / 700.0F);
    const bool heats = second < 3630 && (second < 1600 || second > 1780);
    const bool chills = second > 3660;
    views::TrendSample sample;
    sample.value = {product,
                    product + (heats ? 4.0F : -0.5F),
                    product + (heats    ? 16.0F
                               : chills ? -9.0F
                                        : 0.0F),
                    heats ? (second > 3590 ? 2000.0F : 6000.0F) : 0.0F,
                    chills ? 2600.0F : 0.0F,
                    second > 1600 && second < 1780 ? 0.0F : 380.0F};
    log.add(second, sample);
  }
  log.phase(1560.0, "add");
  log.phase(1780.0, "heat");
  log.phase(3600.0, "hold");
  log.phase(3660.0, "chill");
  log.mark({1600.0, views::TrendMarkKind::lid, tr("Lid opened")});
  log.mark({1602.0, views::TrendMarkKind::alarm, tr("Lid guard open")});
  log.mark({1660.0, views::TrendMarkKind::pour, tr("Sugar 6.4 kg")});
  log.mark({1700.0, views::TrendMarkKind::pour, tr("Cream 4.2 kg")});
}

class MachineSheet : public Screen {
 public:
  explicit MachineSheet(const ScreenArgs& args)
      : machine_(views::sample_machine()), states_(views::sample_states(machine_)), motions_(states_.size()) {
    const auto found = args.find("state");
    for (std::size_t i = 0; found != args.end() && i < states_.size(); ++i) {
      if (states_[i].name == found->second) shown_ = static_cast<int>(i);
    }
    fill_trend(log_);
  }
  const char* name() const override { return "machine-sheet"; }
  TopBar top_bar(kit::Ui&) override { return {tr("Machine sheet"), tr("states set by hand"), "", true}; }
  void draw(kit::Ui& ui) override {
    if (shown_ >= 0) {
      draw_one(ui);
    } else {
      draw_all(ui);
    }
  }
  bool animating() const override {
    for (std::size_t i = 0; i < states_.size(); ++i) {
      const bool seen = shown_ < 0 || static_cast<std::size_t>(shown_) == i;
      if (seen && views::machine_animating(states_[i].state, motions_[i], true, reduced_)) return true;
    }
    return false;
  }

 private:
  views::MachineRequests draw_state(kit::Ui& ui, std::size_t index, const kit::Rect& rect, bool large) {
    reduced_ = ui.reduced_motion;
    motions_[index].advance(machine_, states_[index].state, ui.dt_s, true, ui.reduced_motion);
    return views::draw_machine(
        ui,
        {.machine = machine_, .state = states_[index].state, .motion = motions_[index], .interactive = large},
        rect);
  }

  void draw_all(kit::Ui& ui) {
    std::size_t index = 0;
    for (const kit::Rect& row : ui.area.rows(2, ui.px(kit::Measure::gap))) {
      for (const kit::Rect& cell : row.columns(4, ui.px(kit::Measure::gap))) {
        if (index >= states_.size()) return;
        draw_state(ui, index, cell, false);
        text_at(ui, ui.draw, {cell.x + ui.px(8.0F), cell.y + ui.px(6.0F)}, tr(states_[index].title),
                {.type = kit::Type::caption, .colour = kit::Token::ink2});
        if (spot(ui, "sheet.state." + states_[index].name, tr(states_[index].title), cell).pressed)
          shown_ = static_cast<int>(index);
        ++index;
      }
    }
  }

  // As on a training screen: machine, panel, trend.
  void draw_one(kit::Ui& ui) {
    kit::Rect area = ui.area;
    const float gutter = ui.px(kit::Measure::gutter);
    kit::Rect right =
        area.take_right(ui.em(406.0F) > area.w * 0.45F ? area.w * 0.45F : ui.em(406.0F), gutter);
    const kit::Rect trend = area.take_bottom(ui.px(192.0F), gutter);
    auto& state = states_[static_cast<std::size_t>(shown_)].state;
    const kit::Rect stage = area;
    ui.draw->AddRect(stage.min(), stage.max(), ui.colour(kit::Token::line),
                     ui.px(kit::Measure::corner_panel));
    const views::MachineRequests wants =
        draw_state(ui, static_cast<std::size_t>(shown_), stage.inset(1.0F), true);
    apply(hands_of(wants, state), state);
    apply(
        views::draw_panel(ui, panel_, {.machine = machine_, .state = state},
                          right.take_top(std::min(views::panel_height(ui, right.w), right.h * 0.7F), gutter)),
        state);
    {
      const kit::PanelScope panel(ui, "sheet.trend", trend,
                                  {.caption = tr("Temperature and power"), .scroll = false});
      const views::TrendRequests asked =
          views::draw_trend(ui, {.log = log_, .cursor_s = cursor_s_, .scrub = true}, panel.inner());
      if (asked.cursor_s) cursor_s_ = *asked.cursor_s;
    }
    const kit::PanelScope panel(ui, "sheet.list", right, {.caption = tr("States")});
    for (std::size_t i = 0; i < states_.size(); ++i) {
      if (list_row(ui, "sheet.state." + states_[i].name,
                   {.title = tr(states_[i].title), .selected = shown_ == static_cast<int>(i)}))
        shown_ = static_cast<int>(i);
    }
  }

  static void apply(const std::vector<hands::Action>& actions, machine::State& state) {
    plant::Fittings& f = state.plant.fittings;
    for (const hands::Action& action : actions) {
      if (action.is(hands::open_lid)) f.lid_open = true;
      if (action.is(hands::close_lid)) f.lid_open = false;
      if (action.is(hands::open_shaft_cover)) f.shaft_cover_open = true;
      if (action.is(hands::close_shaft_cover)) f.shaft_cover_open = false;
      if (action.is(hands::turn_draw_valve)) f.draw_opening_norm = asked_value(action);
      if (action.is(hands::set_target)) state.control.target_degC = asked_value(action);
      if (action.is(hands::press)) state.control.alarms = {};
    }
  }

  machine::Machine machine_;
  std::vector<views::SampleState> states_;
  std::vector<views::MachineMotion> motions_;
  views::TrendLog log_;
  views::PanelState panel_;
  double cursor_s_ = -1.0;
  int shown_ = -1;
  bool reduced_ = false;
};

}  // namespace

std::unique_ptr<Screen> make_machine_sheet(const ScreenArgs& args) {
  return std::make_unique<MachineSheet>(args);
}

}  // namespace stirbench::desk::screens
