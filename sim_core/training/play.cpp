#include "sim_core/training/play.h"

#include <utility>

namespace stirbench::training {

namespace {

bench::SessionHeader header_of(const bench::Machine& machine, const Lesson& lesson, std::string mode,
                               std::string program, std::uint64_t seed) {
  bench::SessionHeader header;
  header.machine = machine.plant.id;
  header.lesson = lesson.id;
  header.lesson_hash = lesson.hash;
  header.mode = std::move(mode);
  header.program = std::move(program);
  header.start = lesson.start;
  header.start.seed = seed;
  bench::draw_faults(machine, header.start);
  return header;
}

}  // namespace

LessonRun::LessonRun(const bench::Machine& machine, const Lesson& lesson, std::string mode, std::string program,
                     std::uint64_t seed, bench::Session::Write write)
    : session_(machine, header_of(machine, lesson, std::move(mode), std::move(program), seed), std::move(write)),
      scorer_(lesson) {}

const std::vector<bench::Event>& LessonRun::step() {
  const std::vector<bench::Event>& events = session_.step();
  scorer_.see(Moment{session_.machine(), session_.state(), events});
  return events;
}

ScoreCard LessonRun::card() const {
  static const std::vector<bench::Event> quiet;  // a verdict between ticks: nothing happens at this moment
  return scorer_.card(Moment{session_.machine(), session_.state(), quiet});
}

void play_to_end(LessonRun& run, std::vector<bench::TimedAction> actions) {
  bench::Script script(std::move(actions));
  while (!run.over()) {
    script.feed(run.session());
    const auto& events = run.step();
    script.see(events, bench::time_s(run.session().state()));
  }
  run.session().end();
}

}  // namespace stirbench::training
