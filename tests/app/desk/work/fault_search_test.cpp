#include <doctest/doctest.h>

#include "app/desk/work/fault/fault_search.h"
#include "app/library/library.h"
#include "app/library/reading/paths.h"

using namespace stirbench;
using desk::work::FaultSearch;
using diagnosis::Model;

namespace {

FaultSearch search() {
  static const library::Library content = library::load(library::content_dir(), "").library;
  static const library::FaultGuides shelf = library::load_guides(library::content_dir(), content);
  return FaultSearch(library::guide_model(shelf.guides.at("hm-45"), &shelf.evidence.at("hm-45")));
}

}  // namespace

TEST_CASE("a search: symptom, checks, repair; undo goes back step by step") {
  FaultSearch s = search();
  CHECK_FALSE(s.started());
  CHECK(s.check() == Model::npos);
  s.set_who(diagnosis::Who::electrician);
  s.see(s.model().symptom_index("heats-slowly"));
  REQUIRE(s.started());
  const double before = s.known().cause_p[s.model().cause_index("element_1_open")];
  REQUIRE(s.check() != Model::npos);
  const std::size_t ohms = s.model().check_question("ohms-elements");
  s.answer(ohms, s.model().outcome_index(ohms, "high-12"));
  const double after = s.known().cause_p[s.model().cause_index("element_1_open")];
  CHECK(after > before);
  CHECK(after > 0.8);
  CHECK_FALSE(s.why(s.model().cause_index("element_1_open")).empty());
  CHECK(s.minutes_used() > 6.0);
  s.undo();
  CHECK(s.known().cause_p[s.model().cause_index("element_1_open")] == doctest::Approx(before));
  s.answer(ohms, s.model().outcome_index(ohms, "high-12"));
  s.repair(s.model().cause_index("element_1_open"), true);
  CHECK(s.solved());
  const std::string page = s.hand_off();
  CHECK(page.find("Heating element 1 open") != std::string::npos);
  CHECK(page.find("licensed") != std::string::npos);
  s.clear();
  CHECK_FALSE(s.started());
}

TEST_CASE("a repair in vain takes its cause out, a check that cannot be done is not advised again") {
  FaultSearch s = search();
  s.see(s.model().symptom_index("display-dark"));
  const std::size_t isolator = s.model().cause_index("isolator_left_off");
  CHECK(s.known().cause_p[isolator] > 0.1);
  s.repair(isolator, false);
  CHECK(s.known().cause_p[isolator] == doctest::Approx(0.0));
  const std::size_t question = s.check();
  REQUIRE(question != Model::npos);
  s.could_not(question);
  CHECK(s.check() != question);
  s.undo();
  s.undo();
  CHECK(s.known().cause_p[isolator] > 0.1);
  // Seen again by mistake: taken back.
  s.see(s.model().symptom_index("display-dark"));
  CHECK_FALSE(s.started());
}

TEST_CASE("what each answer would tell sums to one and names a cause") {
  FaultSearch s = search();
  s.see(s.model().symptom_index("cools-slowly"));
  const auto leads = s.leads(s.check());
  double sum = 0.0;
  for (const auto& one : leads) {
    sum += one.p;
    CHECK(one.cause < s.model().causes.size());
    CHECK(one.cause_p > 0.0);
  }
  CHECK(sum == doctest::Approx(1.0));
}

TEST_CASE("a log is a step of the way: it moves the causes, undo takes it back") {
  FaultSearch s = search();
  const std::size_t cause = s.model().cause_index("element_1_open");
  const std::size_t questions = s.model().question_count();
  const double before = s.known().cause_p[cause];
  stirbench::fitting::LogFinding finding;
  finding.words = "most like: Heating element 1 open";
  finding.profile_p.assign(s.model().profiles.size(), stirbench::fitting::least_likelihood);
  for (std::size_t k = 0; k < finding.profile_p.size(); ++k)
    if (s.model().profiles[k].cause == cause) finding.profile_p[k] = 1.0;
  s.take_log(finding);
  CHECK(s.started());
  CHECK(s.known().cause_p[cause] > 5.0 * before);
  CHECK(s.why(cause).find("A log of the batch") == 0);
  REQUIRE(s.check() != Model::npos);
  CHECK(s.model().check(s.check()).id != stirbench::fitting::log_check_id);
  CHECK(s.hand_off().find("most like: Heating element 1 open") != std::string::npos);
  s.take_log(finding);
  CHECK(s.way().size() == 1);
  s.undo();
  CHECK_FALSE(s.started());
  CHECK(s.model().question_count() == questions);
  CHECK(s.known().cause_p[cause] == doctest::Approx(before));
}
