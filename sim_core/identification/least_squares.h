#pragma once

#include <cstddef>
#include <functional>
#include <string>
#include <vector>

// Nonlinear least squares with honest intervals. Nothing here knows the machine.
//
//   theta^ = argmin sum((y - f(theta))^2 / sigma^2), by Gauss and Newton with Levenberg's damping, steps
//   solved
//            by Eigen. J is kept from step to step by Broyden's update, since a run of the model costs more
//            than all else; it ends on a J of central differences. End: the step that is left is shorter than
//            0.05 standard errors a parameter (Bates and Watts' relative offset, from memory)
//   cov    = A^-1 (J' S J) A^-1 with A = J'J and S the residuals' covariance; with white residuals that is
//            sigma^2 (J'J)^-1, with first-order autocorrelation rho S has rho^|i-j| (sandwich: the estimate
//            is that of ordinary least squares, its interval is wider)
//   95 %   = +- t(N - p) se
//
// Source of the formulas and of the worked example in the tests: tests/sim_core/identification.
namespace stirbench::identification {

// Row by row, one column a parameter: d f_i / d theta_k.
using Matrix = std::vector<std::vector<double>>;

// One record among the measured values: consecutive samples that share noise and autocorrelation.
struct Series {
  std::size_t begin = 0;
  std::size_t end = 0;
};

struct LeastSquaresProblem {
  // Fills `predicted` with as many values as were measured; false when nothing can be computed there.
  std::function<bool(const std::vector<double>& theta, std::vector<double>& predicted)> model;
  std::vector<double> measured;
  std::vector<Series> series;  // one after the other, all of `measured`
  std::vector<double> start;
  std::vector<double> step;  // of the differences that make J; a size that matters, not the smallest possible
  std::vector<double> low;   // the search is turned back beyond; the estimate lies within
  std::vector<double> high;
  // J where the search starts, when it is known already; empty: the search begins with its own differences.
  Matrix jacobian;
  bool jacobian_is_central = false;  // and good enough to end the search by
  bool jacobian_at_end = true;       // false: the search may end on the J that brought it there
  int most_evaluations = 400;
};

// What a residual record says about itself.
struct Noise {
  double sigma = 0.0;  // with N - p degrees of freedom
  double rho = 0.0;    // lag one; 0 when it is not significant at 5 % or below 0
};

struct Covariance {
  std::vector<double> se_white;  // sigma^2 (J'J)^-1
  std::vector<double> se;        // with the autocorrelation
  Matrix correlation;
  double condition = 0.0;  // of J'J with columns scaled to length one
};

struct Estimate {
  bool found = false;
  std::string trouble;  // why not
  std::vector<double> theta;
  std::vector<double> residuals;  // predicted - measured
  Matrix jacobian;                // at theta, central differences
  std::vector<Noise> noise;       // for each series
  Covariance covariance;
  double deviance = 0.0;  // sum over series of N ln(residual sum of squares / N): -2 ln likelihood + constant
  int evaluations = 0;
  std::size_t at_bound = 0;  // parameters that rest on a bound: their interval means nothing
};

Estimate estimate(const LeastSquaresProblem& problem);
// Residuals and J at the start, by differences to one side, without a search.
Estimate examine(const LeastSquaresProblem& problem);

// Of residuals with these noises (one for each series); `parameters` columns in J.
Covariance covariance_of(const Matrix& jacobian, const std::vector<Series>& series,
                         const std::vector<Noise>& noise);

// sigma with N - parameters degrees of freedom, shared out among the series by their length.
Noise noise_of(const std::vector<double>& residuals, Series series, double parameters_share);

// Two-sided 95 % point of Student's t: Cornish and Fisher's expansion about the normal's, good to 0.1 % from
// ten degrees of freedom on.
double student_95(double degrees_of_freedom);

// 95 % limits of parameter k by profile likelihood: the others are fitted anew while k is held, and the limit
// is where sqrt of the deviance's rise, taken at the interval's own autocorrelation, is the t value. Two
// secant steps a side. Nothing (low > high) when a limit is not found within the bounds.
struct Limits {
  double low = 1.0;
  double high = -1.0;
};
Limits profile(const LeastSquaresProblem& problem, const Estimate& estimate, std::size_t k);

}  // namespace stirbench::identification
