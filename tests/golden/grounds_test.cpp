#include <doctest/doctest.h>

#include <string>
#include <vector>

#include "app/library/library.h"
#include "sim_core/machine/random.h"
#include "sim_core/training/lesson_run.h"
#include "tests/support/files.h"
#include "tests/support/technician.h"

// Naming a cause in the fault lessons: guesses fail, those who look pass. A sample; bench_grounds prints all.
namespace {

using namespace stirbench;

const library::Library& fault_content() {
  static const library::Library loaded = [] {
    library::LoadResult result = library::load((test_support::source_root() / "content").string(), "");
    for (const auto& problem : result.problems) FAIL(problem.text());
    return std::move(result.library);
  }();
  return loaded;
}

std::vector<std::string> in_it(const training::LessonRun& run) {
  std::vector<std::string> out;
  for (const faults::Fault& one : run.session().machine().faults) {
    for (const auto& active : run.state().plant.faults)
      if (active.mark == faults::fault_id_hash(one.id)) out.push_back(one.id);
  }
  return out;
}

}  // namespace

TEST_CASE("a cause named rightly, mended and proved after nothing but a key is not passed") {
  std::size_t lessons = 0;
  for (const auto& [id, lesson] : fault_content().lessons) {
    if (!lesson.guide) continue;
    ++lessons;
    CAPTURE(id);
    const machine::Machine machine = fault_content().machine(lesson.machine);
    training::LessonRun run(machine, lesson, "test", "test", lesson.start.seed);
    technician::Technician hands_on(run);
    const std::vector<std::string> there = in_it(run);
    REQUIRE_FALSE(there.empty());
    const std::string system = machine.faults[static_cast<std::size_t>(machine.fault_index(there[0]))].system;
    hands_on.press(technician::key_of(system));
    hands_on.wait(20.0);
    for (const std::string& one : there) hands_on.name(one);
    for (const std::string& one : there) hands_on.mend(one);
    hands_on.prove(technician::key_of(system));
    CHECK(run.scorer().grounds()->count("names_unproved") >= 1.0);
    CHECK_FALSE(run.card().passed);
  }
  CHECK(lessons >= 14);
}

TEST_CASE("the guide's own way earns the cause, and the lesson is passed") {
  for (const char* id : {"find-slow-heat", "find-chills-slowly", "find-no-heat-hand-off"}) {
    CAPTURE(id);
    const training::Lesson& lesson = fault_content().lessons.at(id);
    const machine::Machine machine = fault_content().machine(lesson.machine);
    training::LessonRun run(machine, lesson, "test", "test", lesson.start.seed);
    CHECK(technician::follow_guide(run));
    CHECK(run.scorer().grounds()->count("names_earned") == 1.0);
    CHECK(run.card().passed);
  }
}

TEST_CASE("a reading tells the kinds of cause that fit it from those that do not") {
  const training::Lesson& lesson = fault_content().lessons.at("find-slow-heat");
  const machine::Machine machine = fault_content().machine(lesson.machine);
  training::LessonRun run(machine, lesson, "test", "test", 1);
  technician::Technician hands_on(run);
  hands_on.open_dead();
  REQUIRE(hands_on.measure("Ohm", "X2.1", "X2.2"));  // 160 Ohm: across the open element
  const training::Grounds& grounds = *run.scorer().grounds();
  REQUIRE_FALSE(grounds.findings().empty());
  const diagnosis::Model model = grounds.model();
  const diagnosis::Posterior known = diagnosis::posterior(model, grounds.as_findings());
  const auto p = [&](const char* cause) { return known.cause_p[model.cause_index(cause)]; };
  CHECK(p("element_1_open") > 10.0 * p("element_2_open"));
  CHECK(p("element_1_open") > 10.0 * p("heater_contactor_pole"));
  // The same reading again tells nothing and is counted.
  REQUIRE(hands_on.measure("Ohm", "X2.1", "X2.2"));
  CHECK(grounds.checks_repeated() == 1);
  // A repair makes another machine of it: only what was told is left.
  hands_on.act(hands::repair("element_2_open"));
  CHECK(grounds.findings().size() == lesson.reported.size());
}
