#include "sim_core/training/guidance/ways.h"

#include <algorithm>

#include "sim_core/hands/hand.h"

namespace stirbench::training {

namespace {

bool same(const Condition& a, const Condition& b) {
  const bool alone = a.op == b.op && a.signal == b.signal && a.number == b.number && a.flag == b.flag &&
                     a.text == b.text && a.of == b.of && a.event == b.event &&
                     a.parts.size() == b.parts.size();
  return alone && std::equal(a.parts.begin(), a.parts.end(), b.parts.begin(), same);
}

bool upward(Op op) { return op == Op::at_least || op == Op::above; }
bool downward(Op op) { return op == Op::at_most || op == Op::below; }

}  // namespace

bool serves(const Condition& reaches, const Condition& need) {
  if (upward(reaches.op) && upward(need.op))
    return reaches.signal == need.signal && reaches.number >= need.number;
  if (downward(reaches.op) && downward(need.op))
    return reaches.signal == need.signal && reaches.number <= need.number;
  return same(reaches, need);
}

bool is_one_of(const hands::Action& action, const hands::Action& pattern) {
  if (action.hand() != pattern.hand() || action.hand() == nullptr) return false;
  const auto takes = action.hand()->takes();
  return std::all_of(takes.begin(), takes.end(), [&](const hands::Parameter* one) {
    return !pattern.has(*one) || pattern.value(*one) == action.value(*one);
  });
}

}  // namespace stirbench::training
