#pragma once

#include <string>

#include "app/desk/work/run/live_run.h"

// The guide's next check for a person who searches a fault in a lesson.
namespace stirbench::desk::work {

struct SearchAdvice {
  bool searching = false;  // the step asks for a cause to be found
  std::string now;         // the check to make, or that the findings suffice; never the cause
  std::string why;
};

// A step that is done when causes are found or named is a search.
bool is_search(const training::LessonStep& step);

// Keeps the answer until something was found: the planner takes some hundredths of a second.
class SearchAdviser {
 public:
  const SearchAdvice& advice(const LiveRun& run, const training::LessonStep& step);

 private:
  SearchAdvice kept_;
  std::uint64_t key_ = 0;
  std::string step_;
};

}  // namespace stirbench::desk::work
