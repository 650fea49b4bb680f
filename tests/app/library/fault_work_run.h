#pragma once

#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

#include "app/library/library.h"
#include "sim_core/hands/handles.h"
#include "sim_core/hands/hands.h"
#include "sim_core/journal/journal.h"
#include "sim_core/journal/session.h"
#include "tests/support/files.h"

// A run of the shipped machine with its journal, for tests of instruments, causes and repairs.
namespace fault_work {

using namespace stirbench;
using machine::Lapse;

inline const machine::Machine& shipped_machine() {
  static const machine::Machine made = [] {
    library::LoadResult result = library::load((test_support::source_root() / "content").string(), "");
    for (const auto& problem : result.problems) FAIL(problem.text());
    return result.library.machine("hm-45");
  }();
  return made;
}

// A run with its journal.
struct Run {
  std::string journal;
  journal::Session session;

  explicit Run(std::vector<machine::StartSetup::Fault> faults, faults::Who trade = faults::Who::electrician,
               const machine::Scenario& around = {})
      : session(shipped_machine(), header(std::move(faults), trade, around),
                [this](std::string_view record) { journal += record; }) {}

  static journal::SessionHeader header(std::vector<machine::StartSetup::Fault> faults, faults::Who trade,
                                       const machine::Scenario& around) {
    journal::SessionHeader h;
    h.machine = "hm-45";
    h.mode = "free";
    h.start.faults = std::move(faults);
    h.start.situation = around;
    h.start.situation.trade = trade;
    h.start.loaded = {{"whole_milk", 30.0, 6.0}};
    return h;
  }

  // Does it and steps one tick; what is refused is an error of the test.
  std::string act(const hands::Action& one) {
    const std::string reason = hands::why_not(shipped_machine(), state(), one);
    CHECK_MESSAGE(reason.empty(), one.hand()->name << " " << first_text(one) << ": " << reason);
    session.act(one);
    std::string text;
    for (const machine::Event& event : session.step()) {
      if (was_done(event, *one.hand())) text = event.text;
    }
    if (one.is(hands::press)) run(1.0);  // a finger is on a key for a while
    return text;
  }
  std::string refused(const hands::Action& one) const {
    return hands::why_not(shipped_machine(), state(), one);
  }
  void run(double seconds) {
    for (int i = 0; i < static_cast<int>(10.0 * seconds); ++i) session.step();
  }
  const machine::State& state() const { return session.state(); }
  // Ends the session; its journal run again comes to the same state.
  journal::ReplayResult replays() {
    session.end();
    journal::Journal kept;
    const journal::JournalProblem fault = journal::read_journal(journal, kept);
    CHECK_MESSAGE(fault.message.empty(), fault.message);
    journal::ReplayResult again = journal::replay(shipped_machine(), kept);
    CHECK_MESSAGE(again.verified, again.message);
    CHECK(machine::first_difference(again.state, state()) == "");
    return again;
  }
  std::uint32_t lapses(Lapse lapse) const { return state().work.lapses[static_cast<std::size_t>(lapse)]; }

  void isolate_and_prove() {
    act(hands::press("stop"));
    act(hands::isolate(true));
    act(hands::fit_lock("you"));
    act(hands::take_key());
    run(90.0);  // the capacitor's label asks for 60 s
    act(hands::take_panel_off());
    act(hands::measure("known_source"));
    act(hands::measure("terminals"));
    act(hands::measure("known_source"));
  }
  double ohms(const std::string& a, const std::string& b) {
    act(hands::red_probe(a));
    act(hands::black_probe(b));
    return state().work.reading.over_range ? 1.0e9 : state().work.reading.value;
  }
  void give_back() {
    act(hands::put_panel_on());
    act(hands::remove_lock("you"));
    act(hands::isolate(false));
    run(2.0);
    act(hands::press("stop"));
  }
};

}  // namespace fault_work
