#pragma once

#include <string>

#include "app/cli/checking/check_draws.h"
#include "app/cli/common.h"

namespace stirbench::cli {

struct CheckOptions {
  std::string content_dir;  // empty: the one in use
  bool trees = false;       // compile every diagnostic tree of every guide too, which takes some seconds
  bool with_runs = true;    // prove each criterion of each lesson
  int spread = 0;       // play each lesson's right run on so many drawn machines (machine/uncertain.h) and
                        // name the criteria that hang on what the model does not know; 0 .. 1000
  bool habits = false;  // unsafe and over-careful habits against every lesson (prove_conduct.h)
  CheckDrawsOptions draws;  // draws 0: none
};

// Loads a content folder strictly, plays each lesson's own action files; one problem a line on stdout. Exit 0
// or 2.
int check_content(const CommonOptions& common, const CheckOptions& options);

// `help actions`: every action an actions file may hold, from the one table.
int help_actions(const CommonOptions& common);

}  // namespace stirbench::cli
