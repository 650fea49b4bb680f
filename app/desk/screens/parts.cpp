#include <array>

#include "app/desk/machine_view/machine_view.h"
#include "app/desk/screens/screens.h"
#include "app/desk/text/text.h"
#include "app/desk/train/gauges.h"
#include "app/desk/ui/widgets.h"
#include "sim_core/bench/step.h"
#include "sim_core/plant/plant.h"

namespace stirbench::desk {

namespace {

struct Part {
  const char* id;
  const char* name;
  const char* purpose;
};

constexpr std::array<Part, 17> parts = {{
    {"lid", "Lid", "Closes the vat: keeps heat and steam in, and hands out while the agitator turns."},
    {"lid_guard", "Lid guard", "A magnet in the lid and a reed switch in the rim. Open lid: drive, pump and heat lose their power at once."},
    {"shaft_cover", "Shaft cover", "Covers the shaft's drive end. Its switch stops the machine as the lid's does."},
    {"vat", "Vat", "The upper bowl. It wants at least its minimum in it, and no more than its working volume."},
    {"well", "Well", "The small lower pot. Product is heated here and must keep flowing, or it burns onto the wall."},
    {"elements", "Heating elements", "Under the well. They give their power as long as the contactor is closed; a cut-out stops them when the wall gets too hot."},
    {"chiller", "Chiller", "Compressor, condenser and an evaporator around vat and well: takes the heat out again."},
    {"agitator", "Agitator", "Stands on the shaft and keeps vat and wall moving, for even heat and against lumps."},
    {"shaft", "Shaft and shaft sleeve", "The shaft rises through a stationary sleeve, so that no seal turns in the product."},
    {"sleeve_cap", "Sleeve cap", "Closes the sleeve's top so that product cannot run down into the shaft."},
    {"bushings", "Bushings", "One in the agitator's foot, one at the shaft's end. Product lubricates them; dry running ruins them early. Wear parts."},
    {"pump", "Circulation pump", "Driven with the agitator. Lifts product from the well so that what is heated keeps flowing."},
    {"draw_valve", "Draw valve", "Plunger, spring, O-rings and handle. The further the handle is pulled, the faster it flows."},
    {"hose", "Transfer hose", "With a clamp fitting, leads product from the draw valve into a pail or a batch freezer."},
    {"freezer", "Batch freezer", "A lying cylinder with its own chiller. The dasher scrapes the wall and beats air in. It wants a charge within its marks."},
    {"rinse_gun", "Rinse gun", "Washes the vat."},
    {"panel", "Machine panel", "Keys, display, clock and recipes. Stop always stops; it clears an alarm only when its cause is right."},
}};

// The machine with names and purposes beside it.
class Parts final : public Screen {
 public:
  explicit Parts(const Desk& desk) : machine_(desk.library.machine(desk.machine_id)) {
    bench::StartSetup start;
    if (machine_.ingredient_index("water") >= 0) start.loaded.push_back({"water", 0.8 * machine_.plant.vat.working_L, 40.0});
    state_ = bench::initial_state(machine_, start);
    // For the gauges: the chiller ten minutes after its start on cold product.
    if (!start.loaded.empty()) start.loaded[0].degC = 8.0;
    chilling_ = bench::initial_state(machine_, start);
    for (int i = 0; i < 6000; ++i) plant::step(machine_.plant, chilling_.plant, {0.0, true, true}, bench::tick_s);
  }
  const char* name() const override { return "parts"; }
  TopBar top_bar(Ui&) override { return {tr("The machine, part by part"), machine_.plant.title, "", true}; }

  void draw(Ui& ui) override {
    Rect area = ui.area;
    const Rect side = area.take_right(std::min(ui.em(430.0F), area.w * 0.46F), ui.px(Measure::gutter));
    MachineMotion motion;
    motion.advance(machine_, state_, 0.0, false, true);
    draw_machine(ui, MachineViewInput{machine_, state_, motion, false, true, "", "parts.machine"}, area);
    PanelScope panel(ui, "parts.list", side, {.caption = tr("What is what")});
    for (const Part& part : parts) {
      text(ui, tr(part.name), {.type = Type::body_bold, .id = part.id});
      text(ui, tr(part.purpose), {.colour = Token::ink2});
      gap(ui, 8.0F);
    }
    caption(ui, tr("Gauges"));
    text(ui, tr("On the chiller's circuit, ten minutes after its start on cold product in this room. Work on the circuit is for "
                "licensed people; R-290 burns."), {.colour = Token::ink2});
    gap(ui, 4.0F);
    draw_gauges(ui, chilling_);
  }

 private:
  bench::Machine machine_;
  bench::State state_;
  bench::State chilling_;
};

}  // namespace

std::unique_ptr<Screen> make_parts(Desk& desk) { return std::make_unique<Parts>(desk); }

}  // namespace stirbench::desk
