#include "app/desk/screens/fault/fault_log.h"

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"

namespace stirbench::desk::screens {

using kit::tr;

void FaultLog::draw(kit::Ui& ui, const work::Desk& desk, work::FaultSearch& search) {
  kit::DialogScope dialog(ui, "fault.log.dialog", tr("A log of the batch"), 560.0F);
  if (fit_.poll() && fit_.answer() != nullptr) {
    search.take_log(fitting::log_finding(search.model(), fit_.answer()->explanations));
    open = false;
    return;
  }
  text(ui,
       tr("Every cause of this guide is put into the simulated machine and its batch laid beside the log."),
       {.colour = kit::Token::ink2});
  gap(ui, 6.0F);
  form_.draw(ui, desk, false);
  gap(ui, 8.0F);
  draw_log_problems(ui, "fault.log.problem", fit_.problems());
  if (fit_.busy()) {
    if (busy(ui, "fault.log.busy", tr("Each cause is tried beside the log."), fit_.progress())) fit_.cancel();
  } else {
    const std::string reason = form_.path.empty() ? tr("First a log: drop its file on the window.") : "";
    if (button(ui, "fault.log.start", tr("Take it as a finding"),
               {.kind = kit::ButtonKind::primary, .enabled = reason.empty(), .reason = reason})) {
      work::LogQuestion question = form_.question();
      question.fitted = false;
      question.causes = true;
      fit_.start(desk.library, question);
    }
    same_line(ui);
    if (button(ui, "fault.log.leave", tr("Close"))) open = false;
  }
  if (dialog.dismissed()) {
    fit_.cancel();
    open = false;
  }
}

}  // namespace stirbench::desk::screens
