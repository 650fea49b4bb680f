#include "sim_core/training/assessment.h"

#include <cmath>
#include <stdexcept>

namespace stirbench::training {

double all_met_norm(double each_norm, int items) { return std::pow(each_norm, items); }

int runs_without_failure(double rate_norm, double confidence_norm) {
  if (!(rate_norm > 0.0 && rate_norm < 1.0))
    throw std::invalid_argument("rate_norm: expected more than 0 and less than 1");
  if (!(confidence_norm > 0.0 && confidence_norm < 1.0))
    throw std::invalid_argument("confidence_norm: expected more than 0 and less than 1");
  return static_cast<int>(std::ceil(std::log(1.0 - confidence_norm) / std::log(rate_norm) - 1e-9));
}

PanelCut panel_cut(const std::vector<std::vector<double>>& chances_by_judge) {
  if (chances_by_judge.empty() || chances_by_judge.front().empty())
    throw std::invalid_argument("a panel needs a judge and an item");
  PanelCut out;
  const std::size_t items = chances_by_judge.front().size();
  for (const std::vector<double>& row : chances_by_judge) {
    if (row.size() != items) throw std::invalid_argument("each judge looks at the same items");
    double sum = 0.0;
    for (const double one : row) sum += one;
    out.by_judge.push_back(sum);
    out.cut += sum;
  }
  const auto judges = static_cast<double>(out.by_judge.size());
  out.cut /= judges;
  out.cut_norm = out.cut / static_cast<double>(items);
  double squares = 0.0;
  for (const double one : out.by_judge) squares += (one - out.cut) * (one - out.cut);
  if (out.by_judge.size() > 1) out.deviation = std::sqrt(squares / (judges - 1.0));
  out.error = out.deviation / std::sqrt(judges);
  return out;
}

Consistency consistency(double same_norm, double pass_norm) {
  Consistency out;
  out.same_norm = same_norm;
  out.chance_norm = pass_norm * pass_norm + (1.0 - pass_norm) * (1.0 - pass_norm);
  if (out.chance_norm < 1.0) out.kappa = (same_norm - out.chance_norm) / (1.0 - out.chance_norm);
  return out;
}

double chance_to_pass(double share, int items, int cut) {
  double sum = 0.0;
  for (int right = cut; right <= items; ++right) {
    double ways = 1.0;
    for (int k = 0; k < right; ++k) ways *= static_cast<double>(items - k) / static_cast<double>(k + 1);
    sum += ways * std::pow(share, right) * std::pow(1.0 - share, items - right);
  }
  return sum;
}

Consistency one_form_consistency(const std::vector<double>& true_shares, int items, int cut) {
  if (true_shares.empty()) throw std::invalid_argument("at least one person");
  double same = 0.0;
  double pass = 0.0;
  for (const double share : true_shares) {
    const double p = chance_to_pass(share, items, cut);
    same += p * p + (1.0 - p) * (1.0 - p);
    pass += p;
  }
  const auto people = static_cast<double>(true_shares.size());
  return consistency(same / people, pass / people);
}

}  // namespace stirbench::training
