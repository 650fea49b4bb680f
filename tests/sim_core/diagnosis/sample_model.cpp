#include "tests/sim_core/diagnosis/sample_model.h"

namespace stirbench::tests {

using namespace diagnosis;

namespace {

Check check_of(const std::string& id, std::size_t outcomes, double minutes, AccessState needs) {
  Check check;
  check.id = id;
  check.title = id;
  check.minutes = minutes;
  check.needs = needs;
  for (std::size_t o = 0; o < outcomes; ++o)
    check.outcomes.push_back({o == 0 ? "good" : "bad" + std::to_string(o), "", 0.0, 0.0});
  return check;
}

std::vector<double> random_row(Stream& stream, std::size_t outcomes) {
  std::vector<double> row;
  double sum = 0.0;
  for (std::size_t o = 0; o < outcomes; ++o) sum += row.emplace_back(0.02 + stream.uniform());
  for (double& one : row) one /= sum;
  return row;
}

}  // namespace

Model random_model(Stream& stream, std::size_t causes, std::size_t checks) {
  Model model;
  model.smoothing = 0.0;
  model.unknown_norm = 0.0;
  model.symptoms.resize(1);
  model.symptoms[0].id = "symptom";
  for (std::size_t k = 0; k < checks; ++k) {
    const auto needs = static_cast<AccessState>(static_cast<std::size_t>(stream.uniform() * 4.0));
    model.checks.push_back(
        check_of("check" + std::to_string(k), 2 + k % 2, 1.0 + 9.0 * stream.uniform(), needs));
  }
  for (std::size_t c = 0; c < causes; ++c) {
    Cause cause;
    cause.id = "cause" + std::to_string(c);
    cause.per_year = 0.01 + stream.uniform();
    cause.repair_min = 5.0 + 60.0 * stream.uniform();
    model.causes.push_back(cause);
    Profile profile{c, "", 1.0, {}};
    for (std::size_t q = 0; q < model.question_count(); ++q)
      profile.counts.push_back(random_row(stream, model.outcome_count(q)));
    model.profiles.push_back(profile);
  }
  return model;
}

Model heater_model() {
  Model model;
  model.smoothing = 0.0;
  model.unknown_norm = 0.0;
  model.pair_years = 0.0;
  model.symptoms.resize(1);
  model.symptoms[0].id = "heats-slowly";
  model.checks = {check_of("clamp", 2, 4.0, AccessState::open_live),
                  check_of("ohms", 2, 6.0, AccessState::open_isolated),
                  check_of("lid", 2, 0.2, AccessState::running)};
  struct Row {
    const char* id;
    double rate, repair, slow, clamp, ohms, lid;
  };
  const Row rows[] = {{"element", .4, 45, .9, .95, .98, .0},
                      {"contactor", .2, 30, .8, .95, .02, .0},
                      {"fuse", .1, 10, .8, .95, .02, .0},
                      {"lid-open", .3, 1, .7, .02, .02, 1.0}};
  for (const Row& row : rows) {
    Cause cause;
    cause.id = row.id;
    cause.per_year = row.rate;
    cause.repair_min = row.repair;
    if (cause.id == "lid-open") {
      cause.kind = faults::FaultKind::misuse;
      cause.repair_needs = AccessState::running;
      cause.who = Who::anyone;
    }
    model.profiles.push_back({model.causes.size(),
                              "",
                              1.0,
                              {{1 - row.slow, row.slow},
                               {1 - row.clamp, row.clamp},
                               {1 - row.ohms, row.ohms},
                               {1 - row.lid, row.lid}}});
    model.causes.push_back(cause);
  }
  return model;
}

}  // namespace stirbench::tests
