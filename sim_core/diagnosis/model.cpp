#include "sim_core/diagnosis/model.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace stirbench::diagnosis {

namespace {

constexpr std::array<std::string_view, check_kind_count> kind_words = {
    "look", "listen", "feel", "panel", "meter", "gauge", "mechanical", "try_it"};

template <typename List>
std::size_t index_of(const List& list, std::string_view id) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i].id == id) return i;
  }
  return Model::npos;
}

[[noreturn]] void refuse_model(const std::string& what) {
  throw std::invalid_argument("diagnosis model: " + what);
}

}  // namespace

std::string_view check_kind_word(CheckKind kind) { return kind_words.at(static_cast<std::size_t>(kind)); }

AccessMinutes access_change_minutes(const AccessCosts& costs) {
  constexpr double far = 1.0e9;
  AccessMinutes m{};
  for (auto& row : m) row.fill(far);
  const auto way = [&m](AccessState from, AccessState to, double minutes) {
    m[static_cast<std::size_t>(from)][static_cast<std::size_t>(to)] = minutes;
  };
  for (std::size_t i = 0; i < access_state_count; ++i) m[i][i] = 0.0;
  way(AccessState::running, AccessState::standing, costs.stop_min);
  way(AccessState::standing, AccessState::running, costs.start_min);
  way(AccessState::standing, AccessState::isolated, costs.isolate_min);
  way(AccessState::isolated, AccessState::standing, costs.restore_min);
  way(AccessState::isolated, AccessState::open_isolated, costs.covers_off_min);
  way(AccessState::open_isolated, AccessState::isolated, costs.covers_on_min);
  way(AccessState::open_isolated, AccessState::open_live, costs.make_live_min);
  way(AccessState::open_live, AccessState::open_isolated, costs.isolate_min);
  for (std::size_t k = 0; k < access_state_count; ++k) {
    for (std::size_t i = 0; i < access_state_count; ++i) {
      for (std::size_t j = 0; j < access_state_count; ++j) m[i][j] = std::min(m[i][j], m[i][k] + m[k][j]);
    }
  }
  return m;
}

std::string Model::question_title(std::size_t question) const {
  return is_symptom(question) ? symptoms[question].title : check(question).title;
}

std::string Model::outcome_title(std::size_t question, std::size_t outcome) const {
  if (is_symptom(question)) return outcome == 0 ? "no" : "yes";
  return check(question).outcomes[outcome].title;
}

std::size_t Model::symptom_index(std::string_view id) const { return index_of(symptoms, id); }

std::size_t Model::check_question(std::string_view id) const {
  const std::size_t found = index_of(checks, id);
  return found == npos ? npos : symptoms.size() + found;
}

std::size_t Model::outcome_index(std::size_t question, std::string_view id) const {
  if (is_symptom(question)) return id == "no" ? 0 : id == "yes" ? 1 : npos;
  return index_of(check(question).outcomes, id);
}

std::size_t Model::cause_index(std::string_view id) const { return index_of(causes, id); }

double Model::likelihood(std::size_t profile, std::size_t question, std::size_t outcome) const {
  const std::vector<double>& counts = profiles[profile].counts[question];
  double machines = 0.0;
  for (const double count : counts) machines += count;
  const double outcomes = static_cast<double>(counts.size());
  if (machines + smoothing * outcomes <= 0.0) return 1.0 / outcomes;
  constexpr double as_usual = 0.9;
  const double share =
      usual.empty() ? 1.0 : as_usual * outcomes * usual[question][outcome] + (1.0 - as_usual);
  return (counts[outcome] + smoothing * share) / (machines + smoothing * outcomes);
}

void fit_outcome_prior(Model& model) {
  model.usual.clear();
  for (std::size_t q = 0; q < model.question_count(); ++q) {
    std::vector<double> sum(model.outcome_count(q), 0.0);
    double all = 0.0;
    for (const Profile& profile : model.profiles) {
      double machines = 0.0;
      for (const double count : profile.counts[q]) machines += count;
      if (!(machines > 0.0)) continue;
      const double rate = model.causes[profile.cause].per_year * profile.share;
      all += rate;
      for (std::size_t o = 0; o < sum.size(); ++o) sum[o] += rate * profile.counts[q][o] / machines;
    }
    for (double& one : sum) one = all > 0.0 ? one / all : 1.0 / static_cast<double>(sum.size());
    model.usual.push_back(std::move(sum));
  }
}

double cause_likelihood(const Model& model, std::size_t cause, std::size_t question, std::size_t outcome) {
  double p = 0.0;
  for (std::size_t k = 0; k < model.profiles.size(); ++k) {
    if (model.profiles[k].cause == cause)
      p += model.profiles[k].share * model.likelihood(k, question, outcome);
  }
  return p;
}

double unknown_likelihood(const Model& model, std::size_t question, std::size_t outcome) {
  constexpr double as_known = 0.8;
  if (!model.usual.empty())
    return as_known * model.usual[question][outcome] +
           (1.0 - as_known) / static_cast<double>(model.outcome_count(question));
  double rates = 0.0;
  double p = 0.0;
  for (std::size_t k = 0; k < model.profiles.size(); ++k) {
    const double rate = model.causes[model.profiles[k].cause].per_year * model.profiles[k].share;
    rates += rate;
    p += rate * model.likelihood(k, question, outcome);
  }
  const double even = 1.0 / static_cast<double>(model.outcome_count(question));
  return rates > 0.0 ? as_known * p / rates + (1.0 - as_known) * even : even;
}

void check_model(const Model& model) {
  std::vector<double> share(model.causes.size(), 0.0);
  for (const Cause& cause : model.causes) {
    if (!(cause.per_year >= 0.0)) refuse_model("the rate of cause \"" + cause.id + "\" is negative");
  }
  for (const Profile& profile : model.profiles) {
    if (profile.cause >= model.causes.size()) refuse_model("a profile belongs to no cause");
    const std::string name =
        "profile \"" + profile.label + "\" of cause \"" + model.causes[profile.cause].id + "\"";
    if (!(profile.share >= 0.0)) refuse_model(name + " has a negative share");
    share[profile.cause] += profile.share;
    if (profile.counts.size() != model.question_count())
      refuse_model(name + " does not answer every question");
    for (std::size_t q = 0; q < profile.counts.size(); ++q) {
      if (profile.counts[q].size() != model.outcome_count(q))
        refuse_model(name + " has another number of outcomes than \"" + model.question_title(q) + "\"");
      for (const double count : profile.counts[q]) {
        if (!(count >= 0.0))
          refuse_model(name + " has a negative count for \"" + model.question_title(q) + "\"");
      }
    }
  }
  for (std::size_t c = 0; c < share.size(); ++c) {
    if (!(std::fabs(share[c] - 1.0) <= 1.0e-9))
      refuse_model("the shares of cause \"" + model.causes[c].id + "\" sum to " + std::to_string(share[c]));
  }
}

}  // namespace stirbench::diagnosis
