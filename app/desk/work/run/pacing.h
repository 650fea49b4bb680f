#pragma once

#include <cstdint>
#include <functional>

namespace stirbench::desk::work {

// How fast simulated time runs against the wall clock. Physics never reads the clock: this class only decides
// how many ticks the next frame may step. A slow computer runs slower, never differently. The clock is
// injected, so that tests own time.
class Pacing {
 public:
  using Clock = std::function<double()>;  // wall seconds, monotonic
  explicit Pacing(Clock clock);

  void set_speed(double times_real);  // 1, 10, 60, 300
  double speed() const { return speed_; }
  void pause(bool paused);
  bool paused() const { return paused_; }

  // Runs as fast as the frame's budget allows until `step` says stop ("to my next step").
  void rush(bool on);
  bool rushing() const { return rushing_; }

  // Steps this frame's share: calls `step` for each due tick, stops early when it returns false (which ends a
  // rush), when the frame's budget of wall time is used up, or when nothing is due. Time not caught up is
  // dropped, not carried over. Returns the number of ticks stepped.
  std::uint64_t run_frame(const std::function<bool()>& step, double budget_s);

  // Simulated seconds per wall second over about the last second; 0 when paused.
  double measured_rate() const { return measured_rate_; }

 private:
  void measure(std::uint64_t stepped, double now);

  Clock clock_;
  double speed_ = 1.0;
  bool paused_ = false;
  bool rushing_ = false;
  double last_ = 0.0;
  double owed_ticks_ = 0.0;
  double measure_began_ = 0.0;
  std::uint64_t measured_ticks_ = 0;
  double measured_rate_ = 0.0;
};

}  // namespace stirbench::desk::work
