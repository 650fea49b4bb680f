#include <doctest/doctest.h>
#include <fenv.h>

#include <cmath>

#include "app/library/recipe_store.h"
#include "sim_core/bench/script.h"
#include "sim_core/bench/session.h"
#include "tests/app/library/scratch.h"

// Load everything and run it: each shipped recipe on each machine that takes it.
using namespace stirbench;
using library_test::shipped;

namespace {

// Floating-point traps: the first invalid operation or division by zero ends the test program.
class Traps {
 public:
  Traps() { feenableexcept(FE_INVALID | FE_DIVBYZERO | FE_OVERFLOW); }
  ~Traps() { fedisableexcept(FE_INVALID | FE_DIVBYZERO | FE_OVERFLOW); }
  Traps(const Traps&) = delete;
  Traps& operator=(const Traps&) = delete;
};

}  // namespace

TEST_CASE("every recipe runs a while on its machine with traps on") {
  int runs = 0;
  for (const auto& [machine_id, spec] : shipped().machines) {
    const bench::Machine machine = shipped().machine(machine_id);
    for (const auto& [id, recipe] : shipped().recipes) {
      if (!library::check_recipe(shipped(), machine_id, recipe, id).problems.empty()) continue;
      CAPTURE(machine_id);
      CAPTURE(id);
      bench::SessionHeader header;
      header.machine = machine_id;
      header.mode = "free";
      bench::Session session(machine, header);
      bench::Script script(library::prompt_operator(shipped(), machine_id, recipe));
      const Traps traps;
      for (int tick = 0; tick < 600; ++tick) {
        script.feed(session);
        script.see(session.step(), bench::time_s(session.state()));
      }
      CHECK(std::isfinite(session.state().plant.vat_degC));
      CHECK(session.state().control.mode == control::Mode::running);
      for (const auto& event : session.history()) CHECK(event.kind != bench::EventKind::refused);
      ++runs;
    }
  }
  CHECK(runs >= 7);
}

TEST_CASE("a prompt operator brings every recipe to its keep phase, without refusals or harm") {
  for (const auto& [id, recipe] : shipped().recipes) {
    CAPTURE(id);
    const std::string machine_id = id == "white-base-small" ? "hm-20" : "hm-45";
    const double finish_s = library::estimate_finish_s(shipped(), machine_id, recipe);
    MESSAGE(id << " on " << machine_id << ": " << finish_s / 60.0 << " min");
    double least_s = 0.0;
    for (const auto& phase : recipe.phases) least_s += phase.duration_s;
    CHECK(finish_s > least_s);
    CHECK(finish_s < 12.0 * 3600.0);
  }
}

TEST_CASE("a recipe that cannot finish says so") {
  control::Recipe recipe = shipped().recipes.at("white-base-high");
  // Two days of holding are not over in twelve hours.
  for (auto& phase : recipe.phases) {
    if (phase.kind == control::PhaseKind::hold) phase.duration_s = 172800.0;
  }
  CHECK(library::estimate_finish_s(shipped(), "hm-45", recipe) < 0.0);
}
