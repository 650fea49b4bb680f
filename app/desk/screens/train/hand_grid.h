#pragma once

#include <string>
#include <vector>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/work/run/live_run.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"

namespace stirbench::desk::screens {

// The grid of the list at hand: buttons of one width, as many in a row as fit.
struct HandGrid {
  kit::Ui& ui;
  const work::LiveRun& run;
  std::vector<hands::Action>& out;
  float width = 0.0F;
  int columns = 3;
  int filled = 0;

  void place() {
    if (filled % columns != 0) same_line(ui);
    ++filled;
  }
  // The next button begins a new row.
  void new_row() { filled = 0; }
  // Words over the rows that follow.
  void heading(const std::string& words) {
    gap(ui, 4.0F);
    caption(ui, words);
    new_row();
  }

  // A button that does one action; disabled with the bench's own reason.
  bool act(const std::string& id, const std::string& label, const hands::Action& action) {
    place();
    const std::string reason = hands::why_not(run.machine(), run.state(), action);
    const bool pressed =
        button(ui, id, label, {.enabled = reason.empty(), .reason = kit::tr(reason), .place = {.w = width}});
    if (pressed) out.push_back(action);
    return pressed;
  }
};

// hand_groups.cpp: what belongs to safety (locks, energies, meter) and to cleaning (floor, bucket, what one
// wears).
void draw_safety_group(HandGrid& grid, bool& alarms_asked);
void draw_cleaning_group(HandGrid& grid);

}  // namespace stirbench::desk::screens
