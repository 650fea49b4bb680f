#pragma once

#include <concepts>
#include <cstdint>
#include <utility>
#include <vector>

#include "sim_core/bench/step.h"

// A run: one constant machine, one state, and the one loop that steps it. Sessions with a journal, replays,
// lessons, simulated broken machines and estimates are all this loop with another source of inputs and other
// observers.
namespace stirbench::bench {

using machine::Event;

class Run {
 public:
  // The machine must outlive the run.
  Run(const Machine& machine, State start);

  // Hands: done at the beginning of the next tick, in the order of the calls.
  void act(const hands::Action& action) { pending_.actions.push_back(action); }
  // Advances one tick; returns its events (valid until the next call). No allocation in a tick in which
  // nothing happens.
  const std::vector<Event>& step();

  const Machine& machine() const { return *machine_; }
  const State& state() const { return state_; }

 private:
  const Machine* machine_;
  State state_;
  Inputs pending_;
  std::vector<Event> events_;
};

// What can be driven: a Run, or something that does more in each tick (a journal's session, a lesson's run).
template <typename R>
concept Drivable = requires(R& run, const hands::Action& action) {
  { std::as_const(run).state() } -> std::same_as<const State&>;
  run.act(action);
  { run.step() } -> std::same_as<const std::vector<Event>&>;
};

// Where inputs come from: the next action that is due in this state, nullptr when there is none (any more)
// for the coming tick.
template <typename S>
concept InputSource = requires(S& source, const State& state) {
  { source.due(state) } -> std::same_as<const hands::Action*>;
};

struct NoInputs {
  const hands::Action* due(const State&) { return nullptr; }
};

// Until over(): what the source has for this moment, one tick, then each observer in its order, called with
// (state, events). A source that goes by events (see(state, events)) sees them before the observers do.
template <Drivable R, InputSource S, typename Over, typename... Observers>
void drive(R& run, S&& source, Over&& over, Observers&&... observers) {
  while (!over()) {
    while (const hands::Action* action = source.due(run.state())) run.act(*action);
    const std::vector<Event>& events = run.step();
    if constexpr (requires { source.see(run.state(), events); }) source.see(run.state(), events);
    (observers(run.state(), events), ...);
  }
}

}  // namespace stirbench::bench
