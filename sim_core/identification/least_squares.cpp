#include "sim_core/identification/least_squares.h"

#include <Eigen/SVD>
#include <algorithm>
#include <cmath>
#include <unsupported/Eigen/LevenbergMarquardt>

namespace stirbench::identification {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

std::vector<double> plain(const VectorXd& x) { return {x.data(), x.data() + x.size()}; }

// Residuals over each series' noise, and one row a parameter that grows beyond its bounds. The rows are zero
// inside, so that they do not touch the estimate there.
class Residuals : public Eigen::DenseFunctor<double> {
 public:
  Residuals(const LeastSquaresProblem& problem, std::vector<double> weight)
      : Eigen::DenseFunctor<double>(static_cast<int>(problem.start.size()),
                                    static_cast<int>(problem.measured.size() + problem.start.size())),
        problem_(&problem),
        weight_(std::move(weight)) {}

  // 0, or below 0 when the model could not be computed: Eigen then ends the search.
  int operator()(const VectorXd& theta, VectorXd& out) const {
    const std::size_t count = problem_->measured.size();
    std::vector<double> inside = plain(theta);
    for (std::size_t k = 0; k < inside.size(); ++k) {
      const double kept = std::clamp(inside[k], problem_->low[k], problem_->high[k]);
      out[static_cast<Eigen::Index>(count + k)] = 30.0 * (inside[k] - kept) / problem_->step[k];
      inside[k] = kept;
    }
    ++evaluations_;
    if (!problem_->model(inside, predicted_)) return -1;
    for (std::size_t s = 0; s < problem_->series.size(); ++s)
      for (std::size_t i = problem_->series[s].begin; i < problem_->series[s].end; ++i)
        out[static_cast<Eigen::Index>(i)] = (predicted_[i] - problem_->measured[i]) * weight_[s];
    return 0;
  }

  int df(const VectorXd& theta, MatrixXd& jacobian) const { return differences(theta, jacobian, false); }

  int differences(const VectorXd& theta, MatrixXd& jacobian, bool central) const {
    VectorXd here(values()), there(values());
    if (!central && (*this)(theta, here) < 0) return -1;
    for (Eigen::Index k = 0; k < theta.size(); ++k) {
      const auto at = static_cast<std::size_t>(k);
      VectorXd moved = theta;
      // Away from the nearer bound, so that the model stays inside.
      const bool up = theta[k] + problem_->step[at] <= problem_->high[at];
      moved[k] = up ? theta[k] + problem_->step[at] : theta[k] - problem_->step[at];
      if ((*this)(moved, there) < 0) return -1;
      double span = moved[k] - theta[k];
      const double back = theta[k] - span;
      if (central && back >= problem_->low[at] && back <= problem_->high[at]) {
        moved[k] = back;
        if ((*this)(moved, here) < 0) return -1;
        span *= 2.0;
      } else if (central && (*this)(theta, here) < 0) {
        return -1;
      }
      jacobian.col(k) = (there - here) / span;
    }
    return 0;
  }

  int evaluations() const { return evaluations_; }

