#pragma once

#include <functional>
#include <future>
#include <optional>
#include <string>
#include <thread>

#include "app/library/food/recipe_store.h"

namespace stirbench::library {

// Runs estimate_finish_s on a thread of its own; at most one at a time, the newest question wins. All members
// belong to the calling thread; only the estimate itself and `wake` run on the other one.
class FinishEstimate {
 public:
  // `wake` is called on the other thread when an answer is ready: the desk uses it to draw again. It may be
  // empty.
  explicit FinishEstimate(std::function<void()> wake = {}) : wake_(std::move(wake)) {}

  // Asks about `recipe`. For one that the machine cannot run (`sound` false) the answer is empty.
  void ask(const Library& library, const std::string& machine_id, const control::Recipe& recipe, bool sound);
  // True when an answer arrived in this call (it may belong to a question that has been superseded).
  bool poll();
  bool busy() const { return running_.valid(); }
  const std::optional<double>& seconds() const { return seconds_; }

 private:
  struct Question {
    Library library;
    std::string machine;
    control::Recipe recipe;
  };
  void start(Question question);

  std::function<void()> wake_;
  std::future<double> running_;
  std::optional<Question> next_;
  std::optional<double> seconds_;
  bool stale_ = false;  // the running answer is for a recipe that has changed since
  std::jthread worker_;
};

}  // namespace stirbench::library
