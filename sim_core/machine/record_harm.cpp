#include "sim_core/machine/record_harm.h"

#include <algorithm>

namespace stirbench::machine {

void record_harm(State& state, HarmId id, double severity, std::vector<Event>& events) {
  Harm& harm = state.harms[static_cast<std::size_t>(id)];
  if (!harm.happened) harm.tick = state.tick;
  harm.severity = harm.happened ? std::max(harm.severity, severity) : severity;
  harm.happened = true;
  if (harm_is_injury(id) && !state.injured) {
    state.injured = true;
    state.injury = id;
  }
  events.push_back({state.tick, EventKind::harm, static_cast<std::int32_t>(id), std::string(harm_text(id)),
                    severity, std::string(harm_key(id))});
}

}  // namespace stirbench::machine
