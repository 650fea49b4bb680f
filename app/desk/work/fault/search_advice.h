#pragma once

#include <string>

#include "app/desk/work/run/live_run.h"

// The guide's next check for a person who searches a fault in a lesson, as the run's advice has it.
namespace stirbench::desk::work {

struct SearchAdvice {
  bool searching = false;
  std::string now;  // the check that the advised hand is for; never the cause
  std::string why;
};

class SearchAdviser {
 public:
  SearchAdvice advice(const LiveRun& run, const training::LessonStep& step) const;
};

}  // namespace stirbench::desk::work
