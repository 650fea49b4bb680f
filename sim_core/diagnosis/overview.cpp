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
      answers.back().push_back(
          likeliest(model, q, [&](std::size_t o) { return cause_likelihood(model, c, q, o); }));
    }
  }
  return testability(rate, answers);
}

std::vector<std::size_t> symptomless_causes(const Model& model) {
  constexpr double often = 1.0 / 3.0;
  std::vector<std::size_t> out;
  for (std::size_t c = 0; c < model.causes.size(); ++c) {
    bool seen = false;
    for (std::size_t k = 0; k < model.profiles.size(); ++k) {
      if (model.profiles[k].cause != c) continue;
      for (std::size_t s = 0; s < model.symptoms.size(); ++s)
        seen = seen || model.likelihood(k, s, 1) > often;
    }
    if (!seen) out.push_back(c);
  }
  return out;
}

std::vector<std::size_t> uninformative_checks(const Model& model) {
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

std::vector<std::string> tree_problems(const Model& model, const Tree& tree) {
  std::vector<std::string> out;
  for (std::size_t i = 0; i < tree.nodes.size(); ++i) {
    const TreeNode& node = tree.nodes[i];
    if (node.question == Model::npos) {
      // An end without a repair is a call for service: that is an answer too, but a minute figure belongs to
      // it.
      if (!(node.expected_min > 0.0))
        out.push_back("end " + std::to_string(i) + " says neither repair nor call");
      continue;
    }
    const std::string name = model.check(node.question).id;
    if (node.child.size() != model.outcome_count(node.question))
      out.push_back(name + " does not lead on from each answer");
    std::size_t ways = 0;
    for (const std::size_t child : node.child) {
      if (child == Model::npos) continue;
      ++ways;
      if (child <= i || child >= tree.nodes.size()) out.push_back(name + " leads back");
    }
    if (ways < 2) out.push_back(name + " has only one answer that can come");
  }
  return out;
}

TreeCoverage tree_coverage(const Model& model) {
  TreeCoverage out;
  std::vector<bool> used(model.question_count(), false);
  struct Way {
    AccessState condition;
    std::size_t candidates;
  };
  const std::size_t usual = TreeOptions{}.candidates;
  for (std::size_t s = 0; s < model.symptoms.size(); ++s) {
    for (std::size_t w = 0; w < who_count; ++w) {
      for (const Way& way : {Way{AccessState::standing, usual}, Way{AccessState::open_isolated, usual},
                             Way{AccessState::standing, 2 * usual}}) {
        TreeOptions options;
        options.candidates = way.candidates;
        const Tree tree = compile_tree(model, {{s, 1}}, {static_cast<Who>(w), way.condition, {}}, options);
        ++out.trees;
        out.nodes += tree.nodes.size();
        for (const TreeNode& node : tree.nodes) {
          if (node.question != Model::npos) used[node.question] = true;
        }
        for (const std::string& one : tree_problems(model, tree))
          out.problems.push_back(model.symptoms[s].id + ": " + one);
      }
    }
  }
  for (std::size_t q = model.symptoms.size(); q < used.size(); ++q) {
    if (!used[q]) out.unused.push_back(q);
  }
  return out;
}

}  // namespace stirbench::diagnosis
