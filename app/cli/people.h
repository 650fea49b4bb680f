#pragma once

#include <string>

#include "app/cli/asking.h"

namespace stirbench::cli {

int people_list(const CommonOptions& common);
int people_add(const CommonOptions& common, const SignInOptions& asking, const std::string& name,
               const std::string& number);
int people_role(const CommonOptions& common, const SignInOptions& asking, const std::string& name,
                const std::string& role);
int people_pin(const CommonOptions& common, const SignInOptions& asking, const std::string& name,
               const std::string& new_pin_file);
// Without `apply` only shows what would be done.
int people_import(const CommonOptions& common, const SignInOptions& asking, const std::string& file,
                  bool apply);
int people_remove(const CommonOptions& common, const SignInOptions& asking, const std::string& name);
int attempts_list(const CommonOptions& common, const SignInOptions& asking, const std::string& person);

}  // namespace stirbench::cli
