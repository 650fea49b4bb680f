#include "app/desk/screens/sheets/machine_sheet.h"

#include <cmath>
#include <utility>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/shell/app.h"
#include "app/desk/views/machine/machine_view.h"
#include "app/desk/views/machine/sample_states.h"
#include "app/desk/views/panel/panel.h"
#include "app/desk/views/trend/trend.h"

namespace stirbench::desk {

namespace {

// A made-up run for the chart: warm, addition, heat, hold, chill.
void fill_trend(TrendLog& log) {
  log.phase(0.0, "warm");
  for (std::uint64_t second = 0; second <= 5400; ++second) {
    const auto t = static_cast<float>(second);
    float product = 5.0F + t * 0.022F;
    if (second > 1600) product = 36.0F + (t - 1600.0F) * 0.0245F;
    if (second > 3600) product = 85.0F;
    if (second > 3660) product = 4.0F + 81.0F * std::exp(-(t - 3660.0F) / 700.0F);
    const bool heats = second < 3630 && (second < 1600 || second > 1780);
    const bool chills = second > 3660;
    TrendSample sample;
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
  log.mark({1600.0, TrendMarkKind::lid, tr("Lid opened")});
  log.mark({1602.0, TrendMarkKind::alarm, tr("Lid guard open")});
  log.mark({1660.0, TrendMarkKind::pour, tr("Sugar 6.4 kg")});
  log.mark({1700.0, TrendMarkKind::pour, tr("Cream 4.2 kg")});
}

class MachineSheet : public Screen {
 public:
  explicit MachineSheet(const ScreenArgs& args)
      : machine_(sample_machine()), states_(sample_states(machine_)), motions_(states_.size()) {
    const auto found = args.find("state");
    for (std::size_t i = 0; found != args.end() && i < states_.size(); ++i) {
      if (states_[i].name == found->second) shown_ = static_cast<int>(i);
    }
    fill_trend(log_);
  }
  const char* name() const override { return "machine-sheet"; }
  TopBar top_bar(Ui&) override { return {tr("Machine sheet"), tr("states set by hand"), "", true}; }
  void draw(Ui& ui) override {
    if (shown_ >= 0) {
      draw_one(ui);
    } else {
      draw_all(ui);
    }
  }
  bool animating() const override {
    for (std::size_t i = 0; i < states_.size(); ++i) {
      const bool seen = shown_ < 0 || static_cast<std::size_t>(shown_) == i;
      if (seen && machine_animating(states_[i].state, motions_[i], true, reduced_)) return true;
    }
    return false;
  }

 private:
  MachineWants draw_state(Ui& ui, std::size_t index, const Rect& rect, bool large) {
    reduced_ = ui.reduced_motion;
    motions_[index].advance(machine_, states_[index].state, ui.dt_s, true, ui.reduced_motion);
    return draw_machine(
        ui,
        {.machine = machine_, .state = states_[index].state, .motion = motions_[index], .interactive = large},
        rect);
  }

  void draw_all(Ui& ui) {
    std::size_t index = 0;
    for (const Rect& row : ui.area.rows(2, ui.px(Measure::gap))) {
      for (const Rect& cell : row.columns(4, ui.px(Measure::gap))) {
        if (index >= states_.size()) return;
        draw_state(ui, index, cell, false);
        text_at(ui, ui.draw, {cell.x + ui.px(8.0F), cell.y + ui.px(6.0F)}, tr(states_[index].title),
                {.type = Type::caption, .colour = Token::ink2});
        if (spot(ui, "sheet.state." + states_[index].name, tr(states_[index].title), cell).pressed)
          shown_ = static_cast<int>(index);
        ++index;
      }
    }
  }

  // As on a training screen: machine, panel, trend.
  void draw_one(Ui& ui) {
    Rect area = ui.area;
    const float gutter = ui.px(Measure::gutter);
    Rect right = area.take_right(ui.em(406.0F) > area.w * 0.45F ? area.w * 0.45F : ui.em(406.0F), gutter);
    const Rect trend = area.take_bottom(ui.px(192.0F), gutter);
    auto& state = states_[static_cast<std::size_t>(shown_)].state;
    const Rect stage = area;
    ui.draw->AddRect(stage.min(), stage.max(), ui.colour(Token::line), ui.px(Measure::corner_panel));
    const MachineWants wants = draw_state(ui, static_cast<std::size_t>(shown_), stage.inset(1.0F), true);
    apply(hands_of(wants, state), state);
    apply(draw_panel(ui, panel_, {.machine = machine_, .state = state},
                     right.take_top(std::min(panel_height(ui, right.w), right.h * 0.7F), gutter)),
          state);
    {
      const PanelScope panel(ui, "sheet.trend", trend,
                             {.caption = tr("Temperature and power"), .scroll = false});
      const TrendWants asked =
          draw_trend(ui, {.log = log_, .cursor_s = cursor_s_, .scrub = true}, panel.inner());
      if (asked.cursor_s) cursor_s_ = *asked.cursor_s;
    }
    const PanelScope panel(ui, "sheet.list", right, {.caption = tr("States")});
    for (std::size_t i = 0; i < states_.size(); ++i) {
      if (list_row(ui, "sheet.state." + states_[i].name,
                   {.title = tr(states_[i].title), .selected = shown_ == static_cast<int>(i)}))
        shown_ = static_cast<int>(i);
    }
  }

  static void apply(const std::vector<bench::Action>& actions, bench::State& state) {
    plant::Fittings& f = state.plant.fittings;
    for (const bench::Action& action : actions) {
      using Kind = bench::ActionKind;
      if (action.kind == Kind::open_lid) f.lid_open = true;
      if (action.kind == Kind::close_lid) f.lid_open = false;
      if (action.kind == Kind::open_shaft_cover) f.shaft_cover_open = true;
      if (action.kind == Kind::close_shaft_cover) f.shaft_cover_open = false;
      if (action.kind == Kind::turn_draw_valve) f.draw_opening_norm = action.number;
      if (action.kind == Kind::set_target) state.control.target_degC = action.number;
      if (action.kind == Kind::press) state.control.alarms = {};
    }
  }

  bench::Machine machine_;
  std::vector<SampleState> states_;
  std::vector<MachineMotion> motions_;
  TrendLog log_;
  PanelState panel_;
  double cursor_s_ = -1.0;
  int shown_ = -1;
  bool reduced_ = false;
};

}  // namespace

std::unique_ptr<Screen> make_machine_sheet(const ScreenArgs& args) {
  return std::make_unique<MachineSheet>(args);
}

}  // namespace stirbench::desk
