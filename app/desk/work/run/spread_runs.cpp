#include "app/desk/work/run/spread_runs.h"

#include <algorithm>
#include <chrono>
#include <utility>

#include "app/desk/kit/text/text.h"
#include "app/desk/work/run/live_run.h"
#include "app/records/store.h"
#include "sim_core/bench/run.h"
#include "sim_core/machine/uncertain.h"

namespace stirbench::desk::work {

using kit::tr;

namespace {

// As many as a chart has columns, about: more would not show.
constexpr std::uint64_t most_points = 600;

// Whole seconds between two points of the band, in ticks.
std::uint64_t ticks_between(std::uint64_t until_tick) {
  const std::uint64_t seconds = until_tick / machine::ticks_per_second;
  return machine::ticks_per_second * std::max<std::uint64_t>(1, (seconds + most_points - 1) / most_points);
}

// Widens the band, or begins it, by one run's states in their order.
class Widening {
 public:
  Widening(std::vector<views::TrendSpread>& band, std::uint64_t every_ticks)
      : band_(band), every_ticks_(every_ticks) {}

  void see(const machine::State& state) {
    if (state.tick % every_ticks_ != 0) return;
    const double degC = views::trend_sample(state)[views::TrendChannel::product];
    if (point_ == band_.size()) band_.push_back({machine::time_s(state), degC, degC});
    views::TrendSpread& point = band_[point_++];
    point.low_degC = std::min(point.low_degC, degC);
    point.high_degC = std::max(point.high_degC, degC);
  }

 private:
  std::vector<views::TrendSpread>& band_;
  std::uint64_t every_ticks_;
  std::size_t point_ = 0;
};

}  // namespace

SpreadQuestion spread_question(const LiveRun& run) {
  journal::Journal kept;
  // A run under way has no end record yet; what is read up to there is whole.
  journal::read_journal(run.journal_text(), kept);
  return {run.machine(), std::move(kept.header), std::move(kept.acts), run.state().tick};
}

bool may_spread(std::string_view mode) { return !records::counts_for_certificate(mode); }

SpreadRuns::Band SpreadRuns::work_out(const SpreadQuestion& question, Shared& shared,
                                      const std::function<void()>& wake) {
  Band band;
  for (int i = 0; i <= drawn_runs && !shared.cancelled; ++i) {
    const machine::Machine one =
        i == 0 ? question.machine : machine::drawn(question.machine, static_cast<std::uint64_t>(i));
    machine::State start;
    if (bench::build_start(one, question.header.start, start).empty()) {
      bench::Run run(one, start);
      Widening widening(band, ticks_between(question.until_tick));
      widening.see(run.state());
      bench::drive(
          run, journal::KeptInputs(question.acts),
          [&] { return run.state().tick >= question.until_tick || run.state().injured || shared.cancelled; },
          [&](const machine::State& state, const std::vector<machine::Event>&) { widening.see(state); });
    }
    if (shared.cancelled) break;
    shared.done = i;
    if (wake) wake();
  }
  return band;
}

std::string SpreadRuns::start(SpreadQuestion question) {
  cancel();
  if (!may_spread(question.header.mode)) return tr("Not in a test.");
  machine::State state;
  std::string wrong = bench::build_start(question.machine, question.header.start, state);
  if (!wrong.empty()) return wrong;
  shared_ = std::make_shared<Shared>();
  std::promise<Band> promise;
  running_ = promise.get_future();
  // The band is stored before `wake` is called, so that the woken thread finds it.
  worker_ = std::jthread([question = std::move(question), shared = shared_, wake = wake_,
                          promise = std::move(promise)]() mutable {
    promise.set_value(work_out(question, *shared, wake));
    if (wake) wake();
  });
  return {};
}

void SpreadRuns::cancel() {
  shared_->cancelled = true;
  if (worker_.joinable()) worker_.join();
  running_ = {};
  band_.clear();
}

bool SpreadRuns::poll() {
  if (!running_.valid() || running_.wait_for(std::chrono::seconds(0)) != std::future_status::ready)
    return false;
  band_ = running_.get();
  return true;
}

}  // namespace stirbench::desk::work
