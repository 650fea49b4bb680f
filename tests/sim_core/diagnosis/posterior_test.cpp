#include <doctest/doctest.h>

#include <cmath>
#include <stdexcept>

#include "sim_core/diagnosis/bayes_network.h"
#include "sim_core/diagnosis/posterior.h"
#include "tests/sim_core/diagnosis/sample_model.h"

using namespace stirbench::diagnosis;
using stirbench::tests::heater_model;
using stirbench::tests::random_model;
using stirbench::tests::Stream;

namespace {

// The same posterior by writing every hypothesis out, no logarithms: a second method.
std::vector<double> by_enumeration(const Model& model, const std::vector<Finding>& findings) {
  const std::size_t n = model.causes.size();
  std::vector<double> out(n, 0.0);
  double total = 0.0;
  for (std::size_t a = 0; a < n; ++a) {
    for (std::size_t b = a; b < n; ++b) {
      const bool used_wrong = model.causes[a].kind == stirbench::faults::FaultKind::misuse ||
                              model.causes[b].kind == stirbench::faults::FaultKind::misuse;
      const double years =
          used_wrong ? model.misuse_years : model.pair_years;  // the shorter of the two in these tests
      double w = model.causes[a].per_year * (a == b ? 1.0 : model.causes[b].per_year * years);
      for (const Finding& f : findings) {
        const double pa = model.profiles[a].counts[f.question][f.outcome];
        const double pb = model.profiles[b].counts[f.question][f.outcome];
        const double na = model.profiles[a].counts[f.question][0];
        const double nb = model.profiles[b].counts[f.question][0];
        double p = pa;
        // Both draw an answer: the good one gives way, of two bad ones a coin decides.
        if (a != b)
          p = f.outcome == 0 ? na * nb : pa * nb + na * pb + 0.5 * pa * (1 - nb) + 0.5 * pb * (1 - na);
        w *= p;
      }
      out[a] += w;
      if (a != b) out[b] += w;
      total += w;
    }
  }
  for (double& one : out) one /= total;
  return out;
}

std::vector<Finding> random_findings(Stream& stream, const Model& model) {
  std::vector<Finding> findings = {{0, 1}};
  for (std::size_t q = 1; q < model.question_count(); ++q) {
    if (stream.uniform() < 0.5) continue;
    const auto outcomes = static_cast<double>(model.outcome_count(q));
    findings.push_back({q, static_cast<std::size_t>(stream.uniform() * outcomes)});
  }
  return findings;
}

}  // namespace

TEST_CASE("posterior with pairs equals the enumeration of all hypotheses") {
  Stream stream;
  for (std::size_t round = 0; round < 40; ++round) {
    Model model = random_model(stream, 5, 6);
    model.pair_years = 0.5;
    model.misuse_years = 0.1;
    model.causes[round % 5].kind = stirbench::faults::FaultKind::misuse;
    const std::vector<Finding> findings = random_findings(stream, model);
    const Posterior p = posterior(model, findings);
    const std::vector<double> expected = by_enumeration(model, findings);
    for (std::size_t c = 0; c < expected.size(); ++c)
      CHECK(p.cause_p[c] == doctest::Approx(expected[c]).epsilon(1e-10));
  }
}

