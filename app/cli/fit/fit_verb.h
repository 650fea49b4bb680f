#pragma once

#include <CLI/CLI.hpp>
#include <functional>

#include "app/cli/common.h"

namespace stirbench::cli {

void add_fit_verb(CLI::App& app, CommonOptions& common, std::function<int()>& verb);

}  // namespace stirbench::cli
