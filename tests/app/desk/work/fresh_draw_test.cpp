#include <doctest/doctest.h>

#include <set>
#include <vector>

#include "app/desk/work/desk.h"
#include "app/desk/work/run/live_run.h"
#include "tests/support/files.h"

using namespace stirbench;
namespace work = desk::work;

// "round-the-machine" has some 13 draws that can be told apart; drawn blindly, twelve runs would meet one
// twice with a probability above 0.99.
TEST_CASE("a person meets no draw of a lesson twice while there are others, another person starts anew") {
  test_support::TempFolder folder("fresh-draw");
  work::DeskOptions options;
  options.data_dir = folder.path().string();
  const auto desk = work::open_desk(options);
  work::open_records(*desk);
  REQUIRE(desk->store);
  desk->person = desk->store->add_person("Imani Okafor");
  std::set<std::vector<std::string>> draws;
  std::set<std::uint64_t> seeds;
  constexpr int runs = 8;
  for (int i = 0; i < runs; ++i) {
    work::LiveRun::Setup setup;
    setup.lesson = work::lesson_to_run(*desk, "round-the-machine");
    REQUIRE(setup.lesson);
    CHECK(setup.lesson->start.seed != desk->library.lessons.at("round-the-machine").start.seed);
    draws.insert(setup.lesson->drawn);
    seeds.insert(setup.lesson->start.seed);
    setup.machine = desk->library.machine(setup.lesson->machine);
    setup.mode = work::RunMode::practice;
    setup.program = "test";
    setup.person = desk->person.id;
    setup.store = desk->store.get();
    setup.started_utc = "2026-01-31T07:05:0" + std::to_string(i) + "Z";
    work::LiveRun run(std::move(setup));
    run.finish();
  }
  CHECK(seeds.size() == runs);
  CHECK(draws.size() == runs);
  CHECK_FALSE(work::lesson_to_run(*desk, "no-such-lesson"));
}
