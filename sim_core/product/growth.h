#pragma once

#include <cstddef>
#include <vector>

#include "sim_core/product/rules.h"
#include "sim_core/product/vat_sample.h"

// Microbial growth during cooling, cold holding and waiting.
//
// Rate by the square root (Ratkowsky et al. 1983, J Bacteriol 154:1222) or by cardinal temperatures (Rosso et
// al. 1993, J Theor Biol 162:447, from memory); lag and upper limit after Baranyi & Roberts 1994: d(ln q)/dt
// = mu, d(ln N)/dt = mu q/(1+q) (1 - N/N_max), q_0 = 1/(e^h0 - 1). Each step is solved in closed form at its
// mean rate. The zone with the faster growth counts. A heat treatment (coldest zone at 60 degC or above)
// resets growth and lag: vegetative cells are dead, and spores begin to germinate afterwards. Figures for
// teaching; they do not permit keeping food warm.
namespace stirbench::product {

double growth_log10_per_h(const Growth& organism, double t_degC);

// One population: growth since the start [log10], and the progress of its lag phase.
struct Population {
  double grown_log10 = 0.0;
  double ln_q = 0.0;
};
Population fresh_population(const Growth& organism);
// Advances by dt_s at a constant rate.
void advance_population(Population& population, const Growth& organism, double rate_log10_per_h, double dt_s);

class GrowthWatch {
 public:
  explicit GrowthWatch(const std::vector<Growth>& organisms);  // must outlive the watch and its copies
  void see(const VatSample& sample);
  double grown_log10(std::size_t organism) const { return now_[organism].grown_log10; }
  std::size_t size() const { return now_.size(); }

 private:
  const std::vector<Growth>* organisms_;
  std::vector<Population> now_;
  VatSample before_;
  bool seen_ = false;
};

inline constexpr double growth_restart_degC = 60.0;

}  // namespace stirbench::product
