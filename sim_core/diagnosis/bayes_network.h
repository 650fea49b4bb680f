#pragma once

#include <cstddef>
#include <utility>
#include <vector>

// Exact inference in a Bayesian network of discrete variables by variable elimination (Zhang and Poole 1994),
// order by least resulting table. Small networks: several faults at once with noisy-OR symptoms.
namespace stirbench::diagnosis {

// A variable is its index; parents come before children.
class BayesNetwork {
 public:
  // Adds a variable with `states` values. `table` is P(value | parents), value running fastest, then the last
  // parent; each group of `states` entries sums to 1 within 1e-9. Throws std::invalid_argument otherwise, or
  // for a parent that does not exist yet.
  std::size_t add(std::size_t states, std::vector<std::size_t> parents, std::vector<double> table);

  using Evidence = std::vector<std::pair<std::size_t, std::size_t>>;  // variable, value
  // P(variable | evidence). Throws std::domain_error when the evidence has probability 0.
  std::vector<double> posterior(std::size_t variable, const Evidence& evidence) const;
  // P(evidence).
  double probability(const Evidence& evidence) const;
  std::size_t size() const { return nodes_.size(); }

 private:
  struct Node {
    std::size_t states = 0;
    std::vector<std::size_t> parents;
    std::vector<double> table;
  };
  std::vector<double> joint(const Evidence& evidence, std::vector<std::size_t> keep) const;
  std::vector<Node> nodes_;
};

// Table of a two-valued effect of two-valued causes (0 absent, 1 present), each of which brings it about by
// itself with probability work[i]; `leak` without any of them: P(effect) = 1 - (1 - leak) prod (1 - work_i)
// over the present ones (Pearl 1988). For Network::add with the causes as parents in the same order.
// Probabilities in 0..1, else std::invalid_argument.
std::vector<double> noisy_or(const std::vector<double>& work, double leak);

}  // namespace stirbench::diagnosis
