#include <algorithm>
#include <utility>

#include "sim_core/training/grounds.h"

// What a person has found in the terms of the guide's model, and counts of how they named.
namespace stirbench::training {

using diagnosis::Model;

Model Grounds::model() const {
  constexpr double machines = 1.0e6;  // so many that nothing is added by smoothing
  Model out = guide_->model();
  double rates = 0.0;
  for (const diagnosis::Profile& one : out.profiles) rates += out.causes[one.cause].per_year * one.share;
  for (const ReadingOdds& reading : odds_) {
    diagnosis::Check check;
    check.id = "reading-" + std::to_string(&reading - odds_.data());
    check.title = reading.title;
    check.outcomes = {
        {"as-sound", "as on a sound machine"}, {"as-read", "as read"}, {"otherwise", "otherwise"}};
    out.checks.push_back(std::move(check));
    std::vector<double> usual(3, 0.0);
    for (std::size_t k = 0; k < out.profiles.size(); ++k) {
      diagnosis::Profile& profile = out.profiles[k];
      std::vector<double> counts;
      for (std::size_t o = 0; o < 3; ++o) {
        counts.push_back(machines * reading.p[k][o]);
        usual[o] += out.causes[profile.cause].per_year * profile.share * reading.p[k][o] / rates;
      }
      profile.counts.push_back(std::move(counts));
    }
    if (!out.usual.empty()) out.usual.push_back(std::move(usual));
  }
  return out;
}

std::vector<diagnosis::Finding> Grounds::as_findings() const {
  std::vector<diagnosis::Finding> out;
  for (const Found& one : findings_) out.push_back({one.question, one.outcome, one.sure, false});
  return out;
}

const std::vector<std::string>& Grounds::count_words() {
  static const std::vector<std::string> words = {"names_earned",   "names_premature", "names_guessed",
                                                 "names_unproved", "checks_repeated", "findings"};
  return words;
}

double Grounds::count(std::string_view word) const {
  const auto named = [this](Standing standing) {
    return static_cast<double>(std::count_if(namings_.begin(), namings_.end(), [standing](const Naming& one) {
      return one.standing == standing;
    }));
  };
  if (word == "names_earned") return named(Standing::earned);
  if (word == "names_premature") return named(Standing::premature);
  if (word == "names_guessed") return named(Standing::guessed);
  if (word == "names_unproved") return named(Standing::premature) + named(Standing::guessed);
  if (word == "checks_repeated") return static_cast<double>(repeated_);
  if (word == "findings") return static_cast<double>(own_findings());
  return 0.0;
}

}  // namespace stirbench::training
