#include "sim_core/training/lesson_run.h"

#include <utility>

namespace stirbench::training {

namespace {

journal::SessionHeader header_of(const machine::Machine& machine, const Lesson& lesson, std::string mode,
                                 std::string program, std::uint64_t seed) {
  journal::SessionHeader header;
  header.machine = machine.plant.id;
  header.lesson = lesson.id;
  header.lesson_hash = lesson.hash;
  header.mode = std::move(mode);
  header.program = std::move(program);
  header.start = lesson.start;
  header.start.seed = seed;
  bench::pick_random_faults(machine, header.start);
  return header;
}

}  // namespace

LessonRun::LessonRun(const machine::Machine& machine, const Lesson& lesson, std::string mode,
                     std::string program, std::uint64_t seed, journal::Session::Write write)
    : session_(machine, header_of(machine, lesson, std::move(mode), std::move(program), seed),
               std::move(write)),
      scorer_(lesson) {}

namespace {

journal::SessionHeader branch_header(journal::SessionHeader header, const LessonRun::Branch& branch) {
  header.branch_of = branch.of;
  header.branch_tick = branch.tick;
  return header;
}

}  // namespace

LessonRun::LessonRun(const machine::Machine& machine, const Lesson& lesson, std::string mode,
                     std::string program, std::uint64_t seed, const Branch& branch,
                     journal::Session::Write write)
    : session_(machine,
               branch_header(header_of(machine, lesson, std::move(mode), std::move(program), seed), branch),
               std::move(write)),
      scorer_(lesson) {
  play_up_to(*this, branch.acts, branch.tick);
}

const std::vector<machine::Event>& LessonRun::step() {
  const std::vector<machine::Event>& events = session_.step();
  scorer_.see(Moment{session_.machine(), session_.state(), events});
  return events;
}

// Between ticks nothing happens.
Moment LessonRun::quiet_moment() const {
  static const std::vector<machine::Event> quiet;
  return {session_.machine(), session_.state(), quiet};
}

ScoreCard LessonRun::card() const { return scorer_.card(quiet_moment()); }
Advice LessonRun::advice() const { return scorer_.advice(quiet_moment()); }
Prospect LessonRun::prospect() const { return scorer_.prospect(quiet_moment()); }

void play_to_end(LessonRun& run, std::vector<hands::TimedAction> actions) {
  bench::drive(run, bench::ActionScript(std::move(actions)), [&run] { return run.over(); });
  run.session().end();
}

}  // namespace stirbench::training
