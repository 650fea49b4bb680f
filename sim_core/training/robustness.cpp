#include "sim_core/training/robustness.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace stirbench::training {

namespace {

constexpr double infinite = std::numeric_limits<double>::infinity();

template <class Each>
Margins each(std::size_t count, Each&& work) {
  Margins out(count);
  for (std::size_t i = 0; i < count; ++i) out[i] = work(i);
  return out;
}

template <class Pair>
Margins paired(const Margins& p, const Margins& q, Pair&& work) {
  if (p.size() != q.size()) throw std::invalid_argument("margins of two traces of different length");
  return each(p.size(), [&](std::size_t i) { return work(p[i], q[i]); });
}

// The extreme of p over the window that begins at each sample. `ahead`: looking forward.
template <class Pick>
Margins over(const Margins& p, SampleWindow window, bool ahead, double start, Pick&& pick) {
  return each(p.size(), [&](std::size_t i) {
    double best = start;
    const std::size_t room = ahead ? p.size() - 1 - i : i;
    for (std::size_t k = window.from; k <= std::min(window.to, room) && k <= room; ++k)
      best = pick(best, p[ahead ? i + k : i - k]);
    return best;
  });
}

const auto larger = [](double a, double b) { return std::max(a, b); };
const auto smaller = [](double a, double b) { return std::min(a, b); };

Margins reach(const Margins& left, const Margins& right, SampleWindow window, bool ahead) {
  if (left.size() != right.size()) throw std::invalid_argument("margins of two traces of different length");
  return each(left.size(), [&](std::size_t i) {
    double best = -infinite;
    double held = infinite;  // min of left over [t, t')
    const std::size_t room = ahead ? left.size() - 1 - i : i;
    for (std::size_t k = 0; k <= room && k <= window.to; ++k) {
      const std::size_t at = ahead ? i + k : i - k;
      if (k >= window.from) best = std::max(best, std::min(right[at], held));
      held = std::min(held, left[at]);
    }
    return best;
  });
}

}  // namespace

Margins at_least(const std::vector<double>& x, double bound) {
  return each(x.size(), [&](std::size_t i) { return x[i] - bound; });
}
Margins at_most(const std::vector<double>& x, double bound) {
  return each(x.size(), [&](std::size_t i) { return bound - x[i]; });
}
Margins flag(const std::vector<bool>& x) {
  return each(x.size(), [&](std::size_t i) { return x[i] ? certain : -certain; });
}
Margins in_tolerances(const Margins& p, double tolerance) {
  if (!(tolerance > 0.0)) throw std::invalid_argument("tolerance: expected more than 0");
  return each(p.size(), [&](std::size_t i) { return p[i] / tolerance; });
}

Margins negate(const Margins& p) {
  return each(p.size(), [&](std::size_t i) { return -p[i]; });
}
Margins both(const Margins& p, const Margins& q) { return paired(p, q, smaller); }
Margins either(const Margins& p, const Margins& q) { return paired(p, q, larger); }
Margins implies(const Margins& p, const Margins& q) { return either(negate(p), q); }

Margins eventually(const Margins& p, SampleWindow window) { return over(p, window, true, -infinite, larger); }
Margins always(const Margins& p, SampleWindow window) { return over(p, window, true, infinite, smaller); }
Margins once(const Margins& p, SampleWindow window) { return over(p, window, false, -infinite, larger); }
Margins historically(const Margins& p, SampleWindow window) {
  return over(p, window, false, infinite, smaller);
}
Margins until(const Margins& left, const Margins& right, SampleWindow window) {
  return reach(left, right, window, true);
}
Margins since(const Margins& left, const Margins& right, SampleWindow window) {
  return reach(left, right, window, false);
}

double time_margin(const Margins& p, std::size_t at) {
  if (at >= p.size()) throw std::invalid_argument("a sample past the end of the trace");
  const bool holds = p[at] > 0.0;
  std::size_t more = 0;
  while (at + more + 1 < p.size() && (p[at + more + 1] > 0.0) == holds) ++more;
  return holds ? static_cast<double>(more) : -static_cast<double>(more);
}

double credit_norm(double margin_in_tolerances) { return std::clamp(1.0 + margin_in_tolerances, 0.0, 1.0); }

}  // namespace stirbench::training