TEST_CASE(
    "what explains the findings: weights sum to one, a bystander of a pair takes nothing of it, two that are "
    "needed share it") {
  Stream stream;
  Model model = random_model(stream, 3, 2);
  model.pair_years = 1.0;
  model.unknown_norm = 0.0;
  for (Cause& cause : model.causes) cause.per_year = 1.0;
  // Cause 0 alone brings the symptom, cause 1 alone the first check's second answer, cause 2 nothing.
  for (std::size_t k = 0; k < 3; ++k) {
    REQUIRE(model.outcome_count(1) >= 2);
    model.profiles[k].counts[0] = {k == 0 ? 0.0 : 1.0, k == 0 ? 1.0 : 0.0};
    model.profiles[k].counts[1].assign(model.outcome_count(1), 0.0);
    model.profiles[k].counts[1][k == 1 ? 1 : 0] = 1.0;
  }
  const Posterior one = posterior(model, {{0, 1}});
  // Rates 1, pairs weigh as much as singles: {0}, {0, 1}, {0, 2} are left, a third each; all of it is
  // explained by cause 0.
  CHECK(one.cause_p[1] == doctest::Approx(1.0 / 3.0));
  CHECK(one.explains_p[0] == doctest::Approx(1.0));
  CHECK(one.explains_p[1] == doctest::Approx(0.0));
  const Posterior two = posterior(model, {{0, 1}, {1, 1}});
  CHECK(two.pair_p == doctest::Approx(1.0));
  CHECK(two.explains_p[0] == doctest::Approx(0.5));
  CHECK(two.explains_p[1] == doctest::Approx(0.5));
  CHECK(two.explains_p[2] == doctest::Approx(0.0));
}

TEST_CASE("two-valued pairs are a noisy-OR: the network says the same") {
  Stream stream;
  for (int round = 0; round < 20; ++round) {
    const double wa = stream.uniform();
    const double wb = stream.uniform();
    const std::vector<double> table = noisy_or({wa, wb}, 0.0);
    CHECK(pair_likelihood(wa, 1 - wa, wb, 1 - wb, false) == doctest::Approx(table[7]).epsilon(1e-12));
    CHECK(pair_likelihood(1 - wa, 1 - wa, 1 - wb, 1 - wb, true) == doctest::Approx(table[6]).epsilon(1e-12));
  }
}

TEST_CASE(
    "order of findings does not matter; a withdrawn or empty one says nothing; certainty falls towards the "
    "prior") {
  Stream stream;
  const Model model = random_model(stream, 6, 5);
  const std::vector<Finding> findings = {{0, 1}, {1, 1}, {2, 2}, {4, 0}};
  std::vector<Finding> turned(findings.rbegin(), findings.rend());
  const Posterior a = posterior(model, findings);
  const Posterior b = posterior(model, turned);
  std::vector<Finding> more = findings;
  more.push_back({3, 1, 1.0, true});
  more.push_back({5, 1, 0.0, false});
  const Posterior c = posterior(model, more);
  for (std::size_t i = 0; i < model.causes.size(); ++i) {
    CHECK(a.cause_p[i] == doctest::Approx(b.cause_p[i]).epsilon(1e-12));
    CHECK(a.cause_p[i] == doctest::Approx(c.cause_p[i]).epsilon(1e-12));
  }
  // 0.5 sure of a two-valued answer: half of what the answer says, half nothing.
  const double none = posterior(model, {{0, 1}}).cause_p[2];
  const double half = posterior(model, {{0, 1}, {1, 1, 0.5, false}}).cause_p[2];
  const double full = posterior(model, {{0, 1}, {1, 1}}).cause_p[2];
  CHECK((half - none) * (full - half) > 0.0);
}

TEST_CASE("many findings do not underflow, impossible ones do not make nonsense") {
  Stream stream;
  const Model model = random_model(stream, 4, 120);
  std::vector<Finding> findings;
  for (int again = 0; again < 12; ++again) {
    for (std::size_t q = 0; q < model.question_count(); ++q) findings.push_back({q, 0});
  }
  const Posterior p = posterior(model, findings);
  double sum = 0.0;
  for (const double one : p.single_p) sum += one;
  CHECK(sum + p.pair_p + p.unknown_p == doctest::Approx(1.0));
  Model strict = heater_model();
  // Element and contactor never show a lid left open; nothing else heats slowly with certainty 0.
  const Posterior impossible = posterior(strict, {{3, 1}, {3, 0}});
  CHECK(impossible.unknown_p == 1.0);
  CHECK(impossible.contradictory);
}

