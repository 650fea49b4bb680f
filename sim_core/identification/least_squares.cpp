#include "sim_core/identification/least_squares.h"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>

namespace stirbench::identification {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

double sum_of_squares(const std::vector<double>& residuals, Series series) {
  double sum = 0.0;
  for (std::size_t i = series.begin; i < series.end; ++i) sum += residuals[i] * residuals[i];
  return sum;
}

double count_of(Series series) { return static_cast<double>(series.end - series.begin); }

// S x for one series: rho^|i-j|, by a filter forward and one backward.
void correlate(const VectorXd& x, double rho, VectorXd& out) {
  const Eigen::Index n = x.size();
  VectorXd forward(n), backward(n);
  for (Eigen::Index i = 0; i < n; ++i) forward[i] = x[i] + (i > 0 ? rho * forward[i - 1] : 0.0);
  for (Eigen::Index i = n; i-- > 0;) backward[i] = x[i] + (i + 1 < n ? rho * backward[i + 1] : 0.0);
  out = forward + backward - x;
}

// The problem with parameter k held.
LeastSquaresProblem without(const LeastSquaresProblem& problem, std::size_t k, double held,
                            const std::vector<double>& from) {
  LeastSquaresProblem less = problem;
  less.start = from;
  const auto at = static_cast<std::ptrdiff_t>(k);
  for (std::vector<double>* list : {&less.start, &less.step, &less.low, &less.high})
    list->erase(list->begin() + at);
  for (std::vector<double>& row : less.jacobian) row.erase(row.begin() + at);
  less.model = [model = problem.model, k, held](const std::vector<double>& theta,
                                                std::vector<double>& predicted) {
    std::vector<double> whole = theta;
    whole.insert(whole.begin() + static_cast<std::ptrdiff_t>(k), held);
    return model(whole, predicted);
  };
  return less;
}

}  // namespace

Noise noise_of(const std::vector<double>& residuals, Series series, double parameters_share) {
  Noise out;
  const double count = count_of(series);
  const double squares = sum_of_squares(residuals, series);
  out.sigma = std::sqrt(squares / std::max(1.0, count - parameters_share));
  double lagged = 0.0;
  for (std::size_t i = series.begin + 1; i < series.end; ++i) lagged += residuals[i] * residuals[i - 1];
  const double rho = squares > 0.0 ? lagged / squares : 0.0;
  // One-sided: negative autocorrelation would only narrow the interval. Fitted parameters draw the lag-one
  // coefficient down by about their number over N.
  if (rho > 1.645 / std::sqrt(count)) out.rho = std::min(0.999, rho + parameters_share / count);
  return out;
}

double student_95(double degrees_of_freedom) {
  const double n = std::max(2.0, degrees_of_freedom);
  const double z = 1.959964, z2 = z * z;
  return z * (1.0 + (z2 + 1.0) / (4.0 * n) + ((5.0 * z2 + 16.0) * z2 + 3.0) / (96.0 * n * n));
}

Covariance covariance_of(const Matrix& jacobian, const std::vector<Series>& series,
                         const std::vector<Noise>& noise) {
  const auto rows = static_cast<Eigen::Index>(jacobian.size());
  const auto columns = static_cast<Eigen::Index>(jacobian.empty() ? 0 : jacobian.front().size());
  MatrixXd white(rows, columns);
  for (std::size_t s = 0; s < series.size(); ++s)
    for (std::size_t i = series[s].begin; i < series[s].end; ++i)
      for (Eigen::Index k = 0; k < columns; ++k)
        white(static_cast<Eigen::Index>(i), k) =
            jacobian[i][static_cast<std::size_t>(k)] / std::max(1.0e-12, noise[s].sigma);
  // Columns of length one: the condition is then that of the directions, not of the units.
  const VectorXd length = white.colwise().norm().cwiseMax(1.0e-300);
  const MatrixXd scaled = white * length.cwiseInverse().asDiagonal();
  const Eigen::JacobiSVD<MatrixXd> svd(scaled, Eigen::ComputeThinU | Eigen::ComputeThinV);
  const VectorXd& singular = svd.singularValues();
  Covariance out;
  const double least = singular.size() > 0 ? singular.minCoeff() : 0.0;
  out.condition = least > 0.0 ? std::pow(singular.maxCoeff() / least, 2) : 1.0e32;
  // With scaled = U s V' the sandwich is V/s (U' S U) s/V': no product of J with itself, which would lose
  // what nearly equal columns still tell.
  MatrixXd correlated(rows, columns);
  for (std::size_t s = 0; s < series.size(); ++s) {
    const auto begin = static_cast<Eigen::Index>(series[s].begin);
    const auto count = static_cast<Eigen::Index>(series[s].end) - begin;
    for (Eigen::Index k = 0; k < columns; ++k) {
      VectorXd smooth(count);
      correlate(svd.matrixU().col(k).segment(begin, count), noise[s].rho, smooth);
      correlated.col(k).segment(begin, count) = smooth;
    }
  }
  const VectorXd kept = singular.cwiseMax(1.0e-12 * (singular.size() > 0 ? singular.maxCoeff() : 0.0));
  const MatrixXd turned = svd.matrixV() * kept.cwiseInverse().asDiagonal();
  const MatrixXd cov = turned * (svd.matrixU().transpose() * correlated) * turned.transpose();
  out.correlation.assign(static_cast<std::size_t>(columns),
                         std::vector<double>(static_cast<std::size_t>(columns)));
  for (Eigen::Index k = 0; k < columns; ++k) {
    out.se_white.push_back(turned.row(k).norm() / length[k]);
    out.se.push_back(std::sqrt(cov(k, k)) / length[k]);
    for (Eigen::Index m = 0; m < columns; ++m)
      out.correlation[static_cast<std::size_t>(k)][static_cast<std::size_t>(m)] =
          cov(k, m) / std::sqrt(cov(k, k) * cov(m, m));
  }
  return out;
}

Limits profile(const LeastSquaresProblem& problem, const Estimate& best, std::size_t k) {
  const double count = static_cast<double>(problem.measured.size());
  const double t = student_95(count - static_cast<double>(best.theta.size()));
  const double wider = best.covariance.se[k] / std::max(1.0e-300, best.covariance.se_white[k]);
  // Signed root of the deviance's rise, in standard deviations of this parameter.
  LeastSquaresProblem known = problem;
  known.jacobian = best.jacobian;
  known.jacobian_is_central = true;
  known.jacobian_at_end = false;
  const auto root = [&](double held) {
    const Estimate rest = estimate(without(known, k, held, best.theta));
    if (!rest.found) return -1.0;
    return std::sqrt(std::max(0.0, rest.deviance - best.deviance)) / wider;
  };
  std::vector<double> ends;
  for (const double side : {-1.0, 1.0}) {
    double reach = t * best.covariance.se[k];
    for (int turn = 0; turn < 2; ++turn) {
      const double held = best.theta[k] + side * reach;
      if (held < problem.low[k] || held > problem.high[k]) return {};
      const double seen = root(held);
      if (!(seen > 0.0)) return {};
      reach *= std::clamp(t / seen, 0.25, 4.0);
    }
    ends.push_back(best.theta[k] + side * reach);
  }
  return {ends[0], ends[1]};
}

}  // namespace stirbench::identification
