#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <set>

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

namespace {

// Of two faults both have to be found; covers come off once, so the sum is the most.
double minutes_of(GuidesWay& guide, const training::Lesson& lesson) {
  const Who who = lesson.start.situation.trade;
  const auto cause_of = [&](const std::string& name) {
    const std::size_t cause = guide.model().cause_index(name);
    REQUIRE(cause != Model::npos);
    return cause;
  };
  double mean = 0.0;
  for (const auto& one : lesson.start.faults) {
    const Ways ways = guide.of(cause_of(one.id), one.severity, who);
    REQUIRE(ways.symptoms > 0);
    mean += ways.mean;
  }
  const auto& from = lesson.start.drawn.from;
  for (const std::string& name : from)
    mean += guide.of(cause_of(name), 1.0, who).mean / static_cast<double>(from.size());
  return mean;
}

}  // namespace

TEST_CASE("a lesson's minutes of the guide's own way are those of the guide, for each fault that it draws") {
  constexpr std::uint64_t draws = 60;  // the longest list has 13 faults: each comes up
  GuidesWay guide;
  std::set<std::string> judged;
  std::size_t faults = 0;
  for (const auto& [id, usual] : shipped().lessons) {
    if (!(usual.start.situation.plan_min > 0.0)) continue;
    for (std::uint64_t seed = usual.start.seed; seed < usual.start.seed + draws; ++seed) {
      const training::Lesson lesson = *shipped().lesson(id, seed);
      std::string key = id;
      for (const auto& one : lesson.start.faults) key += " " + one.id + " " + std::to_string(one.severity);
      if (!judged.insert(key).second) continue;
      ++faults;
      CAPTURE(key);
      // To a tenth: the guide's tables are counts, and a tree may turn either way where two checks are worth
      // the same.
      CHECK(lesson.start.situation.plan_min == doctest::Approx(minutes_of(guide, lesson)).epsilon(0.1));
    }
  }
  CHECK(faults >= 100);
}
#endif
