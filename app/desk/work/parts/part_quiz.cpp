#include "app/desk/work/parts/part_quiz.h"

#include <algorithm>
#include <random>

namespace stirbench::desk::work {

PartQuiz::PartQuiz(const std::vector<library::BodyPart>& parts, std::uint64_t seed) {
  using library::ShownWhen;
  for (const library::BodyPart& one : parts) {
    if (one.shown == ShownWhen::hose_to_pail || one.shown == ShownWhen::pail) continue;
    order_.push_back(one);
  }
  std::shuffle(order_.begin(), order_.end(), std::mt19937_64(seed));
}

bool PartQuiz::answer(const std::string& part_id) {
  if (over()) return false;
  const auto pointed = std::find_if(order_.begin(), order_.end(),
                                    [&part_id](const library::BodyPart& one) { return one.id == part_id; });
  const bool same = pointed != order_.end() && (pointed->id == asked().id || pointed->title == asked().title);
  if (!same) {
    tried_ = true;
    ++wrong_;
    return false;
  }
  if (!tried_) ++right_;
  skip();
  return true;
}

void PartQuiz::skip() {
  if (over()) return;
  ++next_;
  tried_ = false;
}

}  // namespace stirbench::desk::work