 private:
  const LeastSquaresProblem* problem_;
  std::vector<double> weight_;
  mutable std::vector<double> predicted_;
  mutable int evaluations_ = 0;
};

double sum_of_squares(const std::vector<double>& residuals, Series series) {
  double sum = 0.0;
  for (std::size_t i = series.begin; i < series.end; ++i) sum += residuals[i] * residuals[i];
  return sum;
}

double length_of(Series series) { return static_cast<double>(series.end - series.begin); }

// One search from `theta`; false when the model failed on the way.
bool search(const LeastSquaresProblem& problem, const std::vector<double>& weight, VectorXd& theta,
            Estimate& out) {
  Residuals residuals(problem, weight);
  Eigen::LevenbergMarquardt<Residuals> search(residuals);
  search.setFtol(1.0e-4);
  search.setXtol(1.0e-4);
  search.setMaxfev(problem.most_evaluations);
  const Eigen::LevenbergMarquardtSpace::Status status = search.minimize(theta);
  out.evaluations += residuals.evaluations();
  if (status == Eigen::LevenbergMarquardtSpace::UserAsked) {
    out.trouble = "the simulated machine could not be run with the values that the search came to";
    return false;
  }
  for (Eigen::Index k = 0; k < theta.size(); ++k) {
    const auto at = static_cast<std::size_t>(k);
    theta[k] = std::clamp(theta[k], problem.low[at], problem.high[at]);
  }
  return true;
}

// Residuals and J at theta, unweighted.
bool look(const LeastSquaresProblem& problem, const VectorXd& theta, bool with_jacobian, Estimate& out,
          bool central = true) {
  const Residuals residuals(problem, std::vector<double>(problem.series.size(), 1.0));
  const auto rows = static_cast<Eigen::Index>(problem.measured.size());
  VectorXd all(residuals.values());
  if (residuals(theta, all) < 0) return false;
  out.theta = plain(theta);
  out.residuals.assign(all.data(), all.data() + rows);
  out.deviance = 0.0;
  for (const Series& series : problem.series)
    out.deviance += length_of(series) *
                    std::log(std::max(1.0e-12, sum_of_squares(out.residuals, series) / length_of(series)));
  if (with_jacobian) {
    MatrixXd jacobian(residuals.values(), theta.size());
    if (residuals.differences(theta, jacobian, central) < 0) return false;
    out.jacobian.assign(problem.measured.size(), std::vector<double>(problem.start.size()));
    for (Eigen::Index i = 0; i < rows; ++i)
      for (Eigen::Index k = 0; k < theta.size(); ++k)
        out.jacobian[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)] = jacobian(i, k);
  }
  out.evaluations += residuals.evaluations();
  return true;
}

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
  for (std::vector<double>* list : {&less.start, &less.step, &less.low, &less.high})
    list->erase(list->begin() + static_cast<std::ptrdiff_t>(k));
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
  const double count = length_of(series);
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
  MatrixXd scaled(rows, columns), white(rows, columns), correlated(rows, columns);
  for (std::size_t s = 0; s < series.size(); ++s) {
    const auto begin = static_cast<Eigen::Index>(series[s].begin);
    const auto length = static_cast<Eigen::Index>(series[s].end) - begin;
    for (Eigen::Index k = 0; k < columns; ++k) {
      VectorXd column(length), smooth(length);
      for (Eigen::Index i = 0; i < length; ++i)
        column[i] = jacobian[static_cast<std::size_t>(begin + i)][static_cast<std::size_t>(k)] /
                    std::max(1.0e-12, noise[s].sigma);
      correlate(column, noise[s].rho, smooth);
      white.block(begin, k, length, 1) = column;
      correlated.block(begin, k, length, 1) = smooth;
    }
  }
  // Columns of length one: the condition is then that of the directions, not of the units.
  const VectorXd length = white.colwise().norm().cwiseMax(1.0e-300);
  scaled = white * length.cwiseInverse().asDiagonal();
  const Eigen::JacobiSVD<MatrixXd> svd(scaled, Eigen::ComputeThinV);
  const VectorXd& singular = svd.singularValues();
  Covariance out;
  const double least = singular.size() > 0 ? singular.minCoeff() : 0.0;
  out.condition = least > 0.0 ? std::pow(singular.maxCoeff() / least, 2) : 1.0e32;
  const VectorXd turned = singular.cwiseMax(1.0e-12 * singular.maxCoeff()).cwiseAbs2().cwiseInverse();
  const MatrixXd inverse = svd.matrixV() * turned.asDiagonal() * svd.matrixV().transpose();
  const MatrixXd middle = length.cwiseInverse().asDiagonal() * (white.transpose() * correlated) *
                          length.cwiseInverse().asDiagonal();
  const MatrixXd cov = inverse * middle * inverse;
  out.correlation.assign(static_cast<std::size_t>(columns),
                         std::vector<double>(static_cast<std::size_t>(columns)));
  for (Eigen::Index k = 0; k < columns; ++k) {
    out.se_white.push_back(std::sqrt(inverse(k, k)) / length[k]);
    out.se.push_back(std::sqrt(cov(k, k)) / length[k]);
    for (Eigen::Index m = 0; m < columns; ++m)
      out.correlation[static_cast<std::size_t>(k)][static_cast<std::size_t>(m)] =
          cov(k, m) / std::sqrt(cov(k, k) * cov(m, m));
  }
  return out;
}

