#include "sim_core/bench/journal.h"
#include "sim_core/bench/journal_text.h"

namespace stirbench::bench {

namespace {

std::string hex(std::uint64_t value) {
  std::string out;
  append_hex64(out, value);
  return out;
}

// What else than the inputs is not as it was; told, but the hashes decide.
std::string differences(const Machine& machine, const Journal& journal) {
  if (machine.content_hash == journal.content_hash) return {};
  return "the content has changed since the journal was written (then " + journal.content_hash + ", now " +
         machine.content_hash + ")";
}

// Compares one state with what the journal says about its tick; false on the first difference.
bool agrees(const Machine& machine, const Journal& journal, std::uint64_t expected, ReplayResult& result) {
  const std::uint64_t found = state_hash(result.state);
  if (found == expected) return true;
  result.verified = false;
  result.message = "the run differs at tick " + std::to_string(result.state.tick) + " (" +
                   std::to_string(result.state.tick / ticks_per_second) + " s), or in the second before it: expected state hash " +
                   hex(expected) + ", found " + hex(found);
  const std::string why = differences(machine, journal);
  if (!why.empty()) result.message += "; " + why;
  return false;
}

}  // namespace

ReplayResult replay(const Machine& machine, const Journal& journal, const Watch& watch) {
  ReplayResult result;
  result.comparable = journal.format >= first_comparable_format;
  if (machine.plant.id != journal.header.machine) {
    result.message = "the journal is of machine \"" + journal.header.machine + "\", not of \"" + machine.plant.id + "\"";
    return result;
  }
  const std::string wrong = build_start(machine, journal.header.start, result.state);
  if (!wrong.empty()) {
    result.message = "the start cannot be built: " + wrong;
    return result;
  }
  const std::uint64_t last_tick =
      journal.ended ? journal.end_tick : journal.hashes.empty() ? 0 : journal.hashes.back().tick;
  std::size_t next_act = 0;
  std::size_t next_hash = 0;
  Inputs inputs;
  std::vector<Event> events;
  while (result.state.tick < last_tick) {
    inputs.actions.clear();
    for (; next_act < journal.acts.size() && journal.acts[next_act].tick <= result.state.tick; ++next_act) {
      inputs.actions.push_back(journal.acts[next_act].action);
    }
    events.clear();
    step(machine, result.state, inputs, events);
    result.tick = result.state.tick;
    if (watch) watch(result.state, events);
    if (result.comparable && next_hash < journal.hashes.size() && journal.hashes[next_hash].tick == result.state.tick) {
      if (!agrees(machine, journal, journal.hashes[next_hash].hash, result)) return result;
      ++next_hash;
    }
  }
  if (!result.comparable) {
    result.message = "the journal is of format " + std::to_string(journal.format) +
                     ", whose state hashes this program cannot compare: it was run again to its end, but not verified";
    return result;
  }
  if (journal.ended && !agrees(machine, journal, journal.end_hash, result)) return result;
  result.verified = true;
  result.message = differences(machine, journal);
  return result;
}

}  // namespace stirbench::bench
