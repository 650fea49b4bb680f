#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sim_core/bench/run.h"

namespace stirbench::bench {

// Timed actions as a source of inputs (run.h): each is due at its time; an `at_phase` entry (and all after
// it) waits until that phase has begun.
class ActionScript {
 public:
  explicit ActionScript(std::vector<hands::TimedAction> actions) : actions_(std::move(actions)) {}
  const hands::Action* due(const State& state);
  // Phases that begin.
  void see(const State& state, const std::vector<Event>& events);
  bool finished() const { return next_ >= actions_.size(); }

 private:
  std::vector<hands::TimedAction> actions_;
  std::size_t next_ = 0;
  std::vector<std::pair<std::string, double>> phases_seen_;  // latest begin time of each phase id
};

}  // namespace stirbench::bench