TEST_CASE("contradictions are named") {
  Model model = heater_model();
  model.unknown_norm = 0.01;
  const std::size_t ohms = 2;
  const std::size_t clamp = 1;
  const Posterior good = posterior(model, {{0, 1}, {clamp, 1}, {ohms, 1}});
  CHECK_FALSE(good.contradictory);
  // The lid stands open and nothing else is wrong, yet a line carries no current.
  const Posterior odd = posterior(model, {{3, 1}, {ohms, 0}, {clamp, 1}});
  CHECK(odd.contradictory);
  CHECK(odd.conflict > 0.0);
  const Posterior twice = posterior(model, {{ohms, 1}, {ohms, 0}});
  CHECK(twice.fits[1].against == 0);
  CHECK(twice.contradictory);
}

TEST_CASE("what no cause explains is put down to something else") {
  Stream stream;
  Model model = random_model(stream, 4, 8);
  model.unknown_norm = 0.01;
  for (Profile& profile : model.profiles) {
    for (auto& row : profile.counts)
      row = std::vector<double>(row.size(), (1.0 - 0.999) / static_cast<double>(row.size() - 1));
    for (auto& row : profile.counts) row[0] = 0.999;
  }
  std::vector<Finding> findings;
  for (std::size_t q = 0; q < model.question_count(); ++q) findings.push_back({q, 1});
  CHECK(posterior(model, findings, {false, 0}).unknown_p > 0.99);
}

TEST_CASE("reasons: the strongest finding for a cause comes first") {
  const Model model = heater_model();
  const std::vector<Finding> findings = {{0, 1}, {2, 1}};
  const std::vector<WeightOfEvidence> reasons =
      weights_of_evidence(model, findings, model.cause_index("element"));
  REQUIRE(reasons.size() == 2);
  CHECK(reasons.front().finding == 1);
  CHECK(reasons.front().log10_ratio == doctest::Approx(std::log10(.98 / .02)));
}

TEST_CASE("causes with the same answers form a group, others do not") {
  const Model model = heater_model();
  const auto groups = ambiguity_groups(model);
  REQUIRE(groups.size() == 1);
  CHECK(groups[0] == std::vector<std::size_t>{model.cause_index("contactor"), model.cause_index("fuse")});
  // Without the resistance the element joins them.
  const auto fewer = ambiguity_groups(model, {true, true, false, true});
  REQUIRE(fewer.size() == 1);
  CHECK(fewer[0].size() == 3);
}

TEST_CASE("forecast of an answer: sums to one, follows the belief") {
  const Model model = heater_model();
  const Posterior before = posterior(model, {{0, 1}});
  const std::vector<double> p = predict(model, before, 2);
  CHECK(p[0] + p[1] == doctest::Approx(1.0));
  double expected = 0.0;
  for (std::size_t c = 0; c < 4; ++c) expected += before.cause_p[c] * model.profiles[c].counts[2][1];
  CHECK(p[1] == doctest::Approx(expected));
}

TEST_CASE("broken models and findings are refused with their place") {
  Model model = heater_model();
  CHECK_NOTHROW(check_model(model));
  CHECK_THROWS_AS(posterior(model, {{9, 0}}), std::invalid_argument);
  CHECK_THROWS_AS(posterior(model, {{0, 0, 1.5, false}}), std::invalid_argument);
  model.profiles[1].counts[2].push_back(1.0);
  CHECK_THROWS_WITH_AS(check_model(model), doctest::Contains("contactor"), std::invalid_argument);
  model = heater_model();
  model.profiles[2].share = 0.5;
  CHECK_THROWS_WITH_AS(check_model(model), doctest::Contains("fuse"), std::invalid_argument);
}

TEST_CASE("smoothing: counts of simulated machines become probabilities") {
  Model model = heater_model();
  model.smoothing = 0.5;
  model.profiles[0].counts[1] = {3.0, 7.0};
  CHECK(model.likelihood(0, 1, 1) == doctest::Approx(7.5 / 11.0));
  model.profiles[0].counts[1] = {0.0, 0.0};
  CHECK(model.likelihood(0, 1, 1) == doctest::Approx(0.5));
}
