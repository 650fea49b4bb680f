#pragma once

#include <string>
#include <string_view>

#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

// A modal dialog in the middle of the window over a veil; Tab stays inside; Escape and the cross ("ID.close")
// dismiss it. Draw its content while the scope lives. The caller decides for how many frames it is shown.
//
//   if (ask_) {
//     DialogScope dialog(ui, "leave", tr("Leave this batch?"));
//     text(ui, tr("The batch is kept up to here."));
//     if (button(ui, "leave.yes", tr("Leave"), {.kind = ButtonKind::primary})) { ... ask_ = false; }
//     if (dialog.dismissed()) ask_ = false;
//   }
class DialogScope {
 public:
  // width: unscaled pixels, grows with the text, never wider than the window.
  DialogScope(Ui& ui, std::string_view id, std::string_view title, float width = 460.0F);
  ~DialogScope();
  DialogScope(const DialogScope&) = delete;
  DialogScope& operator=(const DialogScope&) = delete;
  bool dismissed() const { return dismissed_; }

 private:
  Ui& ui_;
  bool dismissed_ = false;
};

// Words in a small box at the last control when it is hovered or has the keyboard.
void tooltip(Ui& ui, std::string_view words);

}  // namespace stirbench::desk::kit
