#include "app/desk/work/run/pacing.h"

#include <algorithm>
#include <utility>

#include "sim_core/machine/machine.h"

namespace stirbench::desk::work {

namespace {

// The clock is read once in this many ticks: often enough to keep the budget, seldom enough to cost nothing.
constexpr std::uint64_t ticks_between_looks = 64;
// A frame that took longer than this (a dragged window, a sleeping laptop) counts as this much.
constexpr double longest_frame_s = 0.25;
constexpr double measure_window_s = 1.0;

}  // namespace

Pacing::Pacing(Clock clock) : clock_(std::move(clock)), last_(clock_()), measure_began_(last_) {}

void Pacing::set_speed(double times_real) {
  speed_ = std::clamp(times_real, 0.1, 1.0e4);
  owed_ticks_ = 0.0;
}

void Pacing::pause(bool paused) {
  paused_ = paused;
  if (paused) rushing_ = false;
  owed_ticks_ = 0.0;
  last_ = clock_();
}

void Pacing::rush(bool on) {
  rushing_ = on;
  if (on) paused_ = false;
  owed_ticks_ = 0.0;
}

std::uint64_t Pacing::run_frame(const std::function<bool()>& step, double budget_s) {
  const double began = clock_();
  const double elapsed_s = std::clamp(began - last_, 0.0, longest_frame_s);
  last_ = began;
  if (paused_) {
    measured_rate_ = 0.0;
    measure_began_ = began;
    measured_ticks_ = 0;
    return 0;
  }
  owed_ticks_ += elapsed_s * speed_ * machine::ticks_per_second;
  std::uint64_t stepped = 0;
  while (rushing_ || owed_ticks_ >= 1.0) {
    if (stepped > 0 && stepped % ticks_between_looks == 0 && clock_() - began > budget_s) {
      owed_ticks_ = 0.0;  // cannot keep up: run slower rather than freeze
      break;
    }
    ++stepped;
    owed_ticks_ = std::max(0.0, owed_ticks_ - 1.0);
    if (!step()) {
      rushing_ = false;
      owed_ticks_ = 0.0;
      break;
    }
  }
  measure(stepped, clock_());
  return stepped;
}

void Pacing::measure(std::uint64_t stepped, double now) {
  measured_ticks_ += stepped;
  const double window = now - measure_began_;
  if (window < measure_window_s) return;
  measured_rate_ = static_cast<double>(measured_ticks_) / machine::ticks_per_second / window;
  measure_began_ = now;
  measured_ticks_ = 0;
}

}  // namespace stirbench::desk::work
