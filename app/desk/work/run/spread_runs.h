#pragma once

#include <atomic>
#include <cstdint>
#include <functional>
#include <future>
#include <memory>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include "app/desk/views/trend/trend_log.h"
#include "sim_core/journal/journal.h"
#include "sim_core/machine/machine.h"

// What the model leaves open of a run: the same start and the same inputs at the same times on machines whose
// uncertain constants are drawn (sim_core/machine/uncertain.h). No drawing.
namespace stirbench::desk::work {

class LiveRun;

// All that is needed of a run; copies, so that the run itself goes on or ends as it likes.
struct SpreadQuestion {
  machine::Machine machine;
  journal::SessionHeader header;
  std::vector<journal::JournalAct> acts;
  std::uint64_t until_tick = 0;
};
// Of a run under way, up to its present tick.
SpreadQuestion spread_question(const LiveRun& run);

// Whether a run of this mode (a journal header's) may be asked about: not one that counts for a certificate.
bool may_spread(std::string_view mode);

// The runs, on a thread of their own. All members belong to the calling thread; only the work itself and
// `wake` run on the other one.
class SpreadRuns {
 public:
  static constexpr int drawn_runs = 12;  // of seeds 1 .. 12; choice

  // `wake` is called on the other thread when there is something new to draw. It may be empty.
  explicit SpreadRuns(std::function<void()> wake = {}) : wake_(std::move(wake)) {}
  ~SpreadRuns() { cancel(); }
  SpreadRuns(const SpreadRuns&) = delete;
  SpreadRuns& operator=(const SpreadRuns&) = delete;

  // Begins; what ran before is cancelled and its band forgotten. Empty, or why nothing was begun.
  std::string start(SpreadQuestion question);
  // Ends within a tick of the run that is worked on. There is no band afterwards.
  void cancel();
  // True when the band arrived in this call.
  bool poll();
  bool busy() const { return running_.valid(); }
  int done() const { return shared_->done.load(); }  // of drawn_runs
  // The least and the greatest probe reading of the drawn runs and of the machine as it stands, at whole
  // seconds evenly from the start to `until_tick`. A run in which somebody is hurt ends there and counts up
  // to then. The same question gives the same band. Empty until all runs are done.
  const std::vector<views::TrendSpread>& band() const { return band_; }

 private:
  struct Shared {
    std::atomic<bool> cancelled{false};
    std::atomic<int> done{0};
  };
  using Band = std::vector<views::TrendSpread>;
  static Band work_out(const SpreadQuestion& question, Shared& shared, const std::function<void()>& wake);

  std::function<void()> wake_;
  std::shared_ptr<Shared> shared_ = std::make_shared<Shared>();
  std::future<Band> running_;
  Band band_;
  std::jthread worker_;
};

}  // namespace stirbench::desk::work
