#pragma once

#include <string>

#include "app/cli/common.h"

namespace stirbench::cli {

// Loads a content folder strictly, plays each lesson's own action files; one problem a line on stdout. Exit 0
// or 2. `trees`: compiles every diagnostic tree of every guide too, which takes some seconds. `with_runs`:
// proves each criterion of each lesson. `spread`: plays each lesson's right run on so many drawn machines
// (machine/uncertain.h) and names the criteria that hang on what the model does not know; 0 .. 1000.
int check_content(const CommonOptions& common, const std::string& content_dir, bool trees = false,
                  bool with_runs = true, int spread = 0);

// `help actions`: every action an actions file may hold, from the one table.
int help_actions(const CommonOptions& common);

}  // namespace stirbench::cli
