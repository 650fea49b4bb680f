#pragma once

#include <cstddef>
#include <vector>

#include "sim_core/product/rules.h"
#include "sim_core/product/vat_sample.h"

// Judges a run by each heat-treatment rule (HeatRule) on the coldest zone.
//
// A rule's clock runs while BOTH zones are at or above its temperature and, where the rule requires it, the
// air space is warm enough, the zones are close together and the agitator turns. Moments are interpolated
// linearly between two samples, so a hold of 0.5 s is judged to the hundredth with samples every 0.1 s. Any
// break restarts the clock. Any addition (poured or rinsed in) restarts the clocks of all rules and revokes
// what was met, because it makes a new batch (1 NYCRR 2.45(b)(3): every particle; that late additions restart
// the hold is from memory, as PMO practice). A vat that was emptied keeps its verdicts until something is
// poured in.
namespace stirbench::product {

// Why a rule is not met: the first reason that applies.
enum class HeatRuleShortfall : unsigned char {
  none,         // it is met
  added_after,  // it was met, and an addition revoked that
  too_cool,     // the coldest zone never reached the temperature
  air_space,    // hot enough, but the air above the product was too cool
  spread,       // hot enough, but the zones were too far apart
  not_stirred,  // hot enough, but the agitator was stopped
  too_short     // held, but not long enough
};

struct HeatRuleVerdict {
  bool met = false;
  double at_s = -1.0;        // moment at which it was met; -1 never
  double held_s = 0.0;       // longest unbroken hold since the last addition
  double short_s = 0.0;      // hold still missing; 0 when met
  double short_K = 0.0;      // temperature missing in the coldest zone at its hottest; 0 when it was reached
  double undone_s = -1.0;    // moment of the addition that revoked it; -1 none
  double widest_K = 0.0;     // difference of the zones while both were hot enough, since the last addition
  double mean_span_K = 0.0;  // and its mean over the longest hold
  HeatRuleShortfall why = HeatRuleShortfall::too_cool;
};

class HeatRuleWatch {
 public:
  // The rows must outlive the watch and its copies.
  explicit HeatRuleWatch(const std::vector<HeatRule>& rows);

  // Samples in ascending time. Allocates nothing.
  void see(const VatSample& sample);

  HeatRuleVerdict verdict(std::size_t row) const;
  std::size_t size() const { return memory_.size(); }
  std::size_t met_count() const { return met_; }
  double hottest_degC() const { return hottest_degC_; }  // of the coldest zone since the last addition

 private:
  struct Memory {
    double held_s = 0.0;
    double best_s = 0.0;
    double met_s = -1.0;
    double undone_s = -1.0;
    double widest_K = 0.0;
    double held_Ks = 0.0;  // difference of the zones times time, over the present and the longest hold
    double best_Ks = 0.0;
    HeatRuleShortfall kept_by =
        HeatRuleShortfall::too_short;  // requirement besides temperature that broke or delayed the hold
  };
  void start_again(double t_s);
  void judge(const HeatRule& row, Memory& memory, const VatSample& now);

  const std::vector<HeatRule>* rows_;
  std::vector<std::size_t> by_heat_;  // indices, coolest row first
  std::vector<Memory> memory_;
  VatSample before_;
  bool seen_ = false;
  double hottest_degC_ = -300.0;
  std::size_t met_ = 0;
};

}  // namespace stirbench::product
