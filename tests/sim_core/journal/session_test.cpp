#include <doctest/doctest.h>

#include <algorithm>
#include <cstdlib>
#include <new>
#include <stdexcept>

#include "sim_core/bench/script.h"
#include "sim_core/journal/session.h"
#include "tests/sim_core/bench/machine_fixture.h"

using namespace stirbench;
using namespace stirbench::machine;
using namespace stirbench::bench;
using namespace stirbench::journal;
using namespace stirbench::bench_test;

// Counts allocations of this program, so that "no allocation when nothing happens" is a figure and not a
// hope.
namespace {
std::size_t allocations = 0;
}
void* operator new(std::size_t size) {
  ++allocations;
  if (void* memory = std::malloc(size)) return memory;
  throw std::bad_alloc();
}
void operator delete(void* memory) noexcept { std::free(memory); }
void operator delete(void* memory, std::size_t) noexcept { std::free(memory); }

namespace {

SessionHeader header_with(double milk_kg) {
  SessionHeader header;
  header.machine = "hm-45";
  header.start.loaded = {{"whole_milk", milk_kg, 5.0}};
  header.start.recipe = "white_base";
  return header;
}

}  // namespace

TEST_CASE("same actions and seed, same hash at every tick") {
  const Machine machine = small_kitchen_machine();
  Session a(machine, header_with(30.0));
  Session b(machine, header_with(30.0));
  for (int i = 0; i < 3000; ++i) {
    if (i == 5) {
      a.act(press("run"));
      b.act(press("run"));
    }
    if (i == 900) {
      a.act(hands::open_lid());
      b.act(hands::open_lid());
    }
    a.step();
    b.step();
    REQUIRE(state_hash(a.state()) == state_hash(b.state()));
  }
  Session other(machine, header_with(30.001));
  CHECK(state_hash(other.state()) != state_hash(Session(machine, header_with(30.0)).state()));
}

TEST_CASE("a copy of the state continues exactly as the original") {
  const Machine machine = small_kitchen_machine();
  State state = initial_state(machine, header_with(30.0).start);
  std::vector<Event> events;
  for (int i = 0; i < 1234; ++i)
    step(machine, state, {i == 3 ? std::vector{press("run")} : std::vector<hands::Action>{}}, events);
  State copy = state;
  for (int i = 0; i < 1234; ++i) {
    step(machine, state, {}, events);
    step(machine, copy, {}, events);
  }
  CHECK(first_difference(state, copy) == "");
  CHECK(state_hash(state) == state_hash(copy));
}

TEST_CASE("the actions of one tick are carried out in their order") {
  const Machine machine = small_kitchen_machine();
  Session session(machine, header_with(20.0));
  session.act(hands::open_lid());
  session.act(pour("cream", 5.0, 5.0));
  session.act(hands::close_lid());
  const auto& events = session.step();
  REQUIRE(events.size() >= 3);
  CHECK(events[0].subject == hands::number_of(hands::open_lid));
  CHECK(events[1].name == "cream");
  CHECK(events[1].number == 5.0);
  CHECK(events[2].subject == hands::number_of(hands::close_lid));
  CHECK(session.state().plant.product.total_kg() == doctest::Approx(25.0));
}

TEST_CASE("a tick in which nothing happens allocates nothing, journal included") {
  const Machine machine = small_kitchen_machine();
  std::size_t bytes = 0;
  Session session(machine, header_with(30.0), [&bytes](std::string_view record) { bytes += record.size(); });
  session.act(press("run"));
  for (int i = 0; i < 100; ++i) session.step();
  std::size_t quiet = 0;
  const std::size_t history = session.history().size();
  const std::size_t before = allocations;
  for (int i = 0; i < 500; ++i) quiet += session.step().empty() ? 1U : 0U;
  const std::size_t after = allocations;
  CHECK(quiet == 500);
  CHECK(session.history().size() == history);
  CHECK(after == before);
  // The same in the loop, with a source and an observer.
  ActionScript script({{.at_s = 1.0e6, .action = press("stop")}});
  const std::uint64_t end = session.state().tick + 500;
  double probe_degC = 0.0;
  const std::size_t before_loop = allocations;
  drive(
      session, script, [&] { return session.state().tick >= end; },
      [&probe_degC](const State& state, const std::vector<Event>&) { probe_degC = state.plant.probe_degC; });
  const std::size_t after_loop = allocations;
  CHECK(after_loop == before_loop);
  CHECK(probe_degC == session.state().plant.probe_degC);
  CHECK(bytes > 0);
}

