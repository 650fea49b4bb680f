#include <doctest/doctest.h>

#include <cmath>
#include <set>
#include <string>
#include <vector>

#include "sim_core/bench/step.h"
#include "sim_core/signals/signals.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::signals;
using namespace stirbench::bench_test;

TEST_CASE("the trace begins with the columns of the design, in order") {
  const std::vector<std::string> wanted = {
      "time_s",         "product_degC",   "well_degC",        "probe_degC",
      "well_wall_degC", "fill_L",         "heaters_W",        "chiller_W",
      "drive_W",        "agitator_rpm",   "torque_Nm",        "circulation_L_per_min",
      "draw_L_per_min", "viscosity_Pa_s", "log10_reduction",  "mode",
      "phase",          "lid_open",       "shaft_cover_open", "alarms"};
  std::vector<std::string> found;
  for (const Signal& signal : signals::signals()) {
    if (signal.in_trace) found.emplace_back(signal.name);
  }
  REQUIRE(found.size() >= wanted.size());
  found.resize(wanted.size());
  CHECK(found == wanted);
}

TEST_CASE("every signal has a name of its own, a meaning and a value") {
  const Machine machine = small_kitchen_machine();
  StartSetup setup;
  setup.loaded = {{"whole_milk", 20.0, 5.0}};
  for (const char* recipe : {"", "white_base"}) {
    setup.recipe = recipe;
    State state = initial_state(machine, setup);
    std::vector<Event> events;
    step(machine, state, {{press("run")}}, events);
    std::set<std::string_view> names;
    for (const Signal& signal : signals::signals()) {
      CAPTURE(signal.name);
      names.insert(signal.name);
      CHECK(signal.meaning != "");
      CHECK(find_signal(signal.name) == &signal);
      CHECK((signal.text != nullptr) == (signal.kind == SignalKind::text));
      CHECK((signal.value != nullptr) == (signal.kind != SignalKind::text));
      if (signal.value != nullptr) {
        const double value = signal.value(machine, state);
        CHECK(std::isfinite(value));
        if (signal.kind == SignalKind::flag) CHECK((value == 0.0 || value == 1.0));
      }
    }
    CHECK(names.size() == signals::signals().size());
  }
  CHECK(find_signal("speed") == nullptr);
}

TEST_CASE("signals follow the state") {
  const Machine machine = small_kitchen_machine();
  StartSetup setup;
  setup.loaded = {{"whole_milk", 20.0, 5.0}};
  setup.recipe = "white_base";
  State state = initial_state(machine, setup);
  std::vector<Event> events;
  const auto number = [&](const char* name) { return find_signal(name)->value(machine, state); };
  const auto text = [&](const char* name) { return std::string(find_signal(name)->text(machine, state)); };
  CHECK(text("mode") == "standby");
  CHECK(text("phase") == "");
  CHECK(text("alarms") == "");
  CHECK(number("mass_kg") == doctest::Approx(20.0));
  step(machine, state, {{press("run")}}, events);
  CHECK(text("mode") == "running");
  CHECK(text("phase") == "warm");
  CHECK(text("phase_kind") == "heat");
  CHECK(number("target_degC") == 40.0);
  CHECK(number("time_s") == doctest::Approx(0.1));
  hands::Action open_cover = hands::open_shaft_cover();
  step(machine, state, {{hands::open_lid(), open_cover}}, events);
  CHECK(text("alarms") == "lid_guard;shaft_cover_guard");
  CHECK(text("mode") == "paused");
  CHECK(number("alarm_latched") == 1.0);
  CHECK(number("alarm_lid_guard") == 1.0);
  CHECK(number("alarm_drive_overload") == 0.0);
  CHECK(number("lid_open") == 1.0);
  CHECK(number("harm_injury") == 0.0);
  state.harms[static_cast<std::size_t>(HarmId::hot_wall)].happened = true;
  CHECK(number("harm_injury") == 1.0);
  CHECK(number("harm_damage") == 0.0);
}
