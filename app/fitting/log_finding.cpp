#include "app/fitting/log_finding.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace stirbench::fitting {

using namespace identification;

namespace {

// Which of a cause's kinds a grade belongs to: its kinds share out the severities evenly, mild first.
std::size_t kind_of(double severity, const faults::Fault& cause, std::size_t kinds) {
  const double range = cause.severity_high - cause.severity_low;
  if (kinds < 2 || !(range > 0.0)) return 0;
  const double place = (severity - cause.severity_low) / range * static_cast<double>(kinds);
  return std::min(kinds - 1, static_cast<std::size_t>(std::max(0.0, place)));
}

// By profile; below `least` stands for what could not be tried.
std::vector<double> bics_of(const diagnosis::Model& model, const Explanations& explanations) {
  constexpr double never = 1.0e9;
  std::map<std::string, const Explanation*> by_id;
  for (const Explanation& one : explanations.ranked)
    if (one.kind == Explains::fault) by_id[one.id] = &one;
  std::vector<double> out(model.profiles.size(), never);
  for (std::size_t c = 0; c < model.causes.size(); ++c) {
    std::vector<std::size_t> kinds;
    for (std::size_t k = 0; k < model.profiles.size(); ++k)
      if (model.profiles[k].cause == c) kinds.push_back(k);
    const auto& not_seen = explanations.not_seen;
    if (std::find(not_seen.begin(), not_seen.end(), model.causes[c].id) != not_seen.end()) {
      for (const std::size_t k : kinds) out[k] = explanations.sound_bic;
      continue;
    }
    const auto found = by_id.find(model.causes[c].id);
    if (found == by_id.end() || kinds.empty()) continue;
    for (const Explanation::Grade& grade : found->second->grades) {
      double& here = out[kinds[kind_of(grade.severity, model.causes[c], kinds.size())]];
      here = std::min(here, grade.bic);
    }
  }
  return out;
}

}  // namespace

LogFinding log_finding(const diagnosis::Model& model, const Explanations& explanations) {
  LogFinding out;
  out.profile_p.assign(model.profiles.size(), 1.0);
  out.words = "tells nothing";
  out.unknown_p = 1.0;
  if (explanations.ranked.empty()) return out;
  const std::vector<double> bics = bics_of(model, explanations);
  double unknown = explanations.unexplained_bic;
  for (const Explanation& one : explanations.ranked)
    if (one.kind == Explains::lid_left_open || one.kind == Explains::other_machine)
      unknown = std::min(unknown, one.bic);
  double least = unknown;
  for (const double bic : bics) least = std::min(least, bic);
  const auto p_of = [least](double bic) {
    return std::max(least_likelihood, std::exp(-0.5 * (bic - least)));
  };
  for (std::size_t k = 0; k < bics.size(); ++k) out.profile_p[k] = p_of(bics[k]);
  out.unknown_p = p_of(unknown);
  const Explanation& first = explanations.ranked.front();
  // A difference of less than 2 is not worth more than a bare mention (Kass & Raftery 1995, JASA 90:773, from
  // memory).
  constexpr double bare_mention = 2.0;
  out.as_in_order =
      first.kind == Explains::nothing_wrong || explanations.sound_bic < first.bic + bare_mention;
  out.words = out.as_in_order ? "as a machine in order writes it" : "most like: " + first.title;
  if (unknown <= least) out.words = "like none of the guide's causes";
  return out;
}

std::size_t add_log_question(diagnosis::Model& model, const LogFinding& finding) {
  remove_log_question(model);
  // So many that nothing is added by smoothing.
  constexpr double machines = 1.0e6;
  diagnosis::Check check;
  check.id = log_check_id;
  check.title = "A log of the batch";
  check.minutes = 0.0;
  check.needs = diagnosis::AccessState::standing;
  check.outcomes = {{"otherwise", "otherwise"}, {"as-logged", finding.words}};
  model.checks.push_back(std::move(check));
  for (std::size_t k = 0; k < model.profiles.size(); ++k) {
    const double p = finding.profile_p[k];
    model.profiles[k].counts.push_back({machines * (1.0 - p), machines * p});
  }
  if (!model.usual.empty()) {
    // unknown_likelihood() is four parts of this and one part of anything.
    const double usual = std::clamp((finding.unknown_p - 0.1) / 0.8, 0.0, 1.0);
    model.usual.push_back({1.0 - usual, usual});
  }
  return model.question_count() - 1;
}

void remove_log_question(diagnosis::Model& model) {
  if (model.checks.empty() || model.checks.back().id != log_check_id) return;
  model.checks.pop_back();
  for (diagnosis::Profile& profile : model.profiles) profile.counts.pop_back();
  if (!model.usual.empty()) model.usual.pop_back();
}

}  // namespace stirbench::fitting
