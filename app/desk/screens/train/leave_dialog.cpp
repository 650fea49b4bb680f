#include "app/desk/screens/train/leave_dialog.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;

LeaveAnswer draw_leave_dialog(kit::Ui& ui, const work::LiveRun& run) {
  LeaveAnswer answer = LeaveAnswer::none;
  kit::DialogScope dialog(ui, "train.leave", tr("Leave this run?"));
  text(ui, run.lesson() != nullptr ? tr("The run ends here and is scored as it stands.")
                                   : tr("The run ends here. A free run is not kept."));
  gap(ui, 8.0F);
  if (button(ui, "train.leave.stay", tr("Stay"), {.kind = kit::ButtonKind::primary}))
    answer = LeaveAnswer::stay;
  same_line(ui);
  if (button(ui, "train.leave.score", tr("End and look back"))) answer = LeaveAnswer::look_back;
  same_line(ui);
  if (button(ui, "train.leave.go", tr("Leave"))) answer = LeaveAnswer::leave;
  if (dialog.dismissed()) answer = LeaveAnswer::stay;
  return answer;
}

}  // namespace stirbench::desk::screens
