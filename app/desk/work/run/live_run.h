#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "app/records/store.h"
#include "sim_core/signals/alarm_log.h"
#include "sim_core/training/guidance/ladder.h"
#include "sim_core/training/lesson_run.h"

namespace stirbench::desk::work {

// retry: practice that goes on from a moment of another run.
enum class RunMode : unsigned char { guided, practice, test, free, retry };
std::string run_mode_name(RunMode mode);

inline constexpr double rewind_s = 30.0;

// Why a rush ("to my next step") came to its stop, or what the person should look at now.
struct Attention {
  enum class Kind : unsigned char {
    none,
    step_done,
    alarm,
    addition,
    phase,
    harm,
    refused,
    finished,
    lesson_over,
    person,  // somebody else came, worked here or gave the machine back
    idle
  };
  Kind kind = Kind::none;
  std::string text;  // plain words, may be empty
};

// One run at the machine, lesson or free: session, monitors, journal on disk, attempt in the records. Knows
// nothing of windows. The machine and the lesson are copied in, so that a reload of content does not disturb
// a run.
class LiveRun {
 public:
  struct Setup {
    machine::Machine machine;
    std::optional<training::Lesson> lesson;  // empty: free run
    machine::StartSetup free_start;          // used without a lesson
    bool faults_known =
        false;  // free run: the person chose the fault and may see what it does in the circuit
    RunMode mode = RunMode::guided;
    std::string program;
    std::int64_t person = 0;          // 0: nobody signed in
    records::Store* store = nullptr;  // null: nothing is kept
    std::string started_utc;
    std::optional<training::LessonRun::Branch> branch;  // retry: from where on
    int grasp = 0;       // what the person has shown of the lesson's skills before (guidance/ladder.h)
    bool asked = false;  // retry: help comes when it is asked for, as in practice
  };
  explicit LiveRun(Setup setup);
  ~LiveRun();
  LiveRun(const LiveRun&) = delete;
  LiveRun& operator=(const LiveRun&) = delete;

  // Empty: done at the next tick. Else why hands cannot do it now; nothing is sent.
  std::string act(const hands::Action& action);
  // What an instructor does to the run; the caller has asked for the right. Empty, or why not: a test is
  // sealed, so that only notes and the clock may be touched in it.
  std::string instruct(const hands::Action& action);
  // The instructor has stopped the clock: hands do nothing until it is handed back.
  bool frozen() const { return frozen_; }
  bool instructed() const { return instructed_; }  // at least once
  // As an ingredient is delivered now: the instructor's temperature, else its usual one [degC].
  double delivered_degC(const product::Ingredient& ingredient) const;

  // One tick. Returns what deserves attention in it (kind none mostly).
  Attention step();
  // The rung that help begins at, at this moment; none in tests and where one has to ask for it.
  std::optional<training::Rung> first_rung() const;
  // A rung was asked for. One that leads makes practice helped: it opens no closed series of tests.
  void note_rung(training::Rung rung);
  // Ends the attempt: end record, score, records. Safe to call twice.
  void finish();

  bool over() const;  // the lesson's own end, or an injury
  bool finished() const { return finished_; }
  const machine::Machine& machine() const { return setup_.machine; }
  const machine::State& state() const;
  const training::Lesson* lesson() const { return setup_.lesson ? &*setup_.lesson : nullptr; }
  RunMode mode() const { return setup_.mode; }
  int current_step() const;  // the goal that the advice is about
  // What to do now, and whether the run can still pass; of the latest tick. Only with a lesson.
  const training::Advice& advice() const;
  const training::Prospect& prospect() const;
  training::ScoreCard card() const;
  const training::Scorer* scorer() const;
  // As the person last asked, also before the tick that does it: presses in one tick add up.
  double draw_opening_norm() const;
  const std::vector<machine::Event>& history() const;
  // A fault is in the machine that the person is to find: screens must not show where the circuit is broken.
  bool hides_faults() const;
  // Views show what eyes beside the machine see and no more: lessons with a fault to find, all tests, and
  // while a fault is hidden.
  bool senses_only() const;
  const signals::AlarmLog& alarm_log() const { return alarm_log_; }
  const std::string& journal_text() const { return journal_text_; }
  const std::optional<records::Attempt>& attempt() const { return attempt_; }
  // Trouble with keeping the attempt ("The disk is full ..."); the run itself goes on.
  const std::string& keeping_problem() const { return keeping_problem_; }

  // The same run from its beginning, as a new attempt.
  std::unique_ptr<LiveRun> again(const std::string& started_utc,
                                 std::optional<training::Lesson> lesson) const;

  // Why this run cannot be taken back; empty when it can. Tests stand as they were played.
  std::string why_not_rewind() const;
  // Where a rewind leads: `rewind_s` before the injury, or before the last moment at which the run was seen
  // to be able to pass; its start at the earliest.
  std::uint64_t rewind_tick() const;
  // A new run, practice that was helped, that has done up to rewind_tick() what this one did. This one has to
  // be finished before.
  std::unique_ptr<LiveRun> rewound(const std::string& started_utc) const;

  // Whether anything in the machine changes by itself now; a rush over an idle machine would lead nowhere.
  bool something_runs() const;

 private:
  journal::Session& session();
  const journal::Session& session() const;
  void keep(std::string_view record);
  Attention judge(const std::vector<machine::Event>& events);

  Setup setup_;
  std::string journal_text_;
  std::string keeping_problem_;
  std::unique_ptr<records::JournalFile> journal_;
  std::optional<records::Attempt> attempt_;
  std::unique_ptr<training::LessonRun> lesson_run_;
  std::unique_ptr<journal::Session> free_run_;
  std::optional<double> asked_opening_norm_;
  signals::AlarmLog alarm_log_;
  std::map<std::string, double> delivered_degC_;
  bool frozen_ = false;
  bool instructed_ = false;
  int last_step_ = 0;
  struct AskedRung {
    training::Rung rung = training::Rung::goal;
    std::string step;
    double at_s = 0.0;
  };
  std::vector<AskedRung> asked_rungs_;
  std::uint64_t could_pass_tick_ = 0;  // the last moment at which it was seen that it could
  std::size_t missed_seen_ = 0;
  bool lost_ = false;
  void watch_prospect();
  std::string card_text(const training::ScoreCard& card) const;
  bool finished_ = false;
  // Made anew once a tick, when asked for.
  struct Counsel {
    std::uint64_t tick = ~std::uint64_t{0};
    training::Advice advice;
    training::Prospect prospect;
  };
  const Counsel& counsel() const;
  mutable Counsel counsel_;
};

}  // namespace stirbench::desk::work