// One step of Gauss and Newton by the central differences at hand. A simulated machine repeats itself only to
// some thousandths of a kelvin, in which the search above ends early; the step sees over them. Kept when the
// sum of squares does not grow by more than that roughness.
static void polish(const LeastSquaresProblem& problem, const std::vector<double>& weight, Estimate& out) {
  const auto rows = static_cast<Eigen::Index>(problem.measured.size());
  const auto columns = static_cast<Eigen::Index>(problem.start.size());
  MatrixXd jacobian(rows, columns);
  VectorXd residual(rows);
  double before = 0.0;
  for (std::size_t s = 0; s < problem.series.size(); ++s) {
    for (std::size_t i = problem.series[s].begin; i < problem.series[s].end; ++i) {
      const auto row = static_cast<Eigen::Index>(i);
      residual[row] = weight[s] * out.residuals[i];
      before += residual[row] * residual[row];
      for (Eigen::Index k = 0; k < columns; ++k)
        jacobian(row, k) = weight[s] * out.jacobian[i][static_cast<std::size_t>(k)];
    }
  }
  VectorXd theta =
      Eigen::Map<const VectorXd>(out.theta.data(), columns) - jacobian.colPivHouseholderQr().solve(residual);
  for (Eigen::Index k = 0; k < columns; ++k) {
    const auto at = static_cast<std::size_t>(k);
    theta[k] = std::clamp(theta[k], problem.low[at], problem.high[at]);
  }
  Estimate moved;
  if (!look(problem, theta, false, moved)) return;
  out.evaluations += moved.evaluations;
  double after = 0.0;
  for (std::size_t s = 0; s < problem.series.size(); ++s)
    after += weight[s] * weight[s] * sum_of_squares(moved.residuals, problem.series[s]);
  if (after > 1.002 * before) return;
  out.theta = moved.theta;
  out.residuals = moved.residuals;
  out.deviance = moved.deviance;
}

Estimate estimate(const LeastSquaresProblem& problem) {
  Estimate out;
  VectorXd theta =
      Eigen::Map<const VectorXd>(problem.start.data(), static_cast<Eigen::Index>(problem.start.size()));
  std::vector<double> weight(problem.series.size(), 1.0);
  // Several records are weighed by their own noise, which the first search finds.
  const int rounds = problem.series.size() > 1 ? 2 : 1;
  for (int round = 0; round < rounds; ++round) {
    if (theta.size() > 0 && !search(problem, weight, theta, out)) return out;
    if (!look(problem, theta, false, out)) {
      out.trouble = "the simulated machine could not be run";
      return out;
    }
    for (std::size_t s = 0; s < weight.size(); ++s)
      weight[s] = 1.0 / std::max(1.0e-6, noise_of(out.residuals, problem.series[s], 0.0).sigma);
  }
  if (!look(problem, theta, theta.size() > 0, out)) return out;
  if (theta.size() > 0) polish(problem, weight, out);
  const double all = static_cast<double>(problem.measured.size());
  for (const Series& series : problem.series)
    out.noise.push_back(
        noise_of(out.residuals, series, static_cast<double>(problem.start.size()) * length_of(series) / all));
  out.covariance = covariance_of(out.jacobian, problem.series, out.noise);
  for (std::size_t k = 0; k < out.theta.size(); ++k) {
    const double margin = 1.0e-6 * (problem.high[k] - problem.low[k]);
    const bool inside = out.theta[k] > problem.low[k] + margin && out.theta[k] < problem.high[k] - margin;
    out.at_bound += inside ? 0U : 1U;
  }
  out.found = true;
  return out;
}

Estimate examine(const LeastSquaresProblem& problem) {
  Estimate out;
  const VectorXd theta =
      Eigen::Map<const VectorXd>(problem.start.data(), static_cast<Eigen::Index>(problem.start.size()));
  out.found = look(problem, theta, true, out, false);
  if (!out.found) out.trouble = "the simulated machine could not be run";
  return out;
}

Limits profile(const LeastSquaresProblem& problem, const Estimate& best, std::size_t k) {
  const double count = static_cast<double>(problem.measured.size());
  const double t = student_95(count - static_cast<double>(best.theta.size()));
  const double wider = best.covariance.se[k] / std::max(1.0e-300, best.covariance.se_white[k]);
  // Signed root of the deviance's rise, in standard deviations of this parameter.
  std::vector<double> from = best.theta;
  const auto root = [&](double held) {
    const Estimate rest = estimate(without(problem, k, held, from));
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
