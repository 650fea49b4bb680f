#include <Eigen/QR>
#include <algorithm>
#include <cmath>

#include "sim_core/identification/least_squares.h"

namespace stirbench::identification {

namespace {

using Eigen::MatrixXd;
using Eigen::VectorXd;

// The step that is left, in standard errors a parameter, at which a search ends.
constexpr double done_offset = 0.05;
// Within so many standard errors a J of central differences stays what it is.
constexpr double same_place_offset = 1.5;
constexpr int most_refusals = 8;

VectorXd eigen(const std::vector<double>& x) {
  return Eigen::Map<const VectorXd>(x.data(), static_cast<Eigen::Index>(x.size()));
}
std::vector<double> plain(const VectorXd& x) { return {x.data(), x.data() + x.size()}; }
Eigen::Index index(std::size_t i) { return static_cast<Eigen::Index>(i); }

// The problem's residuals over each series' noise, and their differences.
class Residuals {
 public:
  Residuals(const LeastSquaresProblem& problem, const std::vector<double>& weight)
      : problem_(&problem), weights_(index(problem.measured.size())) {
    for (std::size_t s = 0; s < problem.series.size(); ++s)
      for (std::size_t i = problem.series[s].begin; i < problem.series[s].end; ++i)
        weights_[index(i)] = weight[s];
  }

  // False when the model could not be computed.
  bool at(const VectorXd& theta, VectorXd& out) {
    ++evaluations_;
    if (!problem_->model(plain(theta), predicted_)) return false;
    out = (eigen(predicted_) - eigen(problem_->measured)).cwiseProduct(weights_);
    return true;
  }

  // J at theta, where the residuals are `here`: central where the bounds leave room and `central` asks for
  // it.
  bool differences(const VectorXd& theta, const VectorXd& here, bool central, MatrixXd& jacobian) {
    jacobian.resize(here.size(), theta.size());
    VectorXd there(here.size()), behind(here.size());
    for (Eigen::Index k = 0; k < theta.size(); ++k) {
      const std::size_t at_k = static_cast<std::size_t>(k);
      const double step = problem_->step[at_k];
      // Away from the nearer bound, so that the model stays inside.
      const double span = theta[k] + step <= problem_->high[at_k] ? step : -step;
      VectorXd moved = theta;
      moved[k] = theta[k] + span;
      if (!at(moved, there)) return false;
      const double back = theta[k] - span;
      if (central && back >= problem_->low[at_k] && back <= problem_->high[at_k]) {
        moved[k] = back;
        if (!at(moved, behind)) return false;
        jacobian.col(k) = (there - behind) / (2.0 * span);
      } else {
        jacobian.col(k) = (there - here) / span;
      }
    }
    return true;
  }

  int evaluations() const { return evaluations_; }
  const VectorXd& weights() const { return weights_; }

