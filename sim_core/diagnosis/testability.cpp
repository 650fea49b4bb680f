#include "sim_core/diagnosis/testability.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <map>
#include <stdexcept>

namespace stirbench::diagnosis {

Testability testability(const std::vector<double>& rate, const std::vector<std::vector<int>>& answers) {
  if (rate.size() != answers.size())
    throw std::invalid_argument("testability: expected as many rates as rows of answers");
  Testability out;
  std::map<std::vector<int>, std::vector<std::size_t>> by_answers;
  double all = 0.0;
  double detected = 0.0;
  std::size_t number = 0;
  for (std::size_t i = 0; i < rate.size(); ++i) {
    if (answers[i].size() != answers.front().size())
      throw std::invalid_argument("testability: the rows of answers differ in length");
    all += rate[i];
    if (std::all_of(answers[i].begin(), answers[i].end(), [](int answer) { return answer == 0; })) continue;
    detected += rate[i];
    ++number;
    by_answers[answers[i]].push_back(i);
  }
  if (!(all > 0.0)) return out;
  out.detected_norm = detected / all;
  out.detected_unweighted_norm = static_cast<double>(number) / static_cast<double>(rate.size());
  for (const auto& [unused, members] : by_answers) out.groups.push_back(members);
  std::sort(out.groups.begin(), out.groups.end());
  std::size_t largest = 0;
  for (const auto& group : out.groups) largest = std::max(largest, group.size());
  out.isolated_norm.assign(largest, 0.0);
  for (const auto& group : out.groups) {
    double weight = 0.0;
    for (const std::size_t i : group) weight += rate[i];
    out.mean_group += static_cast<double>(group.size()) * weight / detected;
    for (std::size_t k = group.size(); k <= largest; ++k) out.isolated_norm[k - 1] += weight / detected;
  }
  return out;
}

double entropy_bits(const std::vector<double>& weights) {
  double sum = 0.0;
  double spread = 0.0;
  for (const double w : weights) {
    sum += w;
    if (w > 0.0) spread += w * std::log2(w);
  }
  return sum > 0.0 ? std::log2(sum) - spread / sum : 0.0;
}

double huffman_length(std::vector<double> weights, std::size_t arity) {
  if (arity < 2) throw std::invalid_argument("huffman_length: expected two symbols or more");
  std::erase_if(weights, [](double w) { return !(w > 0.0); });
  if (weights.size() < 2) return 0.0;
  double sum = 0.0;
  for (const double w : weights) sum += w;
  // Filled up with impossible ones, so that each join takes `arity` of them.
  while ((weights.size() - 1) % (arity - 1) != 0) weights.push_back(0.0);
  std::make_heap(weights.begin(), weights.end(), std::greater<>());
  double length = 0.0;
  while (weights.size() > 1) {
    double joined = 0.0;
    for (std::size_t i = 0; i < arity; ++i) {
      std::pop_heap(weights.begin(), weights.end(), std::greater<>());
      joined += weights.back();
      weights.pop_back();
    }
    length += joined;
    weights.push_back(joined);
    std::push_heap(weights.begin(), weights.end(), std::greater<>());
  }
  return length / sum;
}

double cheapest_sum(std::vector<double> costs, double how_many) {
  std::sort(costs.begin(), costs.end());
  double sum = 0.0;
  for (const double cost : costs) {
    if (how_many <= 0.0) break;
    sum += cost * std::min(1.0, how_many);
    how_many -= 1.0;
  }
  return sum;
}

}  // namespace stirbench::diagnosis
