#pragma once

#include <doctest/doctest.h>

#include <string>
#include <utility>
#include <vector>

#include "app/library/library.h"
#include "sim_core/bench/session.h"
#include "tests/support/files.h"

// A run of the shipped machine with its journal, for tests of instruments, causes and repairs.
namespace fault_work {

using namespace stirbench;
using bench::ActionKind;
using bench::Lapse;

inline const bench::Machine& machine() {
  static const bench::Machine made = [] {
    library::LoadResult result = library::load((test_support::source_root() / "content").string(), "");
    for (const auto& problem : result.problems) FAIL(problem.text());
    return result.library.machine("hm-45");
  }();
  return made;
}

inline hands::Action action(ActionKind kind, const std::string& name = "", bool on = true) {
  hands::Action out;
  out.kind = kind;
  out.name = name;
  out.on = on;
  return out;
}

// A run with its journal.
struct Run {
  std::string journal;
  bench::Session session;

  explicit Run(std::vector<bench::StartSetup::Fault> faults, faults::Who trade = faults::Who::electrician, const bench::Situation& around = {})
      : session(machine(), header(std::move(faults), trade, around), [this](std::string_view record) { journal += record; }) {}

  static bench::SessionHeader header(std::vector<bench::StartSetup::Fault> faults, faults::Who trade, const bench::Situation& around) {
    bench::SessionHeader h;
    h.machine = "hm-45";
    h.mode = "free";
    h.start.faults = std::move(faults);
    h.start.situation = around;
    h.start.situation.trade = trade;
    h.start.loaded = {{"whole_milk", 30.0, 6.0}};
    return h;
  }

  // Does it and steps one tick; what is refused is an error of the test.
  std::string act(ActionKind kind, const std::string& name = "", bool on = true) {
    const hands::Action one = action(kind, name, on);
    const std::string reason = hands::why_not(machine(), state(), one);
    CHECK_MESSAGE(reason.empty(), std::string(bench::action_entry(kind).name) << " " << name << ": " << reason);
    session.act(one);
    std::string text;
    for (const bench::Event& event : session.step()) {
      if (event.kind == bench::EventKind::acted && event.subject == static_cast<int>(kind)) text = event.text;
    }
    if (kind == ActionKind::press) run(1.0);  // a finger is on a key for a while
    return text;
  }
  std::string refused(ActionKind kind, const std::string& name = "") const { return hands::why_not(machine(), state(), action(kind, name)); }
  void run(double seconds) {
    for (int i = 0; i < static_cast<int>(10.0 * seconds); ++i) session.step();
  }
  const bench::State& state() const { return session.state(); }
  std::uint32_t lapses(Lapse lapse) const { return state().work.lapses[static_cast<std::size_t>(lapse)]; }

  void isolate_and_prove() {
    act(ActionKind::press, "stop");
    act(ActionKind::isolate, "", true);
    act(ActionKind::fit_lock, "you");
    act(ActionKind::take_key);
    run(90.0);  // the capacitor's label asks for 60 s
    act(ActionKind::take_panel_off);
    act(ActionKind::measure, "known_source");
    act(ActionKind::measure, "terminals");
    act(ActionKind::measure, "known_source");
  }
  double ohms(const std::string& a, const std::string& b) {
    act(ActionKind::red_probe, a);
    act(ActionKind::black_probe, b);
    return state().work.reading.over_range ? 1.0e9 : state().work.reading.value;
  }
  void give_back() {
    act(ActionKind::put_panel_on);
    act(ActionKind::remove_lock, "you");
    act(ActionKind::isolate, "", false);
    run(2.0);
    act(ActionKind::press, "stop");
  }
};

}  // namespace fault_work
