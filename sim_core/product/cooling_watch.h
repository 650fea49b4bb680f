#pragma once

#include <array>
#include <cstddef>
#include <vector>

#include "sim_core/product/rules.h"
#include "sim_core/product/vat_sample.h"

// Judges cooling, cold storage and ageing on the warmest zone. Each rule has its own clock; moments are
// interpolated linearly between samples.
//
//   falls_below  runs from the moment in which the warmest product falls below from_degC. Reheating it to
//                from_degC stops the clock until it falls again; a miss stays a miss for this batch.
//   heat_ends    runs from the moment in which the coldest product drops 2 K below its highest temperature
//                for good, when that was at least from_degC (2 K: the width of a hold as the controller keeps
//                it; a choice of this project).
//   made_cold    runs from the last addition; does not apply once the warmest product reaches from_degC.
// A storage limit applies from the moment in which the batch is first that cold after heating or after the
// last addition. Time above it counts once it has lasted a minute, and then from its beginning (a recorder's
// usual interval; a choice of this project). Ageing time adds up while the batch is cold enough and is lost
// above 15 degC, where the fat melts again.
namespace stirbench::product {

enum class CoolingState : unsigned char {
  waiting,  // the clock has not started
  running,
  kept,  // every stage in time
  missed,
  does_not_apply  // made_cold, but the batch was heated
};

struct CoolingVerdict {
  CoolingState state = CoolingState::waiting;
  double start_s = -1.0;  // when the clock started
  std::size_t stage = 0;  // the stage under way, or the one that was missed
  double at_s = -1.0;     // kept: when the last stage was reached; missed: when time ran out
  std::array<double, 4> took_s{
      {-1.0, -1.0, -1.0, -1.0}};  // time from the start to each stage; -1 not reached
};
inline constexpr std::size_t most_stages = 4;

struct StorageVerdict {
  double cold_s = -1.0;       // moment from which it counts; -1 not yet cold
  double above_s = 0.0;       // time above the limit since, in stretches of a minute or more
  double longest_s = 0.0;     // longest unbroken time above it; 0 while none has lasted a minute
  double warmest_degC = 0.0;  // warmest since
  double use_by_s = -1.0;     // date mark as simulated time; -1 none
};

struct AgeingVerdict {
  double aged_s = 0.0;
  double done_s = -1.0;  // moment at which it had aged long enough; -1 not yet
};

class CoolingWatch {
 public:
  explicit CoolingWatch(const Rules& rules);  // must outlive the watch and its copies
  void see(const VatSample& sample);

  CoolingVerdict cooling(std::size_t rule) const { return cooling_[rule]; }
  StorageVerdict storage(std::size_t rule) const;
  AgeingVerdict ageing(std::size_t rule) const { return ageing_[rule]; }

 private:
  struct Storage {
    StorageVerdict verdict;
    double run_s = 0.0;
  };
  void forget();
  void start_clock(const CoolingRule& rule, CoolingVerdict& clock, const VatSample& now);
  void run_clock(const CoolingRule& rule, CoolingVerdict& clock, const VatSample& now);
  void store(const StorageRule& rule, Storage& storage, const VatSample& now);
  void age(const AgeingRule& rule, AgeingVerdict& ageing, const VatSample& now);

  const Rules* rules_;
  std::vector<CoolingVerdict> cooling_;
  std::vector<Storage> storage_;
  std::vector<AgeingVerdict> ageing_;
  VatSample before_;
  bool seen_ = false;
  double made_s_ = 0.0;           // moment of the last addition
  double peak_degC_ = -300.0;     // of the coldest zone since then
  double left_peak_s_ = -1.0;     // when it last was within 2 K of it
  double warmest_degC_ = -300.0;  // of the warmest zone since then
};

}  // namespace stirbench::product
