#include <doctest/doctest.h>

#include <nlohmann/json.hpp>

#include "app/desk/work/debrief/debrief_model.h"
#include "app/desk/work/desk.h"
#include "app/records/marks.h"
#include "sim_core/hands/handles.h"
#include "tests/support/files.h"

// Help asked for and runs taken back, as the records keep them.
namespace {

using namespace stirbench;
using desk::work::LiveRun;
using desk::work::RunMode;

struct KeptDesk {
  test_support::TempFolder folder{"rewind"};
  std::unique_ptr<desk::work::Desk> desk;

  KeptDesk() {
    desk = desk::work::open_desk({.content_dir = {}, .data_dir = folder.file("data"), .open_journal = {}});
    desk->usual_draws = true;
    desk::work::open_records(*desk);
    REQUIRE(desk->store);
    desk->person = desk->store->add_person("Ada Example");
  }

  std::unique_ptr<LiveRun> begin(RunMode mode, const std::string& id = "first-batch") const {
    LiveRun::Setup setup;
    setup.lesson = desk::work::lesson_to_run(*desk, id);
    setup.machine = desk->library.machine(setup.lesson->machine);
    setup.mode = mode;
    setup.program = "test";
    setup.person = desk->person.id;
    setup.store = desk->store.get();
    setup.started_utc = desk::work::utc_now();
    setup.grasp = desk::work::grasp_in(*desk, *setup.lesson);
    return std::make_unique<LiveRun>(std::move(setup));
  }
  nlohmann::json card_of(const LiveRun& run) const {
    return nlohmann::json::parse(desk->store->attempt(run.attempt()->id)->card_json);
  }
};

void go(LiveRun& run, double seconds) {
  for (int i = 0; i < static_cast<int>(seconds * machine::ticks_per_second); ++i) run.step();
}

// So much too much of everything that the pass mark is out of reach.
void spoil(LiveRun& run) {
  for (const char* ingredient :
       {"whole_milk", "sugar", "dextrose", "skim_milk_powder", "stabiliser_cold", "cream_35", "vanilla"}) {
    CHECK(run.act(hands::pour(ingredient, ingredient == std::string("whole_milk") ? 28.0 : 12.0)).empty());
    go(run, 1.0);
  }
}

// Works inside the panel with the supply on, after `seconds`.
void hurt(LiveRun& run, double seconds) {
  CHECK(run.act(hands::open_lid()).empty());
  go(run, seconds);
  CHECK(run.act(hands::take_panel_off()).empty());
  for (int i = 0; i < 3000 && !run.state().injured; ++i) {
    if (run.act(hands::begin_work("panel")).empty()) run.step();
    run.step();
  }
  REQUIRE(run.state().injured);
}

}  // namespace

TEST_CASE("rewind: a run goes on 30 s before the injury, as helped practice beside the attempt that hurt") {
  const KeptDesk at;
  const auto first = at.begin(RunMode::guided);
  hurt(*first, 100.0);
  const std::uint64_t injury = first->state().tick;
  CHECK(first->rewind_tick() == injury - 300);
  CHECK(first->why_not_rewind().empty());
  first->finish();
  const auto second = first->rewound(desk::work::utc_now());
  CHECK(second->mode() == RunMode::retry);
  CHECK(second->state().tick == injury - 300);
  CHECK_FALSE(second->state().injured);
  CHECK(second->state().plant.fittings.lid_open);
  CHECK(second->first_rung() == training::Rung::step);  // a guided run stays guided
  go(*second, 40.0);
  CHECK_FALSE(second->state().injured);
  second->finish();
  // Two entries: the first ended by the injury, the second is led practice.
  CHECK(at.card_of(*first)["injured"] == true);
  CHECK(at.card_of(*first)["rewound"] == false);
  CHECK(at.card_of(*second)["injured"] == false);
  const auto briefs = at.desk->store->briefs(at.desk->person.id);
  REQUIRE(briefs.size() == 2);
  CHECK(briefs[1].hinted);
  CHECK_FALSE(briefs[1].whole);
  // The new attempt's journal stands by itself.
  const auto model = desk::work::build_debrief(second->machine(), second->lesson(), second->journal_text());
  CHECK(model.verified);
}

