#include <doctest/doctest.h>
#include <fenv.h>

#include <cmath>

#include "app/library/food/recipe_store.h"
#include "sim_core/bench/script.h"
#include "sim_core/journal/session.h"
#include "sim_core/product/kinetics.h"
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
    const machine::Machine machine = shipped().machine(machine_id);
    for (const auto& [id, recipe] : shipped().recipes) {
      if (!library::check_recipe(shipped(), machine_id, recipe, id).problems.empty()) continue;
      CAPTURE(machine_id);
      CAPTURE(id);
      journal::SessionHeader header;
      header.machine = machine_id;
      header.mode = "free";
      journal::Session session(machine, header);
      bench::ActionScript script(library::prompt_operator(shipped(), machine_id, recipe));
      const Traps traps;
      bench::drive(session, script, [&session] { return session.state().tick >= 600; });
      CHECK(std::isfinite(session.state().plant.vat_degC));
      CHECK(session.state().control.mode == control::Mode::running);
      for (const auto& event : session.history()) CHECK(event.kind != machine::EventKind::refused);
      ++runs;
    }
  }
  CHECK(runs >= 7);
}

TEST_CASE(
    "a prompt operator brings every recipe to its keep phase, cooked as it should be and without harm") {
  constexpr double longest_s = 12.0 * 3600.0;
  for (const auto& [id, recipe] : shipped().recipes) {
    CAPTURE(id);
    const std::string machine_id = id == "white-base-small" ? "hm-20" : "hm-45";
    const machine::Machine machine = shipped().machine(machine_id);
    journal::SessionHeader header;
    header.machine = machine_id;
    header.mode = "free";
    journal::Session session(machine, header);
    bench::ActionScript script(library::prompt_operator(shipped(), machine_id, recipe));
    bool finished = false;
    const auto over = [&] { return finished || machine::time_s(session.state()) >= longest_s; };
    bench::drive(session, script, over,
                 [&finished](const machine::State&, const std::vector<machine::Event>& events) {
                   for (const auto& event : events)
                     finished = finished || event.kind == machine::EventKind::recipe_finished;
                 });
    const double finish_s = machine::time_s(session.state());
    const product::Product& made = session.state().plant.product;
    MESSAGE(id << " on " << machine_id << ": ready after " << finish_s / 60.0 << " min, reduction "
               << product::log10_reduction(made) << " log10, curd " << made.egg_curd_norm
               << ", not dissolved " << product::solids_not_dissolved_kg(made) << " kg, hydration "
               << product::hydration_norm(made) << ", scorched " << made.scorched_kg << " kg");
    REQUIRE(finished);
    double least_s = 0.0;
    for (const auto& phase : recipe.phases) least_s += phase.duration_s;
    CHECK(finish_s > least_s);
    for (const auto& event : session.history()) {
      CAPTURE(event.text);
      CHECK(event.kind != machine::EventKind::harm);
      CHECK(event.kind != machine::EventKind::refused);
      CHECK(event.kind != machine::EventKind::spilled);
    }
    // Any row that is claimed is worth far more than the 5 log10 that are asked of a treatment (process
    // reference 3c).
    if (!recipe.claims.empty()) CHECK(product::log10_reduction(made) > 20.0);
    CHECK(made.egg_curd_norm < 0.08);
    CHECK(product::solids_not_dissolved_kg(made) < 0.01 * made.total_kg());
    // The lid stops the agitator while the stabiliser goes in, so some of it stays in lumps: a tenth where it
    // is soluble in the cold, more where it hydrates only while it is hot.
    CHECK(product::hydration_norm(made) > (id == "oat-coconut-base" ? 0.7 : 0.85));
  }
}

TEST_CASE("the estimate is the time that the run takes") {
  const control::Recipe& recipe = shipped().recipes.at("fruit-syrup");
  const double finish_s = library::estimate_finish_s(shipped(), "hm-45", recipe);
  CHECK(finish_s > 3600.0);
  CHECK(finish_s < 3.0 * 3600.0);
  control::Recipe longer = recipe;
  for (auto& phase : longer.phases) {
    if (phase.kind == control::PhaseKind::hold) phase.duration_s += 600.0;
  }
  // Ten minutes more of holding, give or take what the compressor's rests change, less what need not be
  // chilled because the hold let it cool: up to a kelvin, a minute.
  const double later_s = library::estimate_finish_s(shipped(), "hm-45", longer) - finish_s;
  CHECK(later_s < 630.0);
  CHECK(later_s > 540.0);
}

TEST_CASE("a recipe that cannot finish says so") {
  control::Recipe recipe = shipped().recipes.at("white-base-high");
  // Two days of holding are not over in twelve hours.
  for (auto& phase : recipe.phases) {
    if (phase.kind == control::PhaseKind::hold) phase.duration_s = 172800.0;
  }
  CHECK(library::estimate_finish_s(shipped(), "hm-45", recipe) < 0.0);
}
