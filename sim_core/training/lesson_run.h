#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim_core/bench/script.h"
#include "sim_core/journal/journal.h"
#include "sim_core/training/scorer.h"

// One attempt at a lesson: session and monitors side by side. The desk, the command line, the golden tests
// and re-scoring all run a lesson through this class, so that they cannot disagree.
namespace stirbench::training {

class LessonRun {
 public:
  // `mode`: guided | practice | test (hands), or actions_file; kept in the journal. The lesson must outlive
  // the run.
  LessonRun(const machine::Machine& machine, const Lesson& lesson, std::string mode, std::string program,
            std::uint64_t seed, journal::Session::Write write = {});

  void act(const hands::Action& action) { session_.act(action); }
  // Continues another run from one of its moments: its inputs, and the tick up to which they are played at
  // once.
  struct Branch {
    std::string of;  // uid of its attempt, may be empty
    std::vector<journal::JournalAct> acts;
    std::uint64_t tick = 0;
  };
  LessonRun(const machine::Machine& machine, const Lesson& lesson, std::string mode, std::string program,
            std::uint64_t seed, const Branch& branch, journal::Session::Write write = {});

  // One tick: step, then monitors. Returns the tick's events.
  const std::vector<machine::Event>& step();

  const machine::State& state() const { return session_.state(); }
  bool over() const { return scorer_.lesson_over(); }
  ScoreCard card() const;
  Advice advice() const;      // what to do next
  Prospect prospect() const;  // whether it can still pass
  journal::Session& session() { return session_; }
  const journal::Session& session() const { return session_; }
  const Scorer& scorer() const { return scorer_; }

 private:
  Moment quiet_moment() const;

  journal::Session session_;
  Scorer scorer_;
};

// Plays an actions file to the lesson's end (end condition or time limit) and writes the end record.
void play_to_end(LessonRun& run, std::vector<hands::TimedAction> actions);

// Plays a journal's inputs into a run up to a tick: its state is then that of the other run at the tick.
template <bench::Drivable R>
void play_up_to(R& run, const std::vector<journal::JournalAct>& acts, std::uint64_t tick) {
  bench::drive(run, journal::KeptInputs(acts), [&] { return run.state().tick >= tick; });
}

}  // namespace stirbench::training
