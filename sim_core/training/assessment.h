#pragma once

#include <vector>

// How far a test can be trusted: cut scores set by a panel, the chance of the same verdict twice, the cost of
// must-pass items, and how many runs without failure a claim needs. For the manager who decides what a
// certificate requires.
namespace stirbench::training {

// Probability that a person who gets each must-pass item right with probability `each_norm` (0 .. 1) gets all
// `items` of them right. Stacking many of them fails competent people: 0.98^5 = 0.904.
double all_met_norm(double each_norm, int items);

// Fewest runs without a failure that show a success rate of at least `rate_norm` with confidence
// `confidence_norm`: n >= ln(1 - C) / ln(R). Both in 0 .. 1, excluded; std::invalid_argument else. R = C =
// 0.95: 59.
int runs_without_failure(double rate_norm, double confidence_norm);

// Cut score of a panel (W. H. Angoff 1971): judge j gives for item i the chance that a borderline person gets
// it right.
struct PanelCut {
  std::vector<double> by_judge;  // sum over items
  double cut = 0.0;              // mean of the judges
  double cut_norm = 0.0;         // over the number of items
  double deviation = 0.0;        // standard deviation of the judges' cuts (n - 1)
  double error = 0.0;            // of the mean
};
// At least one judge, rows of the same length > 0; std::invalid_argument else.
PanelCut panel_cut(const std::vector<std::vector<double>>& chances_by_judge);

// Same verdict twice. kappa: agreement beyond chance (J. Cohen 1960), (p_o - p_c) / (1 - p_c).
struct Consistency {
  double same_norm = 0.0;    // p_o
  double chance_norm = 0.0;  // p_c
  double kappa = 0.0;
};
// From the share of same verdicts and the share that passes.
Consistency consistency(double same_norm, double pass_norm);
// From one form: M. J. Subkoviak, "Estimating reliability from a single administration of a
// criterion-referenced test", Journal of Educational Measurement 13 (1976): each person's number of right
// items is binomial with their true share.
Consistency one_form_consistency(const std::vector<double>& true_shares, int items, int cut);
// P(Binomial(items, share) >= cut).
double chance_to_pass(double share, int items, int cut);

}  // namespace stirbench::training
