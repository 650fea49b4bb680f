#include "app/desk/work/debrief/debrief_model.h"

#include <algorithm>
#include <cmath>

namespace stirbench::desk::work {

namespace {

// At most about this many snapshots are kept: one each second for runs up to two hours, sparser for longer
// ones.
constexpr double most_snapshots = 7200.0;

}  // namespace

const machine::State& DebriefModel::at(double time_s) const {
  if (time_s >= end_s()) return snapshots.back();
  const double index = std::floor(std::max(0.0, time_s) / every_s);
  const auto last = snapshots.size() - 1;
  return snapshots[std::min(last, static_cast<std::size_t>(index))];
}

DebriefModel build_debrief(const machine::Machine& machine, const training::Lesson* lesson,
                           const std::string& journal_text) {
  DebriefModel model;
  const journal::JournalProblem fault = journal::read_journal(journal_text, model.journal);
  const std::uint64_t last_tick = model.journal.ended            ? model.journal.end_tick
                                  : model.journal.hashes.empty() ? 0
                                                                 : model.journal.hashes.back().tick;
  const double length_s = static_cast<double>(last_tick) / machine::ticks_per_second;
  model.every_s = std::max(1.0, std::ceil(length_s / most_snapshots));
  const auto every_ticks = static_cast<std::uint64_t>(model.every_s) * machine::ticks_per_second;

  model.judge.emplace(machine);
  std::optional<training::Scorer> scorer;
  if (lesson != nullptr) {
    scorer.emplace(*lesson);
    model.drawn = lesson->drawn;
  }
  try {
    model.snapshots.push_back(bench::initial_state(machine, model.journal.header.start));
  } catch (const std::invalid_argument& error) {
    model.problem = error.what();
    return model;
  }
  const journal::ReplayResult result = journal::replay(
      machine, model.journal, [&](const machine::State& state, const std::vector<machine::Event>& events) {
        model.history.insert(model.history.end(), events.begin(), events.end());
        model.judge->see(state);
        if (scorer) {
          scorer->see(training::Moment{machine, state, events});
          while (static_cast<int>(model.step_began_s.size()) < scorer->current_step())
            model.step_began_s.push_back(machine::time_s(state));
        }
        if (state.tick % every_ticks == 0) model.snapshots.push_back(state);
      });
  model.ended_s = machine::time_s(result.state);
  if (model.snapshots.back().tick < result.state.tick) model.snapshots.push_back(result.state);
  const std::vector<machine::Event> quiet;
  if (scorer) model.card = scorer->card(training::Moment{machine, result.state, quiet});
  model.verified = fault.message.empty() && result.verified;
  model.problem = !fault.message.empty() ? fault.message : result.verified ? "" : result.message;
  return model;
}

}  // namespace stirbench::desk::work