TEST_CASE("rewind: not past the start, and not in tests") {
  const KeptDesk at;
  const auto early = at.begin(RunMode::practice);
  hurt(*early, 1.0);
  if (early->state().tick < 300) CHECK(early->rewind_tick() == 0);
  early->finish();
  const auto again = early->rewound(desk::work::utc_now());
  CHECK(again->state().tick == early->rewind_tick());
  CHECK_FALSE(again->first_rung().has_value());  // as in practice one has to ask
  const auto test = at.begin(RunMode::test);
  hurt(*test, 10.0);
  CHECK_FALSE(test->why_not_rewind().empty());
}

TEST_CASE("rewind: a run that cannot pass any more goes back to before it was lost, not to before now") {
  const KeptDesk at;
  const auto run = at.begin(RunMode::practice);
  CHECK(run->act(hands::open_lid()).empty());
  go(*run, 95.0);
  REQUIRE(run->prospect().can_pass);
  spoil(*run);
  go(*run, 120.0);
  REQUIRE_FALSE(run->prospect().can_pass);
  CHECK(run->rewind_tick() >= 500);
  CHECK(run->rewind_tick() <= 660);
  run->finish();
  const auto second = run->rewound(desk::work::utc_now());
  CHECK(second->prospect().can_pass);
  CHECK(second->state().plant.product.total_kg() < 1.0);
  // Lost again before the next look: not back to the start.
  spoil(*second);
  go(*second, 15.0);
  CHECK(second->rewind_tick() + 300 >= run->rewind_tick());
}

TEST_CASE("rewind: trying again after a rewind is a whole run of its own from the start") {
  const KeptDesk at;
  const auto first = at.begin(RunMode::practice);
  hurt(*first, 60.0);
  first->finish();
  const auto second = first->rewound(desk::work::utc_now());
  const auto third = second->again(desk::work::utc_now(), desk::work::lesson_to_run(*at.desk, "first-batch"));
  CHECK(third->mode() == RunMode::practice);
  CHECK(third->state().tick == 0);
}

TEST_CASE("rungs: each one asked for is kept with its step; only those that lead make a run helped") {
  const KeptDesk at;
  const auto alone = at.begin(RunMode::practice);
  go(*alone, 2.0);
  alone->note_rung(training::Rung::goal);
  alone->note_rung(training::Rung::cue);
  alone->finish();
  const auto led = at.begin(RunMode::practice);
  led->note_rung(training::Rung::place);
  led->step();
  led->finish();
  const nlohmann::json card = at.card_of(*alone);
  REQUIRE(card["rungs"].size() == 2);
  CHECK(card["rungs"][0]["rung"] == "goal");
  CHECK(card["rungs"][0]["step"] == alone->lesson()->steps.front().id);
  CHECK(card["rungs"][1]["at_s"] == doctest::Approx(2.0));
  CHECK(card["hints"] == 0);
  const auto briefs = at.desk->store->briefs(at.desk->person.id);
  REQUIRE(briefs.size() == 2);
  CHECK_FALSE(briefs[0].hinted);
  CHECK(briefs[1].hinted);
}

TEST_CASE("guided help begins at what the records leave of it") {
  const KeptDesk at;
  CHECK(at.begin(RunMode::guided)->first_rung() == training::Rung::step);
  CHECK_FALSE(at.begin(RunMode::practice)->first_rung().has_value());
  CHECK_FALSE(at.begin(RunMode::test)->first_rung().has_value());
}

TEST_CASE("look back: the picture reaches the last moment") {
  const KeptDesk at;
  const auto run = at.begin(RunMode::practice);
  go(*run, 12.7);
  run->finish();
  const auto model = desk::work::build_debrief(run->machine(), run->lesson(), run->journal_text());
  CHECK(model.end_s() == doctest::Approx(12.7));
  CHECK(model.at(model.end_s()).tick == run->state().tick);
  CHECK(model.at(12.2).tick == 120);
}
