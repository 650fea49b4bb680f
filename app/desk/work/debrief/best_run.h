#pragma once

#include <atomic>
#include <functional>
#include <future>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "app/desk/work/debrief/debrief_model.h"
#include "app/desk/work/desk.h"
#include "sim_core/bench/script.h"

namespace stirbench::desk::work {

// A run to learn from: the guide's own play of the very same draws where the lesson draws something and its
// guide can be followed; else the person's own best run of this lesson, else the lesson's right run.
struct BestRun {
  std::string title;
  bool own = false;
  double score_norm = 0.0;
  double end_s = 0.0;
  std::vector<machine::Event> history;
  std::vector<double> step_began_s;
  std::string problem;  // why there is none after all; the rest is then empty
};

// All that the search needs; copies, so that screen and records go on as they like.
struct BestRunQuestion {
  enum class Kind : unsigned char { followed, own, right };
  Kind kind = Kind::right;
  machine::Machine machine;
  training::Lesson lesson;                // with the draws of the run that is played
  std::string journal_text;               // own
  double score_norm = 0.0;                // own
  std::vector<hands::TimedAction> hands;  // right
};

// What to compare `model` with, the run of `lesson` with its draws. Reads records and content, plays nothing.
// The person's best is the best finished run of the same version of the lesson that is better than `model`;
// nobody else's runs are looked at. Nothing when nothing can be read.
std::optional<BestRunQuestion> best_run_question(Desk& desk, const machine::Machine& machine,
                                                 const training::Lesson& lesson, const DebriefModel& model);

// Plays it. Ends soon, with a problem, when `cancelled` becomes true.
BestRun play_best_run(const BestRunQuestion& question, const std::atomic<bool>& cancelled);

// The play on a thread of its own. All members belong to the calling thread; only the work itself and `wake`
// run on the other one.
class BestRunSearch {
 public:
  // `wake` is called on the other thread when the run is there. It may be empty.
  explicit BestRunSearch(std::function<void()> wake = {}) : wake_(std::move(wake)) {}
  ~BestRunSearch() { cancel(); }
  BestRunSearch(const BestRunSearch&) = delete;
  BestRunSearch& operator=(const BestRunSearch&) = delete;

  void start(BestRunQuestion question);
  void cancel();
  // The run once it has been played.
  const std::optional<BestRun>& poll();
  bool busy() const { return running_.valid(); }

 private:
  std::function<void()> wake_;
  std::shared_ptr<std::atomic<bool>> cancelled_ = std::make_shared<std::atomic<bool>>(false);
  std::future<BestRun> running_;
  std::optional<BestRun> found_;
  std::jthread worker_;
};

// Which of a run's steps was the present one at a moment, and from when to when (its end for the last one).
struct StepSpan {
  std::size_t step = 0;
  double from_s = 0.0;
  double to_s = 0.0;
  bool reached = true;
};
StepSpan span_at(const std::vector<double>& step_began_s, double end_s, double at_s);
StepSpan span_of(const std::vector<double>& step_began_s, double end_s, std::size_t step);

}  // namespace stirbench::desk::work
