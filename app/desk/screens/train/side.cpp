#include "app/desk/screens/train/side.h"

#include <algorithm>

#include "app/desk/views/panel/alarm_sheet.h"

namespace stirbench::desk::screens {

namespace {

void append(std::vector<hands::Action>& all, const std::vector<hands::Action>& more) {
  all.insert(all.end(), more.begin(), more.end());
}

}  // namespace

SideWork TrainSide::draw(kit::Ui& ui, work::Desk& desk, bool alone, kit::Rect rect) {
  const work::LiveRun& run = *desk.run;
  const float panel_h = std::min(views::panel_height(ui, rect.w), rect.h * 0.56F);
  const kit::Rect panel_rect = rect.take_top(panel_h, ui.px(14.0F));
  SideWork done;
  append(done.hands,
         views::draw_panel(ui, panel_, views::PanelInput{run.machine(), run.state()}, panel_rect));
  if (instructor_.open)
    append(done.instructed, draw_instructor(ui, instructor_, desk, rect));
  else
    append(done.hands, draw_at_hand(ui, at_hand_, run, rect));
  if (panel_.alarms_asked || at_hand_.alarms_asked) alarms_open_ = true;
  at_hand_.alarms_asked = false;
  if (alarms_open_ && alone) {
    alarms_open_ =
        views::draw_alarm_sheet(ui, {run.machine(), run.state(), run.alarm_log(), desk.library}, done.hands);
  }
  return done;
}

void TrainSide::toggle_instructor(work::Desk& desk) {
  if (instructor_.open && !desk.run->frozen())
    instructor_ = {};
  else
    open_instructor(instructor_, desk);
}

void TrainSide::begin_afresh() {
  panel_ = {};
  at_hand_ = {};
  instructor_ = {};
  alarms_open_ = false;
}

}  // namespace stirbench::desk::screens
