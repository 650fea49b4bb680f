#include "sim_core/diagnosis/bayes_network.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <stdexcept>

namespace stirbench::diagnosis {

namespace {

// A function of some variables (ascending), the first running fastest.
struct Factor {
  std::vector<std::size_t> variables;
  std::vector<std::size_t> states;
  std::vector<double> value;
};

bool holds(const Factor& factor, std::size_t variable) {
  return std::binary_search(factor.variables.begin(), factor.variables.end(), variable);
}

std::size_t place_of(const Factor& factor, const std::vector<std::size_t>& variables,
                     const std::vector<std::size_t>& values) {
  std::size_t place = 0;
  std::size_t stride = 1;
  std::size_t at = 0;
  for (std::size_t i = 0; i < factor.variables.size(); ++i) {
    while (variables[at] != factor.variables[i]) ++at;
    place += stride * values[at];
    stride *= factor.states[i];
  }
  return place;
}

bool advance(std::vector<std::size_t>& values, const std::vector<std::size_t>& states) {
  for (std::size_t i = 0; i < values.size(); ++i) {
    if (++values[i] < states[i]) return true;
    values[i] = 0;
  }
  return false;
}

Factor product(const Factor& a, const Factor& b) {
  Factor out;
  std::size_t i = 0;
  std::size_t j = 0;
  while (i < a.variables.size() || j < b.variables.size()) {
    const bool from_a =
        j == b.variables.size() || (i < a.variables.size() && a.variables[i] <= b.variables[j]);
    out.variables.push_back(from_a ? a.variables[i] : b.variables[j]);
    out.states.push_back(from_a ? a.states[i] : b.states[j]);
    if (i < a.variables.size() && a.variables[i] == out.variables.back()) ++i;
    if (j < b.variables.size() && b.variables[j] == out.variables.back()) ++j;
  }
  std::vector<std::size_t> values(out.variables.size(), 0);
  do {
    out.value.push_back(a.value[place_of(a, out.variables, values)] *
                        b.value[place_of(b, out.variables, values)]);
  } while (advance(values, out.states));
  return out;
}

Factor sum_out(const Factor& factor, std::size_t variable) {
  Factor out;
  for (std::size_t i = 0; i < factor.variables.size(); ++i) {
    if (factor.variables[i] == variable) continue;
    out.variables.push_back(factor.variables[i]);
    out.states.push_back(factor.states[i]);
  }
  std::size_t size = 1;
  for (const std::size_t s : out.states) size *= s;
  out.value.assign(size, 0.0);
  std::vector<std::size_t> values(factor.variables.size(), 0);
  std::size_t at = 0;
  do {
    out.value[place_of(out, factor.variables, values)] += factor.value[at++];
  } while (advance(values, factor.states));
  return out;
}

// Zero wherever `variable` has another value than the observed one.
void observe(Factor& factor, std::size_t variable, std::size_t value) {
  if (!holds(factor, variable)) return;
  const auto index = static_cast<std::size_t>(
      std::find(factor.variables.begin(), factor.variables.end(), variable) - factor.variables.begin());
  std::vector<std::size_t> values(factor.variables.size(), 0);
  std::size_t at = 0;
  do {
    if (values[index] != value) factor.value[at] = 0.0;
    ++at;
  } while (advance(values, factor.states));
}

// Size of the table that eliminating `variable` would make.
double size_after(const std::vector<Factor>& factors, std::size_t variable) {
  std::vector<std::pair<std::size_t, std::size_t>> seen;
  for (const Factor& factor : factors) {
    if (!holds(factor, variable)) continue;
    for (std::size_t i = 0; i < factor.variables.size(); ++i)
      seen.emplace_back(factor.variables[i], factor.states[i]);
  }
  std::sort(seen.begin(), seen.end());
  seen.erase(std::unique(seen.begin(), seen.end()), seen.end());
  double size = 1.0;
  for (const auto& [unused, states] : seen) size *= static_cast<double>(states);
  return size;
}

void eliminate(std::vector<Factor>& factors, std::size_t variable) {
  Factor all{{}, {}, {1.0}};
  std::vector<Factor> rest;
  for (Factor& factor : factors) {
    if (holds(factor, variable))
      all = product(all, factor);
    else
      rest.push_back(std::move(factor));
  }
  rest.push_back(sum_out(all, variable));
  factors = std::move(rest);
}

}  // namespace

std::size_t BayesNetwork::add(std::size_t states, std::vector<std::size_t> parents,
                              std::vector<double> table) {
  if (states < 2) throw std::invalid_argument("network: a variable needs two values or more");
  std::size_t size = states;
  for (const std::size_t parent : parents) {
    if (parent >= nodes_.size())
      throw std::invalid_argument("network: a parent must be added before its child");
    size *= nodes_[parent].states;
  }
  if (table.size() != size) {
    throw std::invalid_argument("network: expected a table of " + std::to_string(size) + " entries, found " +
                                std::to_string(table.size()));
  }
  for (std::size_t row = 0; row < size; row += states) {
    double sum = 0.0;
    for (std::size_t i = 0; i < states; ++i) {
      if (!(table[row + i] >= 0.0)) throw std::invalid_argument("network: a probability is negative");
      sum += table[row + i];
    }
    if (!(std::fabs(sum - 1.0) <= 1.0e-9))
      throw std::invalid_argument("network: probabilities of a variable do not sum to 1");
  }
  nodes_.push_back({states, std::move(parents), std::move(table)});
  return nodes_.size() - 1;
}

// P(keep, evidence) as a table over `keep`.
std::vector<double> BayesNetwork::joint(const Evidence& evidence, std::vector<std::size_t> keep) const {
  std::vector<Factor> factors;
  for (std::size_t v = 0; v < nodes_.size(); ++v) {
    const Node& node = nodes_[v];
    // Own value runs fastest, then the parents from the last to the first; factors want ascending variables.
    std::vector<std::size_t> order = {v};
    order.insert(order.end(), node.parents.rbegin(), node.parents.rend());
    Factor factor;
    factor.variables = order;
    std::sort(factor.variables.begin(), factor.variables.end());
    for (const std::size_t one : factor.variables) factor.states.push_back(nodes_[one].states);
    std::vector<std::size_t> values(order.size(), 0);
    do {
      std::size_t place = 0;
      std::size_t stride = 1;
      for (const std::size_t one : order) {
        const auto at = std::lower_bound(factor.variables.begin(), factor.variables.end(), one) -
                        factor.variables.begin();
        place += stride * values[static_cast<std::size_t>(at)];
        stride *= nodes_[one].states;
      }
      factor.value.push_back(node.table[place]);
    } while (advance(values, factor.states));
    for (const auto& [variable, value] : evidence) observe(factor, variable, value);
    factors.push_back(std::move(factor));
  }
  std::vector<std::size_t> left;
  for (std::size_t v = 0; v < nodes_.size(); ++v) {
    if (std::find(keep.begin(), keep.end(), v) == keep.end()) left.push_back(v);
  }
  while (!left.empty()) {
    auto best = left.begin();
    double least = std::numeric_limits<double>::infinity();
    for (auto it = left.begin(); it != left.end(); ++it) {
      const double size = size_after(factors, *it);
      if (size < least) {
        least = size;
        best = it;
      }
    }
    eliminate(factors, *best);
    left.erase(best);
  }
  Factor all{{}, {}, {1.0}};
  for (const Factor& factor : factors) all = product(all, factor);
  return all.value;
}

std::vector<double> BayesNetwork::posterior(std::size_t variable, const Evidence& evidence) const {
  std::vector<double> p = joint(evidence, {variable});
  double sum = 0.0;
  for (const double one : p) sum += one;
  if (!(sum > 0.0)) throw std::domain_error("network: the evidence cannot happen");
  for (double& one : p) one /= sum;
  return p;
}

double BayesNetwork::probability(const Evidence& evidence) const { return joint(evidence, {}).front(); }

std::vector<double> noisy_or(const std::vector<double>& work, double leak) {
  const auto in_range = [](double p) { return p >= 0.0 && p <= 1.0; };
  if (!in_range(leak) || !std::all_of(work.begin(), work.end(), in_range))
    throw std::invalid_argument("noisy-or: probabilities lie in 0 .. 1");
  std::vector<double> table;
  const std::size_t rows = std::size_t{1} << work.size();
  for (std::size_t row = 0; row < rows; ++row) {
    double absent = 1.0 - leak;
    for (std::size_t i = 0; i < work.size(); ++i) {
      // The last parent runs fastest.
      if ((row >> (work.size() - 1 - i) & 1U) != 0) absent *= 1.0 - work[i];
    }
    table.push_back(absent);
    table.push_back(1.0 - absent);
  }
  return table;
}

}  // namespace stirbench::diagnosis
