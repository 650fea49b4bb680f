#pragma once

#include <string>
#include <vector>

#include "app/desk/screens/train/at_hand.h"
#include "app/desk/views/body/body_view.h"
#include "app/desk/views/diagram/wiring_panel.h"
#include "app/desk/views/machine_view/machine_view.h"
#include "app/desk/work/desk.h"

namespace stirbench::desk::screens {

// The middle of the training screen: the machine as schematic or body, or its wiring diagram.
class TrainStage {
 public:
  // What moves in the picture goes on by a frame; `running`: simulated time does too.
  void advance(const kit::Ui& ui, const work::LiveRun& run, bool running);

  // Draws the desk's run and returns what hands did in the picture, in order. From `at_hand` comes what is on
  // the scale, which can be poured here; a spoonful taken here is shown there.
  std::vector<hands::Action> draw(kit::Ui& ui, work::Desk& desk, AtHandState& at_hand, const kit::Rect& rect);

  // The lesson asks for parts to be pointed at: these.
  bool asks_for_parts() const { return asks_; }
  const std::vector<library::BodyPart>& parts() const { return body_.parts(); }
  // What is chosen in the list is shown in the picture; what is chosen in the picture is not named by the
  // list.
  void choose_together(AtHandState& at_hand);

  // For another run of the same machine.
  void begin_afresh(work::Desk& desk, AtHandState& at_hand);

 private:
  void open_body(work::Desk& desk, AtHandState& at_hand);
  void ask_for_parts(work::Desk& desk, AtHandState& at_hand);
  std::vector<hands::Action> draw_diagram(kit::Ui& ui, work::Desk& desk, const kit::Rect& rect);
  void draw_wiring_button(kit::Ui& ui, bool solid_view, const kit::Rect& stage);

  views::MachineMotion motion_;
  machine::State seen_;  // what the views draw while they may not show everything
  views::BodyView body_;
  std::string body_of_;  // machine whose body is open
  bool asks_ = false;
  std::string listed_;  // chosen in the list of parts a frame ago
  views::WiringState wiring_;
  bool wiring_open_ = false;
  std::uint64_t shown_tick_ = 0;
};

}  // namespace stirbench::desk::screens
