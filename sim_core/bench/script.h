#pragma once

#include <string>
#include <vector>

#include "sim_core/bench/session.h"

namespace stirbench::bench {

// Plays timed actions into a session: the actions that are due are passed on before each tick; an `at_phase`
// entry, and all after it, waits until that phase has begun.
class Script {
 public:
  explicit Script(std::vector<TimedAction> actions) : actions_(std::move(actions)) {}
  void feed(Session& session);      // call before session.step()
  bool finished() const { return next_ >= actions_.size(); }
  // Call with each tick's events so that phases are seen.
  void see(const std::vector<Event>& events, double now_s);

 private:
  std::vector<TimedAction> actions_;
  std::size_t next_ = 0;
  std::vector<std::pair<std::string, double>> phases_seen_;  // latest begin time of each phase id
};

}  // namespace stirbench::bench
