#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <string>
#include <vector>

#include "sim_core/machine/event.h"
#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// Recorder of one run for the trend chart: a sample a simulated second in compact floats, with a min/max
// pyramid so that a chart of any span reads a number of values that depends on its pixels only.
namespace stirbench::desk::views {

enum class TrendChannel : std::uint8_t { product, well, wall, heaters, chiller, drive, count };
inline constexpr std::size_t trend_channel_count = static_cast<std::size_t>(TrendChannel::count);

struct TrendSample {
  std::array<float, trend_channel_count> value{};  // degC and W
  float operator[](TrendChannel channel) const { return value[static_cast<std::size_t>(channel)]; }
};

enum class TrendMarkKind : std::uint8_t { alarm, pour, lid, cover, draw, harm, note };
struct TrendMark {
  double time_s = 0.0;
  TrendMarkKind kind = TrendMarkKind::note;
  std::string words;
};

struct TrendBand {
  double from_s = 0.0;  // to the next band, or to the end
  std::string label;    // empty: no phase
};

// Between what the product's temperature may lie at a moment, as far as the model knows.
struct TrendSpread {
  double time_s = 0.0;
  double low_degC = 0.0;
  double high_degC = 0.0;
};

struct TrendRange {
  float low = 0.0F;
  float high = 0.0F;
  bool any = false;
};

class TrendLog {
 public:
  static constexpr std::size_t capacity = 24U * 3600U;  // samples kept; older ones go, an hour at a time

  void clear();
  // The sample of whole second `second`. Earlier than the last: ignored. Later than last + 1: the gap holds
  // the last value.
  void add(std::uint64_t second, const TrendSample& sample);
  void mark(TrendMark mark) { marks_.push_back(std::move(mark)); }
  void phase(double time_s, std::string label);
  // Once a tick (cheap between seconds): takes the sample when a second is full, and marks from the tick's
  // events.
  void record(const machine::Machine& machine, const machine::State& state,
              std::span<const machine::Event> events = {});

  bool empty() const { return samples_.empty(); }
  std::size_t size() const { return samples_.size(); }
  double start_s() const { return static_cast<double>(first_second_); }
  double end_s() const { return empty() ? start_s() : start_s() + static_cast<double>(samples_.size() - 1); }
  // Sample at or before a time; clamped. Needs a log that is not empty.
  const TrendSample& at(double time_s) const;
  // Least and greatest of the samples in [from_s, to_s], both ends included.
  TrendRange range(TrendChannel channel, double from_s, double to_s) const;
  const std::vector<TrendMark>& marks() const { return marks_; }
  const std::vector<TrendBand>& bands() const { return bands_; }

 private:
  struct Pair {
    float low;
    float high;
  };
  using Block = std::array<Pair, trend_channel_count>;
  void push(const TrendSample& sample);
  void grow_pyramid();
  void drop_oldest();
  std::uint64_t first_second_ = 0;
  std::vector<TrendSample> samples_;
  std::vector<std::vector<Block>> levels_;  // level k: blocks of 8^(k+1) samples, whole ones only
  std::vector<TrendMark> marks_;
  std::vector<TrendBand> bands_;
};

TrendSample trend_sample(const machine::State& state);

}  // namespace stirbench::desk::views
