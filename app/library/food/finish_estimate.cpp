#include "app/library/food/finish_estimate.h"

#include <chrono>
#include <utility>

namespace stirbench::library {

void FinishEstimate::start(Question question) {
  std::promise<double> answer;
  running_ = answer.get_future();
  // The answer is stored before `wake` is called, so that the woken thread finds it.
  worker_ = std::jthread([q = std::move(question), wake = wake_, answer = std::move(answer)]() mutable {
    answer.set_value(estimate_finish_s(q.library, q.machine, q.recipe));
    if (wake) wake();
  });
}

void FinishEstimate::ask(const Library& library, const std::string& machine_id, const control::Recipe& recipe,
                         bool sound) {
  seconds_.reset();
  stale_ = running_.valid();
  next_.reset();
  if (!sound) return;  // a recipe the machine cannot run has no time to finish
  Question question{library, machine_id, recipe};
  if (running_.valid()) {
    next_ = std::move(question);
  } else {
    start(std::move(question));
  }
}

bool FinishEstimate::poll() {
  if (!running_.valid() || running_.wait_for(std::chrono::seconds(0)) != std::future_status::ready)
    return false;
  const double seconds = running_.get();
  if (!stale_) seconds_ = seconds;
  stale_ = false;
  if (next_) {
    Question question = std::move(*next_);
    next_.reset();
    start(std::move(question));
  }
  return true;
}

}  // namespace stirbench::library
