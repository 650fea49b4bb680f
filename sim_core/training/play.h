#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim_core/bench/script.h"
#include "sim_core/training/scorer.h"

// One attempt at a lesson: session and monitors side by side. The desk, the command line, the golden tests and a re-score all
// run a lesson through this one class, so that they cannot disagree.
namespace stirbench::training {

class LessonRun {
 public:
  // `mode`: guided | practice | test (hands), or actions_file; kept in the journal. The lesson must outlive the run.
  LessonRun(const bench::Machine& machine, const Lesson& lesson, std::string mode, std::string program,
            std::uint64_t seed, bench::Session::Write write = {});

  void act(const bench::Action& action) { session_.act(action); }
  // One tick: step, then monitors. Returns the tick's events.
  const std::vector<bench::Event>& step();

  bool over() const { return scorer_.lesson_over(); }
  ScoreCard card() const;
  bench::Session& session() { return session_; }
  const bench::Session& session() const { return session_; }
  const Scorer& scorer() const { return scorer_; }

 private:
  bench::Session session_;
  Scorer scorer_;
};

// Plays an actions file to the lesson's end (end condition or time limit) and writes the end record.
void play_to_end(LessonRun& run, std::vector<bench::TimedAction> actions);

}  // namespace stirbench::training
