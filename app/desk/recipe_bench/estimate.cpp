#include <chrono>
#include <utility>

#include "app/desk/recipe_bench/editor.h"
#include "app/desk/shell/window.h"

namespace stirbench::desk {

void FinishEstimate::start(Question question) {
  running_ = std::async(std::launch::async, [q = std::move(question)] {
    const double seconds = library::estimate_finish_s(q.library, q.machine, q.recipe);
    Window::wake_from_any_thread();
    return seconds;
  });
}

void FinishEstimate::ask(const library::Library& library, const std::string& machine_id, const control::Recipe& recipe,
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
  if (!running_.valid() || running_.wait_for(std::chrono::seconds(0)) != std::future_status::ready) return false;
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

}  // namespace stirbench::desk
