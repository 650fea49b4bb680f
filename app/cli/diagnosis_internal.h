#pragma once

#include <string>

#include "app/cli/common.h"
#include "app/library/guide/guide.h"
#include "sim_core/diagnosis/next_check.h"

// Shared by the verbs causes and guide.
namespace stirbench::cli {

// Only what guides need.
library::Library guide_library_or_refuse(const CommonOptions& common);
library::FaultGuides guides_or_refuse(const CommonOptions& common, const library::Library& library,
                                      bool with_evidence = true);
library::GuideModel model_or_refuse(const CommonOptions& common, const library::Library& library,
                                    const std::string& machine);
// By id, or by plain words that fit one symptom clearly better than the next.
std::size_t symptom_or_refuse(const diagnosis::Model& model, const std::string& text);
diagnosis::Who who_or_refuse(const std::string& text);
nlohmann::json repair_json(const diagnosis::Model& model, const diagnosis::RepairAdvice& one);
std::string percent(double p);
// On stderr, when there is no evidence or it is stale.
void say_state(const library::GuideModel& guide);

}  // namespace stirbench::cli
