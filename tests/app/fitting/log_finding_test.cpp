#include "app/fitting/log_finding.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <numeric>

#include "app/fitting/request.h"
#include "app/library/guide/guide.h"
#include "app/library/reading/paths.h"
#include "sim_core/diagnosis/next_check.h"
#include "tests/support/batch_logs.h"

using namespace stirbench;
using namespace stirbench::fitting;
using diagnosis::Model;

namespace {

const library::Library& content() {
  static const library::Library all = library::load(library::content_dir(), "").library;
  return all;
}

Model guide() {
  static const library::FaultGuides shelf = library::load_guides(library::content_dir(), content());
  return library::guide_model(shelf.guides.at("hm-45"), &shelf.evidence.at("hm-45")).model;
}

// Causes tried against the log of forty minutes of heating at a machine with a fault.
identification::Explanations heated_with(const std::string& fault) {
  const machine::Machine machine = content().machine("hm-45");
  batch_logs::Plan plan;
  plan.off_s = plan.chill_s = plan.until_s = 2400.0;
  plan.every_s = 20.0;
  identification::Course course = batch_logs::course_of(plan);
  if (!fault.empty()) course.start.faults.push_back({fault, 1.0});
  identification::BatchLog log = batch_logs::log_of(machine, course, plan, {0.2, 0.1, 0.0, true}, 20261130);
  // What the meter says is that it heats; how much is left to the curve.
  BatchWords words;
  words.mass_kg = plan.kg;
  words.ambient_degC = plan.ambient_degC;
  return explanations_of(content(), request_of(machine, std::move(log), words).fit);
}

double sum_of(const diagnosis::Posterior& known) {
  return std::accumulate(known.single_p.begin(), known.single_p.end(), known.pair_p + known.unknown_p);
}

}  // namespace

TEST_CASE("a log of a batch heated by half the elements leads to them, and a check follows") {
  Model model = guide();
  const LogFinding finding = log_finding(model, heated_with("element_1_open"));
  CHECK_FALSE(finding.as_in_order);
  const std::size_t cause = model.cause_index("element_1_open");
  const double before = diagnosis::posterior(model, {}).cause_p[cause];
  const std::size_t question = add_log_question(model, finding);
  const std::vector<diagnosis::Finding> findings = {{question, 1}};
  const diagnosis::Posterior known = diagnosis::posterior(model, findings);
  CHECK(sum_of(known) == doctest::Approx(1.0));
  CHECK(known.cause_p[cause] > 5.0 * before);
  // Nothing that leaves the heating alone is likelier.
  CHECK(known.cause_p[cause] > known.cause_p[model.cause_index("pump_coupling_slips")]);
  const diagnosis::NextSteps next = diagnosis::next_checks(
      model, findings, {diagnosis::Who::electrician, diagnosis::AccessState::standing, {}});
  REQUIRE_FALSE(next.checks.empty());
  for (const diagnosis::CheckAdvice& one : next.checks) CHECK(model.check(one.question).id != log_check_id);
}

TEST_CASE("a log decides nothing alone: the floor holds and the unknown keeps its share") {
  Model model = guide();
  const diagnosis::Posterior before = diagnosis::posterior(model, {});
  const LogFinding finding = log_finding(model, heated_with("element_1_open"));
  CHECK(*std::min_element(finding.profile_p.begin(), finding.profile_p.end()) == least_likelihood);
  CHECK(*std::max_element(finding.profile_p.begin(), finding.profile_p.end()) <= 1.0);
  const std::size_t question = add_log_question(model, finding);
  const diagnosis::Posterior known = diagnosis::posterior(model, {{question, 1}});
  // 1 / least_likelihood is the most that one log may change between two hypotheses.
  for (std::size_t c = 0; c < model.causes.size(); ++c)
    CHECK(known.single_p[c] >= 0.999 * least_likelihood * before.single_p[c]);
  CHECK(known.unknown_p >= 0.1 * before.unknown_p);
}

TEST_CASE("an empty ranking says nothing, and the question goes again") {
  Model model = guide();
  const diagnosis::Posterior before = diagnosis::posterior(model, {});
  const std::size_t questions = model.question_count();
  const std::size_t question = add_log_question(model, log_finding(model, {}));
  CHECK(question == questions);
  const diagnosis::Posterior known = diagnosis::posterior(model, {{question, 1}}, {false, 0});
  const diagnosis::Posterior alone = diagnosis::posterior(model, {}, {false, 0});
  for (std::size_t c = 0; c < model.causes.size(); ++c)
    CHECK(known.cause_p[c] == doctest::Approx(alone.cause_p[c]).epsilon(0.01));
  remove_log_question(model);
  CHECK(model.question_count() == questions);
  CHECK(diagnosis::posterior(model, {}).cause_p == before.cause_p);
}