 private:
  const LeastSquaresProblem* problem_;
  VectorXd weights_;
  std::vector<double> predicted_;
  int evaluations_ = 0;
};

struct Place {
  VectorXd theta;
  VectorXd residual;  // over the noise
  MatrixXd jacobian;  // of those
  bool central = false;
};

// The damped problem of one step, reduced to as many rows as it has parameters, and those damped: the sum of
// squares over steps, but for a constant, is |matrix step + right|^2.
struct Reduced {
  MatrixXd matrix;
  VectorXd right;
};
Reduced reduced(const Place& place, double damping) {
  const Eigen::Index columns = place.theta.size();
  MatrixXd both(place.residual.size(), columns + 1);
  both << place.jacobian, place.residual;
  const MatrixXd triangle =
      Eigen::HouseholderQR<MatrixXd>(both).matrixQR().topRows(columns).triangularView<Eigen::Upper>();
  Reduced out{MatrixXd::Zero(2 * columns, columns), VectorXd::Zero(2 * columns)};
  out.matrix.topRows(columns) = triangle.leftCols(columns);
  out.right.head(columns) = triangle.col(columns);
  for (Eigen::Index k = 0; k < columns; ++k)
    out.matrix(columns + k, k) = std::sqrt(damping) * place.jacobian.col(k).norm();
  return out;
}

// Solves for those parameters that are not held at a bound.
void solve_free(const Reduced& problem, const std::vector<bool>& held, VectorXd& step) {
  std::vector<Eigen::Index> free;
  VectorXd fixed = step;
  for (Eigen::Index k = 0; k < step.size(); ++k) {
    if (held[static_cast<std::size_t>(k)]) continue;
    free.push_back(k);
    fixed[k] = 0.0;
  }
  if (free.empty()) return;
  MatrixXd columns(problem.matrix.rows(), index(free.size()));
  for (std::size_t j = 0; j < free.size(); ++j) columns.col(index(j)) = problem.matrix.col(free[j]);
  const VectorXd solved = columns.colPivHouseholderQr().solve(-problem.right - problem.matrix * fixed);
  for (std::size_t j = 0; j < free.size(); ++j) step[free[j]] = solved[index(j)];
}

// The damped step within the bounds: least squares by active sets. What goes furthest beyond its bound is
// held there and the others solved anew; what then pulls inwards is let go.
VectorXd bounded_step(const LeastSquaresProblem& problem, const Place& place, double damping) {
  const Eigen::Index columns = place.theta.size();
  const Reduced here = reduced(place, damping);
  const VectorXd low = eigen(problem.low) - place.theta, high = eigen(problem.high) - place.theta;
  const VectorXd length = here.matrix.colwise().norm().transpose().cwiseMax(1.0e-300);
  std::vector<bool> held(static_cast<std::size_t>(columns));
  VectorXd step = VectorXd::Zero(columns);
  for (Eigen::Index turn = 0; turn < 4 * columns; ++turn) {
    solve_free(here, held, step);
    Eigen::Index most = -1;
    double beyond = 0.0;
    for (Eigen::Index k = 0; k < columns; ++k) {
      const double over = std::max(low[k] - step[k], step[k] - high[k]) * length[k];
      if (held[static_cast<std::size_t>(k)] || over <= beyond) continue;
      beyond = over;
      most = k;
    }
    if (most >= 0) {
      step[most] = step[most] < low[most] ? low[most] : high[most];
      held[static_cast<std::size_t>(most)] = true;
      continue;
    }
    const VectorXd slope = here.matrix.transpose() * (here.matrix * step + here.right);
    double inwards = 1.0e-9 * here.right.norm();
    for (Eigen::Index k = 0; k < columns; ++k) {
      if (!held[static_cast<std::size_t>(k)]) continue;
      const double pull = (step[k] <= low[k] ? -slope[k] : slope[k]) / length[k];
      if (pull <= inwards) continue;
      inwards = pull;
      most = k;
    }
    if (most < 0) break;
    held[static_cast<std::size_t>(most)] = false;
  }
  return step.cwiseMax(low).cwiseMin(high);
}

// How much of the step is left: standard errors a parameter, were the model straight from here on.
double offset_of(const Place& place, const VectorXd& step) {
  const double squares = place.residual.squaredNorm();
  const double after = (place.residual + place.jacobian * step).squaredNorm();
  const double count = static_cast<double>(place.residual.size()), p = static_cast<double>(step.size());
  // Without noise what is left is rounding.
  constexpr double rounding = 1.0e-8;
  const double variance = squares / std::max(1.0, count - p) + rounding * rounding;
  return std::sqrt(std::max(0.0, squares - after) / std::max(1.0e-300, p * variance));
}

// Goes to the least sum of squares. False when the model failed on the way.
bool search(const LeastSquaresProblem& problem, Residuals& residuals, Place& place) {
  double damping = 0.0;
  int refused = 0;
  while (residuals.evaluations() < problem.most_evaluations) {
    const VectorXd step = bounded_step(problem, place, damping);
    const double offset = offset_of(place, step);
    if (offset < done_offset || refused >= most_refusals) {
      if (place.central || !problem.jacobian_at_end) return true;
      if (!residuals.differences(place.theta, place.residual, true, place.jacobian)) return false;
      place.central = true;
      refused = 0;
      damping = 0.0;
      continue;
    }
    Place next;
    next.theta = place.theta + step;
    if (!residuals.at(next.theta, next.residual)) return false;
    const double gained = place.residual.squaredNorm() - next.residual.squaredNorm();
    const double promised =
        place.residual.squaredNorm() - (place.residual + place.jacobian * step).squaredNorm();
    if (!(gained > 0.1 * promised)) {
      ++refused;
      // The direction is to blame first, then the length.
      if (place.central) {
        damping = std::max(0.05, 5.0 * damping);
      } else {
        if (!residuals.differences(place.theta, place.residual, true, place.jacobian)) return false;
        place.central = true;
      }
      continue;
    }
    const bool same_place = place.central && offset < same_place_offset;
    next.jacobian = std::move(place.jacobian);
    if (!same_place) {
      // Broyden: the least change of J, its columns of length one, that explains this step.
      const VectorXd scale = next.jacobian.colwise().squaredNorm().cwiseMax(1.0e-300);
      const VectorXd scaled = scale.cwiseProduct(step);
      const VectorXd missed = next.residual - place.residual - next.jacobian * step;
      next.jacobian += missed * scaled.transpose() / std::max(1.0e-300, scaled.dot(step));
    }
    next.central = same_place;
    place = std::move(next);
    refused = 0;
    damping = gained > 0.7 * promised ? 0.0 : damping;
  }
  if (place.central) return true;
  place.central = true;
  return residuals.differences(place.theta, place.residual, true, place.jacobian);
}

double length_of(Series series) { return static_cast<double>(series.end - series.begin); }

// Residuals, J and deviance as measured, without the noise's weights.
void put(const LeastSquaresProblem& problem, const Residuals& residuals, const Place& place, Estimate& out) {
  const VectorXd unweighted = residuals.weights().cwiseInverse();
  out.theta = plain(place.theta);
  out.residuals = plain(place.residual.cwiseProduct(unweighted));
  const MatrixXd jacobian = unweighted.asDiagonal() * place.jacobian;
  out.jacobian.assign(problem.measured.size(), std::vector<double>(problem.start.size()));
  for (Eigen::Index i = 0; i < jacobian.rows(); ++i)
    for (Eigen::Index k = 0; k < jacobian.cols(); ++k)
      out.jacobian[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)] = jacobian(i, k);
  out.deviance = 0.0;
  for (const Series& series : problem.series) {
    double squares = 0.0;
    for (std::size_t i = series.begin; i < series.end; ++i) squares += out.residuals[i] * out.residuals[i];
    out.deviance += length_of(series) * std::log(std::max(1.0e-12, squares / length_of(series)));
  }
  out.evaluations += residuals.evaluations();
}

// Where the search starts, with the J that is known there or one of differences to one side.
bool begin(const std::vector<double>& theta, const Matrix& jacobian, bool central, Residuals& residuals,
           Place& place) {
  place.theta = eigen(theta);
  if (!residuals.at(place.theta, place.residual)) return false;
  place.central = central && !jacobian.empty();
  if (jacobian.empty()) return residuals.differences(place.theta, place.residual, false, place.jacobian);
  place.jacobian.resize(place.residual.size(), place.theta.size());
  for (Eigen::Index i = 0; i < place.jacobian.rows(); ++i)
    for (Eigen::Index k = 0; k < place.jacobian.cols(); ++k)
      place.jacobian(i, k) =
          residuals.weights()[i] * jacobian[static_cast<std::size_t>(i)][static_cast<std::size_t>(k)];
  return true;
}

}  // namespace

