#include "sim_core/training/trials/items.h"

#include <cmath>
#include <stdexcept>

namespace stirbench::training {

namespace {

// Sums of two rows of numbers, for means, variances and their correlation.
struct Pairs {
  double n = 0.0, x = 0.0, y = 0.0, xx = 0.0, yy = 0.0, xy = 0.0;

  void add(double a, double b) {
    n += 1.0;
    x += a;
    y += b;
    xx += a * a;
    yy += b * b;
    xy += a * b;
  }
  double correlation() const {
    constexpr double still = 1.0e-12;  // rounding of a row that does not vary
    const double vx = xx - x * x / n;
    const double vy = yy - y * y / n;
    if (n < 2.0 || vx <= still || vy <= still) return 0.0;
    return (xy - x * y / n) / std::sqrt(vx * vy);
  }
};

void check_plays(const std::vector<double>& points, const std::vector<Play>& plays) {
  for (const Play& play : plays)
    if (play.shares.size() != points.size())
      throw std::invalid_argument("a play has " + std::to_string(play.shares.size()) + " items, the test " +
                                  std::to_string(points.size()));
}

double total_of(const std::vector<double>& points, const Play& play) {
  double out = 0.0;
  for (std::size_t i = 0; i < points.size(); ++i) out += points[i] * play.shares[i];
  return out;
}

double mean_of(double sum, double n) { return n > 0.0 ? sum / n : 0.0; }

ItemFigures figures_of(std::size_t item, const std::vector<double>& points, const std::vector<Play>& plays) {
  Pairs pairs;
  double known = 0.0, knowing = 0.0, unknown = 0.0, unknowing = 0.0;
  for (const Play& play : plays) {
    const double share = play.shares[item];
    pairs.add(share, total_of(points, play) - points[item] * share);
    (play.knows ? known : unknown) += share;
    (play.knows ? knowing : unknowing) += 1.0;
  }
  const double gain = knowing > 0.0 && unknowing > 0.0 ? known / knowing - unknown / unknowing : 0.0;
  return {mean_of(pairs.x, pairs.n), pairs.correlation(), gain};
}

}  // namespace

std::vector<ItemFigures> item_figures(const std::vector<double>& points, const std::vector<Play>& plays) {
  check_plays(points, plays);
  std::vector<ItemFigures> out;
  for (std::size_t i = 0; i < points.size(); ++i) out.push_back(figures_of(i, points, plays));
  return out;
}

double alpha_of(const std::vector<double>& points, const std::vector<Play>& plays) {
  check_plays(points, plays);
  const double n = static_cast<double>(plays.size());
  if (n < 2.0) return 0.0;
  const auto variance = [n](double sum, double squares) { return (squares - sum * sum / n) / (n - 1.0); };
  double of_items = 0.0, count = 0.0;
  for (std::size_t i = 0; i < points.size(); ++i) {
    if (points[i] <= 0.0) continue;
    double sum = 0.0, squares = 0.0;
    for (const Play& play : plays) {
      sum += points[i] * play.shares[i];
      squares += points[i] * play.shares[i] * points[i] * play.shares[i];
    }
    of_items += variance(sum, squares);
    count += 1.0;
  }
  double sum = 0.0, squares = 0.0;
  for (const Play& play : plays) {
    const double total = total_of(points, play);
    sum += total;
    squares += total * total;
  }
  const double of_total = variance(sum, squares);
  if (count < 2.0 || of_total <= 0.0) return 0.0;
  return count / (count - 1.0) * (1.0 - of_items / of_total);
}

}  // namespace stirbench::training
