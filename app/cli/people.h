#pragma once

#include <string>

#include "app/cli/common.h"

namespace stirbench::cli {

int people_list(const Common& common);
int people_add(const Common& common, const std::string& name);
int attempts_list(const Common& common, const std::string& person);

}  // namespace stirbench::cli