Estimate estimate(const LeastSquaresProblem& problem) {
  Estimate out;
  std::vector<double> theta = problem.start;
  Matrix jacobian = problem.jacobian;
  bool central = problem.jacobian_is_central;
  std::vector<double> weight(problem.series.size(), 1.0);
  // Several records are weighed by their own noise, which the first search finds.
  const int rounds = problem.series.size() > 1 ? 2 : 1;
  for (int round = 0; round < rounds; ++round) {
    Residuals residuals(problem, weight);
    Place place;
    if (!begin(theta, jacobian, central, residuals, place)) {
      out.trouble = "the simulated machine could not be run";
      return out;
    }
    if (!theta.empty() && !search(problem, residuals, place)) {
      out.trouble = "the simulated machine could not be run with the values that the search came to";
      return out;
    }
    put(problem, residuals, place, out);
    theta = out.theta;
    jacobian = out.jacobian;
    central = true;
    for (std::size_t s = 0; s < weight.size(); ++s)
      weight[s] = 1.0 / std::max(1.0e-6, noise_of(out.residuals, problem.series[s], 0.0).sigma);
  }
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
  Residuals residuals(problem, std::vector<double>(problem.series.size(), 1.0));
  Place place;
  out.found = begin(problem.start, {}, false, residuals, place);
  if (out.found) {
    put(problem, residuals, place, out);
  } else {
    out.trouble = "the simulated machine could not be run";
  }
  return out;
}

}  // namespace stirbench::identification
