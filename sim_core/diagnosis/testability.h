#pragma once

#include <cstddef>
#include <vector>

// How well a machine's faults can be detected and told apart by its checks. Formulas informed by IEEE 1522
// (its text was not seen).
namespace stirbench::diagnosis {

struct Testability {
  double detected_norm = 0.0;             // rate of the faults that some check shows, over the rate of all
  double detected_unweighted_norm = 0.0;  // the same by number
  std::vector<double>
      isolated_norm;  // [k-1]: rate of the faults in groups of at most k, over that of the detected ones
  double mean_group = 0.0;  // rate-weighted size of the group that a detected fault is in
  std::vector<std::vector<std::size_t>>
      groups;  // detected faults with the same answers to every check; by least member
};

// rate[i] > 0 of fault i; answers[i][j]: outcome of check j under fault i, 0 being what a good machine shows.
// Throws std::invalid_argument when the sizes do not fit.
Testability testability(const std::vector<double>& rate, const std::vector<std::vector<int>>& answers);

// Entropy in bits of weights (they need not sum to 1; zeros count nothing).
double entropy_bits(const std::vector<double>& weights);
// Mean length of Huffman's code with `arity` symbols over the weights, normalised: no sequence of checks with
// at most so many outcomes can tell them apart in fewer on average (Zimmerman 1959).
double huffman_length(std::vector<double> weights, std::size_t arity = 2);
// Lower bound of the expected cost: the cheapest w* checks (Pattipati and Alexandridis 1990). `costs` of all
// checks, w* from above.
double cheapest_sum(std::vector<double> costs, double how_many);

}  // namespace stirbench::diagnosis
