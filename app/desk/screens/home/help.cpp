#include "app/desk/kit/signs/signs.h"
#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/screens/screens.h"
#include "sim_core/explore/invariants.h"

namespace stirbench::desk::screens {

using kit::tr;

namespace {

class Help final : public Screen {
 public:
  explicit Help(work::Desk& desk) : desk_(desk) {}
  const char* name() const override { return "help"; }
  TopBar top_bar(kit::Ui&) override {
    return {tr("Help"), std::string("Stirbench ") + STIRBENCH_VERSION, "", true};
  }

  void draw(kit::Ui& ui) override {
    const float width = std::min(ui.area.w, ui.em(820.0F));
    kit::PanelScope panel(ui, "help.panel",
                          {ui.area.x + (ui.area.w - width) * 0.5F, ui.area.y, width, ui.area.h}, {});
    title(ui, tr("What this is"));
    text(ui, tr("A simulated heated mixer. What you pour, press and open changes it as it would the real "
                "one: it warms at the pace its "
                "elements allow, stops when a guard opens, scorches when it is not stirred, and wears when "
                "it runs dry."));
    gap(ui, 12.0F);
    title(ui, tr("Working with it"));
    for (const std::string& line :
         {tr("The Now card says the next thing to do. Show me where points at it."),
          tr("Press things in the picture, or take them from the list At hand: both do the same."),
          tr("Solid view shows the machine as it stands in the room. Drag turns it, the wheel comes near, "
             "Shift and drag moves it; a click "
             "names a part and says what can be done with it."),
          tr("1×, 10×, 60× and 300× let time run faster; to my next step runs until the machine needs you."),
          tr("A run ends with a score. Drag along the trend to see the machine as it was at any moment.")}) {
      text(ui, "•  " + line);
    }
    gap(ui, 12.0F);
    title(ui, tr("Keyboard"));
    for (const std::string& line :
         {tr("Tab and Shift+Tab go from control to control; Enter or Space presses it."),
          tr("On the solid view, Shift and the arrow keys turn it, + and − come near and go away, Home fits "
             "it, Page Up "
             "and Page Down move the cut."),
          tr("Arrow keys move sliders and the debrief's moment. Escape goes back.")}) {
      text(ui, "•  " + line);
    }
    gap(ui, 12.0F);
    title(ui, tr("When a safety part fails"));
    draw_safety_faults(ui);
    gap(ui, 12.0F);
    title(ui, tr("Safety signs"));
    draw_signs(ui);
    gap(ui, 12.0F);
    title(ui, tr("What a pass means"));
    text(ui, tr("It shows what you did on the simulated machine, with evidence that replays. It is no "
                "licence and does not replace "
                "supervised work. The machine's own manual, local codes and licensed practice come first. "
                "Electrical and refrigerant "
                "work is for licensed people."));
    text(ui, tr("The machine heat-treats. Unless it is approved as a pasteuriser where it stands, it is not "
                "one."));
  }

 private:
  // What no longer protects when one safety part is broken or defeated, as the exploration of all states
  // found it.
  void draw_safety_faults(kit::Ui& ui) {
    text(ui, tr("Guards, keys and contactors are parts, and parts break. Every state of the controller was "
                "walked through with each of them "
                "broken or defeated. Below: what no longer holds then. That is why a guard is tried before a "
                "shift, and why hands go in only "
                "after locking off."));
    for (const library::SafetyFaultRow& row : desk_.library.safety_faults) {
      gap(ui, 4.0F);
      const std::string how_many = row.fall.empty()
                                       ? tr("everything still holds")
                                       : tr("{n} promises fall", {{"n", std::to_string(row.fall.size())}});
      if (list_row(ui, "help.fault." + row.fault,
                   {.title = tr(row.title) + (row.defeat ? " · " + tr("done on purpose") : ""),
                    .detail = tr(row.wiring),
                    .right = how_many,
                    .selected = opened_ == row.fault,
                    .chevron = true})) {
        opened_ = opened_ == row.fault ? "" : row.fault;
      }
      if (opened_ != row.fault) continue;
      for (const std::string& id : row.fall) {
        const int which = explore::find_invariant(id);
        if (which >= 0)
          status_mark(ui, kit::Status::bad,
                      tr(std::string(explore::invariant_words(static_cast<explore::Invariant>(which)))));
      }
    }
  }

  work::Desk& desk_;
  std::string opened_;

  // Every sign that is used here, with number and meaning; two columns.
  static void draw_signs(kit::Ui& ui) {
    text(ui, tr("Shapes and colours of ISO 3864, numbers and meanings of ISO 7010; the pictures are our own "
                "drawing. Yellow triangle: take "
                "care. Blue disc: you must. Red ring: you must not."));
    gap(ui, 6.0F);
    const float side = ui.em(52.0F);
    const float row = side + ui.px(10.0F);
    const float column = width_left(ui) * 0.5F;
    const ImVec2 corner = ImGui::GetCursorScreenPos();
    const float line = ui.theme.line_px(kit::Type::body);
    for (std::size_t i = 0; i < kit::sign_count; ++i) {
      const auto which = static_cast<kit::SignId>(i);
      const float x = corner.x + (i % 2 == 0 ? 0.0F : column);
      const std::size_t line_number = i / 2;
      const float y = corner.y + static_cast<float>(line_number) * row;
      kit::draw_sign(kit::current_draw(), which, {x, y, side, side});
      const float small = ui.em(30.0F);
      kit::draw_sign(kit::current_draw(), which,
                     {x + side + ui.px(8.0F), y + (side - small) * 0.5F, small, small});
      const float words_x = x + side + small + ui.px(18.0F);
      const float words_w = column - side - small - ui.px(26.0F);
      text_at(ui, kit::current_draw(), {words_x, y + side * 0.5F - line}, std::string(sign_number(which)),
              {.colour = kit::Token::ink2});
      text_at(ui, kit::current_draw(), {words_x, y + side * 0.5F},
              fitted(ui, tr(std::string(sign_meaning(which))), kit::Type::caption, words_w),
              {.type = kit::Type::caption});
    }
    constexpr std::size_t lines = (kit::sign_count + 1) / 2;
    at(ui, corner.x, corner.y + row * static_cast<float>(lines));
  }
};

}  // namespace

std::unique_ptr<Screen> make_help(work::Desk& desk) { return std::make_unique<Help>(desk); }

}  // namespace stirbench::desk::screens
