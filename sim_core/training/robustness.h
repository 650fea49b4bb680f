#pragma once

#include <cstddef>
#include <vector>

// How clearly something held or failed: the quantitative semantics of Signal Temporal Logic over a sampled
// trace.
//
// Source: A. Donze and O. Maler, "Robust satisfaction of temporal logic over real-valued signals", FORMATS
// 2010.
//   rho(x >= c) = x - c, rho(x <= c) = c - x, not: -rho, and: min, or: max, p -> q: max(-rho p, rho q)
//   F: max over the window, G: min over it.   rho > 0: it holds, rho < 0: it fails, 0: undecided.
// The sign agrees with the monitors' verdicts (monitors.h); the size is the margin. One entry per sample;
// windows count samples.
//
// Until is half open: `left` must hold from t to just before the sample in which `right` does. Since
// likewise, looking back. A window that reaches beyond the trace is clipped; one wholly outside it gives
// -infinity (F, once) or +infinity (G, historically). Mixed units: divide each predicate by its tolerance
// first (`in_tolerances`), otherwise min and max compare degrees with rpm.
namespace stirbench::training {

using Margins = std::vector<double>;

// Samples from..to after (or before) the sample itself; `to` may be `no_end`.
struct SampleWindow {
  std::size_t from = 0;
  std::size_t to = 0;
};
inline constexpr std::size_t no_end = static_cast<std::size_t>(-1);
inline constexpr SampleWindow whole{0, no_end};
// A flag has no "almost": it is coded large, so that it never hides a number's margin.
inline constexpr double certain = 1.0e9;

Margins at_least(const std::vector<double>& x, double bound);
Margins at_most(const std::vector<double>& x, double bound);
Margins flag(const std::vector<bool>& x);
Margins in_tolerances(const Margins& p, double tolerance);  // tolerance > 0, in the predicate's unit

Margins negate(const Margins& p);
// Of the same length; throws std::invalid_argument else.
Margins both(const Margins& p, const Margins& q);
Margins either(const Margins& p, const Margins& q);
Margins implies(const Margins& p, const Margins& q);

Margins eventually(const Margins& p, SampleWindow window = whole);
Margins always(const Margins& p, SampleWindow window = whole);
Margins once(const Margins& p, SampleWindow window = whole);
Margins historically(const Margins& p, SampleWindow window = whole);
Margins until(const Margins& left, const Margins& right, SampleWindow window = whole);
Margins since(const Margins& left, const Margins& right, SampleWindow window = whole);

// For how many more samples the verdict at `at` stays the same, with its sign: + holds, - fails.
double time_margin(const Margins& p, std::size_t at);

// Partial credit from a margin in tolerances: 1 when it holds (> 0), else falling linearly to 0 at one
// tolerance beyond the bound.
double credit_norm(double margin_in_tolerances);

}  // namespace stirbench::training
