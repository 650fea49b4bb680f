#include <doctest/doctest.h>

#include <algorithm>
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
    hands_on.prove();
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
    const training::Followed end = training::follow(run);
    CHECK_MESSAGE(end.end == training::Followed::End::passed, end.why);
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

TEST_CASE("a poor name that is taken back stays in the record, and the run is said to be lost at once") {
  const training::Lesson& lesson = fault_content().lessons.at("find-slow-heat");
  const machine::Machine machine = fault_content().machine(lesson.machine);
  training::LessonRun run(machine, lesson, "test", "test", lesson.start.seed);
  technician::Technician hands_on(run);
  hands_on.press("heat");
  CHECK(run.prospect().can_pass);
  REQUIRE(hands_on.act(hands::name_cause("element_2_open")));
  REQUIRE(hands_on.act(hands::take_back_name("element_2_open")));
  CHECK(machine::causes_wrong(run.state()) == 0);
  const training::Grounds& grounds = *run.scorer().grounds();
  REQUIRE(grounds.namings().size() == 1);
  CHECK(grounds.namings()[0].taken_back);
  CHECK(grounds.count("names_unproved") == 1.0);
  CHECK(grounds.count("names_taken_back") == 1.0);
  CHECK(grounds.told("names_unproved").find("taken back") != std::string::npos);
  CHECK_FALSE(run.prospect().can_pass);
  CHECK(run.prospect().why.find("named a cause before") != std::string::npos);
}

TEST_CASE("a report has to bear its suspicion out, or to tell something where none is stated") {
  const training::Lesson& lesson = fault_content().lessons.at("find-no-heat-hand-off");
  const machine::Machine machine = fault_content().machine(lesson.machine);
  const auto reported = [&](bool looks, bool leaves_out, const std::string& suspected) {
    training::LessonRun run(machine, lesson, "test", "test", lesson.start.seed);
    technician::Technician hands_on(run);
    if (looks) {
      hands_on.press("heat");
      hands_on.wait(20.0);
      hands_on.act(hands::make_check("hear-heat"));
    }
    hands_on.lock_out();
    for (const training::Found& one : std::vector<training::Found>(hands_on.grounds().findings())) {
      if (leaves_out && one.tick > 0) hands_on.act(hands::report_finding(one.title, false));
    }
    hands_on.hand_over(suspected);
    REQUIRE(hands_on.grounds().reports().size() == 1);
    return hands_on.grounds().reports()[0];
  };
  CHECK(reported(true, false, "not_known").good);
  CHECK_FALSE(reported(true, true, "not_known").good);
  CHECK_FALSE(reported(false, false, "not_known").good);
  const training::Report guess = reported(true, false, "heat_output_dead");
  CHECK_FALSE(guess.good);
  CHECK(guess.p < training::earned_norm);
  CHECK(guess.own_findings > 0);
}

TEST_CASE("checks out of the trade's order, and those whose answer was known, are marked with their reason") {
  const training::Lesson& lesson = fault_content().lessons.at("find-slow-heat");
  const machine::Machine machine = fault_content().machine(lesson.machine);
  training::LessonRun measured(machine, lesson, "test", "test", lesson.start.seed);
  technician::Technician first(measured);
  first.open_dead();
  REQUIRE(first.measure("Ohm", "X2.1", "X2.2"));  // before anything was looked at or tried
  CHECK(first.grounds().count("checks_out_of_order") == 1.0);
  CHECK(first.grounds().told("checks_out_of_order").find("before the first reading") != std::string::npos);
  // Isolated, nothing runs that could be heard.
  REQUIRE(first.act(hands::make_check("hear-stir")));
  CHECK(first.grounds().count("checks_out_of_order") == 2.0);

  training::LessonRun looked(machine, lesson, "test", "test", lesson.start.seed);
  technician::Technician second(looked);
  second.press("heat");
  second.wait(20.0);
  second.open_dead();
  REQUIRE(second.measure("Ohm", "X2.1", "X2.2"));
  CHECK(second.grounds().count("checks_out_of_order") == 0.0);
  // Nothing that heats slowly drips.
  CHECK(second.grounds().count("checks_idle") == 0.0);
  REQUIRE(second.act(hands::make_check("see-tray")));
  CHECK(second.grounds().count("checks_idle") == 1.0);
}

TEST_CASE("what the guide says to a person never names the cause") {
  for (const char* id :
       {"find-half-heat", "find-no-heat-hand-off", "find-two-at-once", "find-display-too-hot"}) {
    CAPTURE(id);
    const training::Lesson& lesson = fault_content().lessons.at(id);
    const machine::Machine machine = fault_content().machine(lesson.machine);
    training::LessonRun run(machine, lesson, "test", "test", lesson.start.seed);
    std::vector<const faults::Fault*> there;
    for (const std::string& one : in_it(run))
      there.push_back(&machine.faults[static_cast<std::size_t>(machine.fault_index(one))]);
    std::size_t named = 0;
    const auto follow = training::follow(run, [&](const machine::State&, const training::Advice& advice) {
      named += advice.hand.is(hands::name_cause) ? 1U : 0U;
      const std::string said =
          advice.now + advice.why + advice.hint + advice.check + advice.worth + advice.way + advice.point_at;
      for (const faults::Fault* one : there) {
        CHECK(said.find(one->id) == std::string::npos);
        CHECK(said.find(one->title) == std::string::npos);
      }
    });
    CHECK(follow.end == training::Followed::End::passed);
    CHECK(named == there.size());
  }
}

TEST_CASE("what the display says of a person's own doing is no finding") {
  const training::Lesson& lesson = fault_content().lessons.at("find-slow-heat");
  const machine::Machine machine = fault_content().machine(lesson.machine);
  training::LessonRun run(machine, lesson, "test", "test", 1);
  technician::Technician hands_on(run);
  const std::size_t guards = hands_on.guide().model().check_question("panel-guards");
  const auto alarm_found = [&] {
    const auto& found = hands_on.grounds().findings();
    return std::any_of(found.begin(), found.end(), [guards](const training::Found& one) {
      return one.question == guards && one.outcome != 0;
    });
  };
  REQUIRE(hands_on.act(hands::open_lid()));
  hands_on.press("stir");
  hands_on.wait(25.0);
  CHECK_FALSE(alarm_found());
  // The guide shuts it and clears the alarm before it goes on.
  const training::Followed end = training::follow(run);
  CHECK_MESSAGE(end.end == training::Followed::End::passed, end.why);
}

TEST_CASE("whoever named too early is told so, and the guide still leads to the end") {
  const training::Lesson& lesson = fault_content().lessons.at("find-slow-heat");
  const machine::Machine machine = fault_content().machine(lesson.machine);
  training::LessonRun run(machine, lesson, "test", "test", 1);
  technician::Technician hands_on(run);
  hands_on.name("element_1_open");
  const training::Prospect prospect = run.prospect();
  CHECK_FALSE(prospect.can_pass);
  for (int hands = 0; hands < 400 && !run.over(); ++hands) {
    const training::Advice advice = run.advice();
    REQUIRE(advice.kind != training::Advice::Kind::stuck);
    if (advice.kind == training::Advice::Kind::act) run.act(advice.hand);
    hands_on.wait(advice.kind == training::Advice::Kind::act ? 1.5 : 5.0);
  }
  CHECK(run.state().work.proved);
}
