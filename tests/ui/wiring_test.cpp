#include <doctest/doctest.h>

#include <string>

#include "sim_core/machine/fault_readings.h"
#include "tests/support/files.h"
#include "tests/ui/desk_driver.h"

// The wiring diagram by real clicks: instrument in hand, probes on terminals, the reading; a hidden fault
// named.
namespace {

namespace machine = stirbench::machine;
using stirbench::test_support::TempFolder;
using stirbench::ui_test::DeskDriver;

void nothing_twice(DeskDriver& ui) {
  for (const auto& id : ui->app().registry().duplicates()) CHECK_MESSAGE(false, "registered twice: " << id);
  for (const auto& widget : ui->app().registry().all()) {
    CAPTURE(widget.id);
    if (!widget.enabled) CHECK_FALSE(widget.reason.empty());
  }
}

}  // namespace

TEST_CASE(
    "a free run: diagram, multimeter, probes on the site's terminals, 400 V; behind the panel only once it "
    "is off") {
  const TempFolder folder("ui-wiring");
  DeskDriver ui(folder.file("data"));
  ui->click("home.free");
  ui->frames(5);
  ui->click("train.wiring");
  ui->frames(5);
  for (const char* sheet :
       {"wiring.sheet.loads", "wiring.sheet.control", "wiring.sheet.signals", "wiring.sheet.supply"}) {
    ui->click(sheet);
    ui->frames(3);
    nothing_twice(ui);
    ui.shot("wiring-" + std::string(sheet).substr(13));
  }
  const machine::FaultWork& work = ui.desk().run->state().work;
  ui->click("wiring.tool.multimeter");
  ui->frames(10);
  REQUIRE(work.tool == machine::Instrument::multimeter);
  ui->click("wiring.terminal.X0.L1");
  ui->frames(10);
  CHECK(work.red == ui.desk().run->machine().plant.circuit.terminal("X0.L1"));
  ui->click("wiring.terminal.X0.L2");
  ui->frames(10);
  REQUIRE(machine::probes_placed(work));
  CHECK(work.reading.value == doctest::Approx(400.0).epsilon(0.02));
  CHECK(ui->label("wiring.meter.shown") == machine::reading_words(work));
  // The panel is on: the red probe stays where it is, and the desk says why.
  ui->click("wiring.terminal.X1.1");
  ui->frames(10);
  CHECK(work.red == ui.desk().run->machine().plant.circuit.terminal("X0.L1"));
  ui.shot("wiring-measured");
  nothing_twice(ui);
  ui->click("train.wiring");
  ui->frames(5);
  CHECK_FALSE(ui->has("wiring.meter.shown"));
}

TEST_CASE(
    "a lesson with a hidden fault: found, named and repaired by clicks; the diagram does not show where it "
    "is broken") {
  const TempFolder folder("ui-practice");
  DeskDriver ui(folder.file("data"));
  ui->app().push("lesson", {{"lesson", "find-dark-after-cleaning"}});
  ui->frames(5);
  ui->click("lesson.start");
  ui->frames(5);
  REQUIRE(ui.desk().run != nullptr);
  CHECK(ui.desk().run->hides_faults());
  ui->click("hand.group.faults");
  ui->frames(5);
  ui.shot("practice-fault-group");
  nothing_twice(ui);
  ui.choose("hand.fault.system", "use");
  ui->frames(5);
  ui.choose("hand.fault.cause", "Isolator left off");
  ui->frames(5);
  ui->click("hand.fault.name");
  ui->frames(10);
  CHECK(ui->has("hand.fault.named.isolator_left_off"));
  CHECK(machine::causes_found(ui.desk().run->state()) == 1);
  CHECK_FALSE(ui->widget("hand.fault.prove").enabled);
  ui.shot("practice-named");
}