TEST_CASE("a session that has ended takes nothing more") {
  const Machine machine = small_kitchen_machine();
  std::string text;
  Session session(machine, header_with(20.0), [&text](std::string_view record) { text += record; });
  session.step();
  session.end();
  const std::string kept = text;
  session.end();
  CHECK(text == kept);
  CHECK_THROWS_AS(session.step(), std::logic_error);
  CHECK_THROWS_AS(session.act(press("run")), std::logic_error);
}

TEST_CASE("a script plays by time and by phase") {
  const Machine machine = small_kitchen_machine();
  Session session(machine, header_with(10.0));
  std::vector<hands::TimedAction> actions;
  actions.push_back({.at_s = 1.3, .action = press("run")});
  actions.push_back({.at_phase = "add", .after_s = 2.0, .action = press("stop")});
  actions.push_back({.at_s = 0.5, .action = hands::open_lid()});  // long due, but waits for its turn
  ActionScript script(actions);
  std::uint64_t began = 0;
  const auto over = [&] { return script.finished() || session.state().tick >= 20000; };
  drive(session, script, over, [&began](const State& state, const std::vector<Event>& events) {
    for (const Event& event : events) {
      if (event.kind == EventKind::phase_began && event.name == "add") began = state.tick;
    }
  });
  REQUIRE(script.finished());
  const auto acted_tick = [&](const hands::Hand& hand) {
    for (const Event& event : session.history()) {
      if (was_done(event, hand) && event.name != "run") return event.tick;
    }
    return std::uint64_t{0};
  };
  CHECK(session.history().front().tick == 13);
  REQUIRE(began > 0);
  CHECK(acted_tick(hands::press) == began + 20);
  CHECK(acted_tick(hands::open_lid) == began + 20);
}

TEST_CASE("a whole batch with all its actions") {
  const Machine machine = small_kitchen_machine();
  Session session(machine, header_with(25.0));
  const auto at_add = [](double after_s, hands::Action action) {
    return hands::TimedAction{.at_phase = "add", .after_s = after_s, .action = std::move(action)};
  };
  ActionScript script({{.at_s = 1.0, .action = press("run")},
                       at_add(5.0, hands::open_lid()),
                       at_add(15.0, pour("sugar", 5.0, 20.0)),
                       at_add(25.0, pour("cream", 5.0, 5.0)),
                       at_add(30.0, hands::close_lid()),
                       at_add(32.0, press("stop")),
                       at_add(34.0, press("run")),
                       at_add(36.0, hands::confirm())});
  double highest_degC = 0.0;
  const auto over = [&session] {
    return session.state().control.recipe_done || time_s(session.state()) >= 4.0 * 3600.0;
  };
  drive(session, script, over, [&highest_degC](const State& state, const std::vector<Event>&) {
    highest_degC = std::max(highest_degC, state.plant.probe_degC);
  });
  CHECK(session.state().control.recipe_done);
  CHECK(script.finished());
  CHECK(highest_degC >= 85.0);
  CHECK(highest_degC <= 87.0);
  int restarted = 0;
  int harms = 0;
  for (const Event& event : session.history()) {
    CAPTURE(event.text);
    CHECK(event.kind != EventKind::refused);
    restarted += event.kind == EventKind::hold_restarted ? 1 : 0;
    harms += event.kind == EventKind::harm ? 1 : 0;
  }
  CHECK(restarted == 0);
  CHECK(harms == 0);
}
