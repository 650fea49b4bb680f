#pragma once

#include <CLI/CLI.hpp>
#include <functional>

#include "app/cli/common.h"
#include "app/cli/fit/fit.h"

namespace stirbench::cli {

// A log and what is said about its batch; --log is not required.
void add_log_options(CLI::App& app, FitOptions& options);
void add_fit_verb(CLI::App& app, CommonOptions& common, std::function<int()>& verb);

}  // namespace stirbench::cli
