#pragma once

#include <string>

#include "app/cli/common.h"

namespace stirbench::cli {

// Replays a journal on the present content and program: exit 0 when every hash agrees, 3 (naming record or
// tick) when not.
int replay_journal(const CommonOptions& common, const std::string& file, const std::string& pdf = "");

}  // namespace stirbench::cli
