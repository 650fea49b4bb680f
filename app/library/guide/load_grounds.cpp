#include "app/library/guide/guide.h"
#include "app/library/loading.h"
#include "sim_core/training/grounds_guide.h"

namespace stirbench::library {

void load_grounds(Loading& loading) {
  // On content that could not be read a guide would only say so again.
  if (!loading.problems.empty()) return;
  const FaultGuides guides = load_guides(loading.content_dir, loading.library);
  for (const auto& [id, guide] : guides.guides) {
    const auto evidence = guides.evidence.find(id);
    if (evidence == guides.evidence.end()) continue;
    GuideModel made = guide_model(guide, &evidence->second);
    loading.library.grounds[id] = std::make_shared<const training::GroundsGuide>(
        loading.library.machine(id), std::move(made.model), guide.protocols);
  }
}

}  // namespace stirbench::library
