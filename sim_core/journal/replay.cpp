#include "sim_core/bytes/hash64.h"
#include "sim_core/journal/journal.h"
#include "sim_core/journal/journal_text.h"

namespace stirbench::journal {

namespace {

// What else than the inputs is not as it was; told, but the hashes decide.
std::string differences(const Machine& machine, const Journal& journal) {
  if (machine.content_hash == journal.content_hash) return {};
  return "the content has changed since the journal was written (then " + journal.content_hash + ", now " +
         machine.content_hash + ")";
}

// Compares states with the hashes that a journal holds, and keeps the first difference in the result.
class HashCheck {
 public:
  HashCheck(const Machine& machine, const Journal& journal, ReplayResult& result)
      : machine_(machine), journal_(journal), result_(result) {}

  void operator()(const State& state, const std::vector<Event>&) {
    result_.tick = state.tick;
    if (!result_.comparable || next_ >= journal_.hashes.size() || journal_.hashes[next_].tick != state.tick)
      return;
    agrees(state, journal_.hashes[next_++].hash);
  }
  bool agrees(const State& state, std::uint64_t expected) {
    const std::uint64_t found = machine::state_hash(state);
    if (found == expected) return true;
    good_ = false;
    result_.message = "the run differs at tick " + std::to_string(state.tick) + " (" +
                      std::to_string(state.tick / machine::ticks_per_second) +
                      " s), or in the second before it: expected state hash " + bytes::hex64(expected) +
                      ", found " + bytes::hex64(found);
    const std::string why = differences(machine_, journal_);
    if (!why.empty()) result_.message += "; " + why;
    return false;
  }
  bool good() const { return good_; }

 private:
  const Machine& machine_;
  const Journal& journal_;
  ReplayResult& result_;
  std::size_t next_ = 0;
  bool good_ = true;
};

std::uint64_t last_tick(const Journal& journal) {
  if (journal.ended) return journal.end_tick;
  return journal.hashes.empty() ? 0 : journal.hashes.back().tick;
}

}  // namespace

ReplayResult replay(const Machine& machine, const Journal& journal, const Watch& watch) {
  ReplayResult result;
  result.comparable = journal.format >= first_comparable_format;
  if (machine.plant.id != journal.header.machine) {
    result.message =
        "the journal is of machine \"" + journal.header.machine + "\", not of \"" + machine.plant.id + "\"";
    return result;
  }
  const std::string wrong = bench::build_start(machine, journal.header.start, result.state);
  if (!wrong.empty()) {
    result.message = "the start cannot be built: " + wrong;
    return result;
  }
  bench::Run run(machine, result.state);
  HashCheck check(machine, journal, result);
  const std::uint64_t end = last_tick(journal);
  const auto watched = [&watch](const State& state, const std::vector<Event>& events) {
    if (watch) watch(state, events);
  };
  bench::drive(
      run, KeptInputs(journal.acts), [&] { return run.state().tick >= end || !check.good(); }, watched,
      check);
  result.state = run.state();
  if (!check.good()) return result;
  if (!result.comparable) {
    result.message =
        "the journal is of format " + std::to_string(journal.format) +
        ", whose state hashes this program cannot compare: it was run again to its end, but not verified";
    return result;
  }
  if (journal.ended && !check.agrees(result.state, journal.end_hash)) return result;
  result.verified = true;
  result.message = differences(machine, journal);
  return result;
}

}  // namespace stirbench::journal
