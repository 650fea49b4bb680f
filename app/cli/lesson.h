#pragma once

#include <optional>
#include <string>

#include "app/cli/common.h"

namespace stirbench::cli {

struct LessonRunOptions {
  std::string id;
  std::string actions;  // empty: the lesson's own right.jsonl
  std::optional<std::uint64_t> seed;
  std::string journal;
  bool follow = false;  // by the lesson's guide alone instead of a file
};

int lesson_list(const CommonOptions& common);
int lesson_show(const CommonOptions& common, const std::string& id);
// Plays an actions file, or the lesson's guide, to the lesson's end and scores it: exit 0 passed, 1 not
// passed.
int lesson_run(const CommonOptions& common, const LessonRunOptions& options);

// A score card as `lesson run --json` and `replay --json` print it.
nlohmann::json card_json(const training::ScoreCard& card);
void print_card(const training::ScoreCard& card);

}  // namespace stirbench::cli
