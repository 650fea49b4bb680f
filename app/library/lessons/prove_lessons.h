#pragma once

#include <string>
#include <vector>

#include "app/library/library.h"

namespace stirbench::library {

// Proves for each lesson that every criterion can be both met and missed, by playing its own files:
// right.jsonl must meet them all, do all steps and pass; each criterion must be missed in some wrong-*.jsonl.
// Returns what was not proved. Plays the runs at about ten thousand times real time. The library must have
// been loaded from `content_dir` without problems.
std::vector<Problem> prove_lessons(const std::string& content_dir, const Library& library);

}  // namespace stirbench::library
