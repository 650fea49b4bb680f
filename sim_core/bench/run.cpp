#include "sim_core/bench/run.h"

namespace stirbench::bench {

Run::Run(const Machine& machine, State start) : machine_(&machine), state_(start) {
  pending_.actions.reserve(8);
  events_.reserve(32);
}

const std::vector<Event>& Run::step() {
  events_.clear();
  bench::step(*machine_, state_, pending_, events_);
  pending_.actions.clear();
  return events_;
}

}  // namespace stirbench::bench
