#include "sim_core/diagnosis/overview.h"

#include <algorithm>

namespace stirbench::diagnosis {

namespace {

template <typename P>
int likeliest(const Model& model, std::size_t question, P p_of) {
  int best = 0;
  for (std::size_t o = 1; o < model.outcome_count(question); ++o) {
    if (p_of(o) > p_of(static_cast<std::size_t>(best))) best = static_cast<int>(o);
  }
  return best;
}

}  // namespace

Testability testability_of(const Model& model) {
  std::vector<double> rate;
  std::vector<std::vector<int>> answers;
  for (std::size_t c = 0; c < model.causes.size(); ++c) {
    rate.push_back(model.causes[c].per_year);
    answers.emplace_back();
    for (std::size_t q = 0; q < model.question_count(); ++q) {
      answers.back().push_back(likeliest(model, q, [&](std::size_t o) { return cause_likelihood(model, c, q, o); }));
    }
  }
  return testability(rate, answers);
}

std::vector<std::size_t> unseen_causes(const Model& model) {
  constexpr double often = 1.0 / 3.0;
  std::vector<std::size_t> out;
  for (std::size_t c = 0; c < model.causes.size(); ++c) {
    bool seen = false;
    for (std::size_t k = 0; k < model.profiles.size(); ++k) {
      if (model.profiles[k].cause != c) continue;
      for (std::size_t s = 0; s < model.symptoms.size(); ++s) seen = seen || model.likelihood(k, s, 1) > often;
    }
    if (!seen) out.push_back(c);
  }
  return out;
}

std::vector<std::size_t> idle_checks(const Model& model) {
  std::vector<std::size_t> out;
  for (std::size_t q = model.symptoms.size(); q < model.question_count(); ++q) {
    bool tells = false;
    int first = -1;
    for (std::size_t k = 0; k < model.profiles.size(); ++k) {
      const int answer = likeliest(model, q, [&](std::size_t o) { return model.likelihood(k, q, o); });
      tells = tells || (first >= 0 && answer != first);
      first = answer;
    }
    if (!tells) out.push_back(q);
  }
  return out;
}

}  // namespace stirbench::diagnosis
