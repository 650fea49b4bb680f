#include "app/library/guide/guide.h"
#include "sim_core/diagnosis/overview.h"

// A guide judged by its compiled trees.
namespace stirbench::library {

std::vector<Problem> judge_trees(const FaultGuide& guide, const LikelihoodTable* evidence) {
  std::vector<Problem> out;
  const GuideModel made = guide_model(guide, evidence);
  if (!made.simulated || made.stale) return out;
  const diagnosis::Model& model = made.model;
  const std::string file = "fault_guides/" + guide.id + ".json";
  for (const std::size_t c : diagnosis::symptomless_causes(model))
    out.push_back({file, "/causes/" + std::to_string(c), "a symptom that shows it",
                   "\"" + model.causes[c].id + "\" shows as none"});
  const diagnosis::TreeCoverage use = diagnosis::tree_coverage(model);
  for (const std::size_t q : use.unused)
    out.push_back({file, "/checks/" + std::to_string(q - model.symptoms.size()),
                   "a check that some tree asks", "\"" + model.check(q).id + "\" is in none"});
  for (const std::string& one : use.problems)
    out.push_back({file, "/symptoms", "trees that can be followed", one});
  return out;
}

}  // namespace stirbench::library
