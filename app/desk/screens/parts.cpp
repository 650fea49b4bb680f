#include <algorithm>

#include "app/desk/body/body_view.h"
#include "app/desk/machine_view/machine_view.h"
#include "app/desk/machine_view/view_switch.h"
#include "app/desk/screens/screens.h"
#include "app/desk/text/text.h"
#include "app/desk/train/gauges.h"
#include "app/desk/ui/widgets.h"
#include "sim_core/bench/step.h"
#include "sim_core/plant/plant.h"

namespace stirbench::desk {

namespace {

// The machine with names and purposes beside it.
class Parts final : public Screen {
 public:
  explicit Parts(Desk& desk) : desk_(desk), machine_(desk.library.machine(desk.machine_id)) {
    open_body();
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

  void draw_tools(Ui& ui) override {
    // Which machine is shown; the choice holds for free runs and the recipe bench too.
    bool first = true;
    for (const auto& [id, spec] : desk_.library.machines) {
      if (!first) same_line(ui);
      first = false;
      if (chip(ui, "parts.machine." + id, spec.title, id == desk_.machine_id) && id != desk_.machine_id) {
        desk_.machine_id = id;
        ui.app.replace("parts");
      }
    }
  }

  void draw(Ui& ui) override {
    Rect area = ui.area;
    const Rect side = area.take_right(std::min(ui.em(400.0F), area.w * 0.44F), ui.px(Measure::gutter));
    MachineMotion motion;
    motion.advance(machine_, state_, 0.0, false, true);
    const MachineViewInput input{machine_, state_, motion, false, true, "", "parts.machine"};
    if (solid_ && view_.is_open()) view_.draw(ui, input, area);
    else draw_machine(ui, input, area);
    if (view_.is_open()) view_switch(ui, "parts.view", solid_, area);
    PanelScope panel(ui, "parts.list", side, {.caption = tr("What is what")});
    for (const library::BodyPart& part : view_.parts()) {
      if (list_row(ui, "parts.part." + part.id, {.title = tr(part.title), .detail = tr(part.purpose), .selected = view_.chosen() == part.id}))
        choose(part.id);
    }
    gap(ui, 12.0F);
    caption(ui, tr("Gauges"));
    text(ui, tr("On the chiller's circuit, ten minutes after its start on cold product in this room. Work on the circuit is for "
                "licensed people; R-290 burns."), {.colour = Token::ink2});
    gap(ui, 4.0F);
    draw_gauges(ui, chilling_);
  }

 private:
  void open_body() {
    if (!view_.open(desk_.library, machine_)) return;
    view_.show_freezer(true);
  }

  // Again on the chosen one: the whole machine.
  void choose(const std::string& id) {
    solid_ = true;
    if (view_.chosen() == id) {
      view_.choose("");
      view_.fit();
      return;
    }
    view_.choose(id);
    view_.look_at(id);
  }

  Desk& desk_;
  bench::Machine machine_;
  BodyView view_;
  bool solid_ = true;
  bench::State state_;
  bench::State chilling_;
};

}  // namespace

std::unique_ptr<Screen> make_parts(Desk& desk) { return std::make_unique<Parts>(desk); }

}  // namespace stirbench::desk
