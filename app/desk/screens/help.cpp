#include "app/desk/screens/screens.h"
#include "app/desk/text/text.h"
#include "app/desk/ui/widgets.h"

namespace stirbench::desk {

namespace {

class Help final : public Screen {
 public:
  const char* name() const override { return "help"; }
  TopBar top_bar(Ui&) override { return {tr("Help"), std::string("Stirbench ") + STIRBENCH_VERSION, "", true}; }

  void draw(Ui& ui) override {
    const float width = std::min(ui.area.w, ui.em(820.0F));
    PanelScope panel(ui, "help.panel", {ui.area.x + (ui.area.w - width) * 0.5F, ui.area.y, width, ui.area.h}, {});
    title(ui, tr("What this is"));
    text(ui, tr("A simulated heated mixer. What you pour, press and open changes it as it would the real one: it warms at the pace its "
                "elements allow, stops when a guard opens, scorches when it is not stirred, and wears when it runs dry."));
    gap(ui, 12.0F);
    title(ui, tr("Working with it"));
    for (const std::string& line :
         {tr("The Now card says the next thing to do. Show me where points at it."),
          tr("Press things in the picture, or take them from the list At hand: both do the same."),
          tr("1×, 10×, 60× and 300× let time run faster; to my next step runs until the machine needs you."),
          tr("A run ends with a score. Drag along the trend to see the machine as it was at any moment.")}) {
      text(ui, "•  " + line);
    }
    gap(ui, 12.0F);
    title(ui, tr("Keyboard"));
    for (const std::string& line : {tr("Tab and Shift+Tab go from control to control; Enter or Space presses it."),
                                    tr("Arrow keys move sliders and the debrief's moment. Escape goes back.")}) {
      text(ui, "•  " + line);
    }
    gap(ui, 12.0F);
    title(ui, tr("What a pass means"));
    text(ui, tr("It shows what you did on the simulated machine, with evidence that replays. It is no licence and does not replace "
                "supervised work. The machine's own manual, local codes and licensed practice come first. Electrical and refrigerant "
                "work is for licensed people."));
    text(ui, tr("The machine heat-treats. Unless it is approved as a pasteuriser where it stands, it is not one."));
  }

};

}  // namespace

std::unique_ptr<Screen> make_help(Desk&) { return std::make_unique<Help>(); }

}  // namespace stirbench::desk
