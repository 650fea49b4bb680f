#include "app/desk/work/fault/search_advice.h"

#include <algorithm>

namespace stirbench::desk::work {

namespace {

bool looks_for_causes(const training::Condition& c) {
  if (c.signal != nullptr && (c.signal->name == "causes_found" || c.signal->name == "causes_missed"))
    return true;
  if (c.op == training::Op::grounds) return true;
  if (c.op == training::Op::event && c.text == "name_cause") return c.parts.empty();
  return std::any_of(c.parts.begin(), c.parts.end(), looks_for_causes);
}

// What the advice hangs on: the findings, and how open and live the machine is.
std::uint64_t key_of(const training::Grounds& grounds, const machine::State& state) {
  std::uint64_t key = 1;
  for (const training::Found& one : grounds.findings())
    key = key * 1099511628211ULL + one.question * 16 + one.outcome;
  key = key * 4 + (state.plant.fittings.isolator_on ? 2 : 0) + (state.lockout.panel_off ? 1 : 0);
  return key * 2 + (control::mode_moves(state.control.mode) ? 1 : 0);
}

}  // namespace

bool is_search(const training::LessonStep& step) {
  // A step that any key ends too is a first look, not a search.
  return step.done.op != training::Op::any && looks_for_causes(step.done);
}

const SearchAdvice& SearchAdviser::advice(const LiveRun& run, const training::LessonStep& step) {
  const training::Scorer* scorer = run.scorer();
  const training::Grounds* grounds = scorer == nullptr ? nullptr : scorer->grounds();
  if (grounds == nullptr || !is_search(step)) {
    kept_ = {};
    key_ = 0;
    return kept_;
  }
  const std::uint64_t key = key_of(*grounds, run.state());
  if (key == key_ && step_ == step.id) return kept_;
  key_ = key;
  step_ = step.id;
  const training::ProposedCheck advice = grounds->advice(run.state());
  kept_ = {true, advice.check, advice.why};
  if (advice.check.empty()) kept_ = {true, advice.why, {}};
  return kept_;
}

}  // namespace stirbench::desk::work
