#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

#include "sim_core/machine/fault_readings.h"
#include "tests/app/library/scratch.h"
#include "tests/support/fault_trial.h"

// What a lesson calls the minutes of the fault guide's own way (`plan_min`) is that: the guide followed on
// the lesson's own machine, from each symptom that it shows, by a person of the lesson's trade. The price of
// parts is no work; who hands over waits for a colleague.
#ifndef __SANITIZE_ADDRESS__  // a look at content, not at code: the release build is enough
using namespace stirbench;
using namespace stirbench::diagnosis;
using library_test::shipped;

namespace {

struct Ways {
  double least = 1.0e9, mean = 0.0, most = 0.0;
  std::size_t symptoms = 0;
};

class GuidesWay {
 public:
  GuidesWay()
      : shelf_(library::load_guides(library_test::content_dir(), shipped())),
        guide_(shelf_.guides.at("hm-45")),
        model_(library::guide_model(guide_, &shelf_.evidence.at("hm-45")).model),
        broken_(shipped().machine("hm-45"), model_, guide_.protocols) {}

  const Model& model() const { return model_; }
  const std::vector<faults::Fault>& faults() const { return guide_.causes; }

  Ways of(std::size_t cause, double severity, Who who) {
    fault_trial::Follower follower(model_, who, {});
    RandomMachine draw;
    draw.cause = cause;
    draw.severity = severity;
    const std::vector<std::size_t> answers = broken_.answer_all(draw);
    Ways out;
    for (std::size_t s = 0; s < model_.symptoms.size(); ++s) {
      if (answers[s] != 1) continue;
      const fault_trial::Result result = follower.follow({cause, s, answers});
      const double minutes = result.checks_min + repair_min(cause, who, result.after_checks);
      out.least = std::min(out.least, minutes);
      out.most = std::max(out.most, minutes);
      out.mean += minutes;
      ++out.symptoms;
    }
    out.mean /= std::max<double>(1.0, static_cast<double>(out.symptoms));
    return out;
  }

 private:
  // Minutes of hands from where the checks have led: way, repair, way back, proof; waiting for a colleague
  // where it is not this person's work.
  double repair_min(std::size_t c, Who who, AccessState from) const {
    const Cause& cause = model_.causes[c];
    const AccessMinutes change = access_change_minutes(model_.state_costs);
    const auto needs = static_cast<std::size_t>(cause.repair_needs);
    return (may_do(who, cause.who) ? 0.0 : machine::licensed_comes_min) +
           change[static_cast<std::size_t>(from)][needs] + cause.repair_min +
           change[needs][static_cast<std::size_t>(AccessState::running)] + model_.prove_min;
  }

  library::FaultGuides shelf_;
  const library::FaultGuide& guide_;
  Model model_;
  FaultyMachines broken_;
};

}  // namespace

TEST_CASE("a lesson's minutes of the guide's own way are those of the guide") {
  GuidesWay guide;
  std::size_t judged = 0;
  for (const auto& [id, lesson] : shipped().lessons) {
    const double stated = lesson.start.situation.plan_min;
    if (!(stated > 0.0)) continue;
    CAPTURE(id);
    const Who who = lesson.start.situation.trade;
    std::vector<std::pair<std::string, double>> faults;
    for (const auto& one : lesson.start.faults) faults.emplace_back(one.id, one.severity);
    const auto cause_of = [&](const std::string& name) {
      const std::size_t cause = guide.model().cause_index(name);
      REQUIRE(cause != Model::npos);
      return cause;
    };
    double least = 0.0, mean = 0.0, most = 0.0;
    for (const auto& one : lesson.start.faults) {
      const Ways ways = guide.of(cause_of(one.id), one.severity, who);
      REQUIRE(ways.symptoms > 0);
      // Of two faults both have to be found; covers come off once, so the sum is the most.
      least = std::max(least, ways.least);
      most += ways.most;
      mean += ways.mean;
    }
    if (const auto& from = lesson.start.drawn.from; !from.empty()) {
      least = 1.0e9;
      for (const std::string& name : from) {
        const Ways ways = guide.of(cause_of(name), 1.0, who);
        least = std::min(least, ways.least);
        most = std::max(most, ways.most);
        mean += ways.mean / static_cast<double>(from.size());
      }
    }
    CAPTURE(least);
    CAPTURE(mean);
    CAPTURE(most);
    // To a tenth: the guide's tables are counts, and a tree may turn either way where two checks are worth
    // the same.
    CHECK(stated == doctest::Approx(mean).epsilon(0.1));
    ++judged;
  }
  CHECK(judged >= 13);
}
#endif
