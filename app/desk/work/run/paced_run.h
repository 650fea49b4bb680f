#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/desk/views/trend/trend_log.h"
#include "app/desk/work/run/live_run.h"
#include "app/desk/work/run/pacing.h"

namespace stirbench::desk::work {

// A run that goes with the clock, as the training screen keeps it: how fast it goes, what the trend remembers
// of it, and what the person is to be told after a frame. The run itself is the desk's and is handed in.
class PacedRun {
 public:
  explicit PacedRun(Pacing::Clock clock) : pacing_(std::move(clock)) {}

  Pacing& pacing() { return pacing_; }
  const Pacing& pacing() const { return pacing_; }
  const views::TrendLog& log() const { return log_; }

  // Whether simulated time goes on in the next frame.
  bool goes(const LiveRun& run) const;

  // A part that was pointed at, and whether that was the step's answer.
  struct PointedOut {
    std::string part;
    bool right = false;
  };
  // What a frame brought: what stopped it (kind none: nothing did), and the last part pointed at in it.
  struct News {
    Attention attention;
    std::optional<PointedOut> pointed;
  };
  // Steps this frame's share, at most for the frame's budget of wall time. Stops at what needs the person; an
  // injury pauses.
  News run_frame(LiveRun& run);

  // Hands act with the next tick. Hands move only in running time, so a pause ends. Returns the refusals, in
  // order.
  std::vector<std::string> hand_over(LiveRun& run, const std::vector<hands::Action>& actions);

  // For another run from its beginning: goes at once, with an empty trend.
  void begin_afresh();

 private:
  bool step(LiveRun& run, News& news);

  Pacing pacing_;
  views::TrendLog log_;
};

}  // namespace stirbench::desk::work
