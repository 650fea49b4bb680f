#include "app/desk/work/fault/search_advice.h"

namespace stirbench::desk::work {

SearchAdvice SearchAdviser::advice(const LiveRun& run, const training::LessonStep&) const {
  const training::Advice& advice = run.advice();
  return {!advice.check.empty(), advice.check, advice.worth};
}

}  // namespace stirbench::desk::work
