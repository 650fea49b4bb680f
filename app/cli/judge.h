#pragma once

#include "app/cli/common.h"
#include "sim_core/training/batch_judge.h"

// What the judge of a batch says, as JSON and as text.
namespace stirbench::cli {

// {"heat_treatment": {...}, "cooling": {...}, "quality": {...}}
nlohmann::json judge_json(const training::BatchJudge& judge, const machine::State& state);

// A short section: met rows by jurisdiction, lethality with its caution, cooling rules, quality.
void print_judge(const training::BatchJudge& judge, const machine::State& state);

}  // namespace stirbench::cli
