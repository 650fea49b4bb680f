#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <functional>
#include <map>
#include <string>
#include <vector>

#include "app/library/library.h"
#include "sim_core/machine/random.h"
#include "sim_core/training/lesson_run.h"
#include "tests/support/technician.h"

// How hard the naming of causes is to guess, and whether those who look pass.   bench_grounds [CONTENT]
//                                                      [NAMERS] | CONTENT show LESSON ACTIONS
// Printed for each fault lesson: the cheats (press the key, name rightly, mend, wait, prove; all eight names;
// a wrong name first), random namers, the guide's own way, and a textbook order of checks: positions, supply,
// control circuit, contactor, load (common practice).
using namespace stirbench;

namespace {

using Play = std::function<void(training::LessonRun&)>;

// What was found when causes were named, and what was missed.
void tell_naming(const training::Naming& one) {
  std::printf("  %s %.4f %s\n", one.cause.c_str(), one.p,
              std::string(training::standing_word(one.standing)).c_str());
  for (const training::Found& found : one.on)
    std::printf("    %5.0f s  %s: %s\n", 0.1 * static_cast<double>(found.tick), found.title.c_str(),
                found.words.c_str());
}

void tell_missed(const training::ScoreCard& card) {
  std::printf("  %s %.2f missed:", card.passed ? "passed" : "not passed", card.score_norm);
  for (const auto& one : card.criteria)
    if (!one.met) std::printf(" %s", one.id.c_str());
  std::printf("\n");
}

// Checks out of order or in vain, and the reports for a colleague.
void tell_process(const training::Grounds& grounds) {
  for (const training::ProcessMark& one : grounds.marks())
    std::printf("  %5.0f s %s %s: %s\n", 0.1 * static_cast<double>(one.tick),
                one.out_of_order ? "order" : "idle", one.check.c_str(), one.why.c_str());
  for (const training::Report& one : grounds.reports())
    std::printf("  report of %zu findings, suspected \"%s\" %.4f %s\n", one.reported.size(),
                one.suspected.c_str(), one.p, one.why.c_str());
}

void tell(const training::LessonRun& run, const training::ScoreCard& card) {
  const training::Grounds& grounds = *run.scorer().grounds();
  for (const training::Naming& one : grounds.namings()) tell_naming(one);
  if (grounds.namings().empty()) {
    tell_naming({.on = grounds.findings()});
    const diagnosis::Model model = grounds.model();
    const auto known = diagnosis::posterior(model, grounds.as_findings());
    const auto ranked = known.ranked();
    for (std::size_t i = 0; i < 5; ++i)
      std::printf("      %.4f %s\n", ranked[i].p, model.causes[ranked[i].cause].id.c_str());
    std::printf("      %.4f unknown\n", known.unknown_p);
  }
  std::printf("    at %.0f s\n", machine::time_s(run.state()));
  tell_missed(card);
}

training::ScoreCard play(const machine::Machine& machine, const training::Lesson& lesson, std::uint64_t seed,
                         const Play& how) {
  training::LessonRun run(machine, lesson, "actions_file", "bench", seed);
  how(run);
  bench::drive(run, bench::ActionScript({}), [&run] { return run.over(); });
  training::ScoreCard card = run.card();
  if (std::getenv("SHOW_FAILED") != nullptr && !card.passed) tell(run, card);
  return card;
}

std::vector<std::string> faults_of(const training::LessonRun& run) {
  std::vector<std::string> out;
  for (const faults::Fault& one : run.session().machine().faults) {
    for (const auto& active : run.state().plant.faults)
      if (active.mark == faults::fault_id_hash(one.id)) out.push_back(one.id);
  }
  return out;
}

const faults::Fault& fault_of(const training::LessonRun& run, const std::string& id) {
  const machine::Machine& machine = run.session().machine();
  return machine.faults[static_cast<std::size_t>(machine.fault_index(id))];
}

// Presses the key, names these causes, mends what is wrong, waits and proves.
void name_and_mend(training::LessonRun& run, const std::vector<std::string>& names) {
  technician::Technician hands_on(run);
  const std::vector<std::string> there = faults_of(run);
  const std::string key = technician::key_of(fault_of(run, there.front()).system);
  hands_on.press(key);
  hands_on.wait(20.0);
  for (const std::string& one : names) hands_on.name(one);
  for (const std::string& one : there) hands_on.mend(one);
  hands_on.prove();
}

std::vector<std::string> eight_with(const training::LessonRun& run, std::uint64_t seed) {
  machine::Random random{seed};
  std::vector<std::string> out = faults_of(run);
  const std::vector<faults::Fault>& all = run.session().machine().faults;
  while (out.size() < machine::most_causes)
    out.push_back(all[static_cast<std::size_t>(random.uniform() * static_cast<double>(all.size()))].id);
  return out;
}

// A textbook order (common practice): what is in sight, the supply, the control circuit, the contactor, the
// load; then the machine dead, and the load by ohms. Named is what these findings make surest.
void textbook(training::LessonRun& run) {
  technician::Technician hands_on(run);
  const diagnosis::Model& model = hands_on.guide().model();
  const std::string system = fault_of(run, faults_of(run).front()).system;
  const std::string key = technician::key_of(system);
  static const std::map<std::string, std::vector<std::string>> orders = {
      {"heat",
       {"see-isolator", "see-lid", "see-cover", "see-level", "display-cold", "panel-alarm-heat", "hear-heat",
        "site-breaker", "hear-stir", "volts-supply", "volts-supply-loaded", "heat-output",
        "volts-heat-contactor", "volts-heater", "drop-heater-joints", "clamp-heaters", "ohms-elements",
        "ohms-probe", "probe-simulator"}},
      {"stir",
       {"see-isolator", "see-display", "see-lid", "see-cover", "panel-guards", "hear-stir", "hear-drive",
        "try-stir", "panel-lid-late", "volts-supply", "volts-guard-loop", "volts-lid-coil", "drive-output",
        "drop-drive-breaker", "drop-drive-contactor", "drop-drive-wires", "clamp-drive"}},
      {"chill",
       {"see-isolator", "see-lid", "see-cover", "see-level", "how-warm-put-in", "display-cold",
        "panel-alarm-chiller", "hear-chill", "feel-air", "see-fan", "air-on", "see-sight-glass",
        "suction-line", "gauge-low", "gauge-discharge", "superheat", "volts-supply"}}};
  // Beyond the guide's own questions: the load itself, dead and by ohms or by the insulation tester.
  static const std::vector<std::pair<std::string, std::vector<std::string>>> loads = {
      {"heat", {"Ohm", "K1.A1", "K1.A2"}},        {"heat", {"insulation", "X2.1", "X5.1"}},
      {"stir", {"Ohm", "M1.U", "M1.V"}},          {"stir", {"Ohm", "M1.V", "M1.W"}},
      {"stir", {"continuity", "S1.21", "S1.22"}}, {"stir", {"continuity", "S1.22", "A1.I1"}},
      {"chill", {"Ohm", "K3.A1", "K3.A2"}},       {"heat", {"Ohm", "A1.T1", "A1.T2"}}};
  const auto named = [&] {
    const training::ProposedCheck now = hands_on.grounds().advice(run.state());
    if (now.earned.empty()) return false;
    hands_on.name(now.earned);
    hands_on.mend(now.earned);
    return true;
  };
  for (int round = 0; round < 2 && !run.over(); ++round) {
    bool found = false;
    for (const std::string& id : orders.at(key)) {
      if (run.over() || found) break;
      hands_on.make(model.check_question(id));
      found = named();
    }
    for (const auto& [its, what] : loads) {
      if (run.over() || found) break;
      if (its != key || hands_on.trade() == faults::Who::anyone) continue;
      hands_on.open_dead();
      hands_on.measure(what[0], what[1], what[2]);
      found = named();
    }
    if (!found) return;
    if (machine::faults_left(run.session().machine(), run.state()) == 0) return hands_on.prove();
  }
}

// The state of a run in which a cause is named at once after some chance looks and presses; cheap, since the
// rest of the run cannot mend a name that was a guess.
bool random_namer(const machine::Machine& machine, const training::Lesson& lesson, std::uint64_t seed) {
  machine::Random random{seed};
  training::LessonRun run(machine, lesson, "actions_file", "bench", 1000 + seed);
  technician::Technician hands_on(run);
  const auto pick = [&random](std::size_t n) {
    return static_cast<std::size_t>(random.uniform() * static_cast<double>(n));
  };
  const std::vector<std::string> keys = {"heat", "stir", "chill"};
  hands_on.press(keys[pick(keys.size())]);
  hands_on.wait(30.0 * random.uniform());
  for (std::size_t n = pick(5); n > 0; --n)
    hands_on.act(hands::make_check(machine.checks[pick(machine.checks.size())].id));
  std::vector<std::string> there = faults_of(run);
  for (std::size_t n = 1 + pick(2); n > 0; --n) hands_on.name(machine.faults[pick(machine.faults.size())].id);
  if (machine::causes_missed(run.state()) > 0 && there.size() == 1 && random.uniform() < 0.5)
    hands_on.name(there.front());  // half of them are told the answer
  if (machine::causes_missed(run.state()) > 0) return false;
  return run.scorer().grounds()->count("names_unproved") == 0.0;
}

void show(const library::Library& library, const training::Lesson& lesson, const std::string& file) {
  const machine::Machine machine = library.machine(lesson.machine);
  library::ActionsResult actions = library::read_actions(file, machine);
  for (const auto& problem : actions.problems) std::printf("%s\n", problem.text().c_str());
  training::LessonRun run(machine, lesson, "actions_file", "bench", lesson.start.seed);
  std::size_t names = 0;
  bench::drive(run, bench::ActionScript(std::move(actions.actions)), [&] {
    const training::Grounds* grounds = run.scorer().grounds();
    for (; grounds != nullptr && names < grounds->namings().size(); ++names)
      tell_naming(grounds->namings()[names]);
    return run.over();
  });
  if (run.scorer().grounds() != nullptr) tell_process(*run.scorer().grounds());
  tell_missed(run.card());
}

std::string cell(const training::ScoreCard& card) {
  return (card.passed ? "PASS " : "fail ") + std::to_string(std::lround(100.0 * card.score_norm));
}

}  // namespace

int main(int argc, char** argv) {
  const std::string content = argc > 1 ? argv[1] : "content";
  library::LoadResult loaded = library::load(content, "");
  for (const auto& problem : loaded.problems) std::printf("%s\n", problem.text().c_str());
  if (argc > 4) {
    show(loaded.library, loaded.library.lessons.at(argv[3]), argv[4]);
    return 0;
  }
  const std::size_t namers = argc > 2 ? std::strtoul(argv[2], nullptr, 10) : 1000;
  std::size_t lessons = 0;
  for (const auto& [id, lesson] : loaded.library.lessons) lessons += lesson.guide ? 1U : 0U;
  std::size_t passed = 0, tried = 0;
  std::printf("%-26s %-9s %-9s %-9s %-9s %-9s\n", "lesson", "named", "all eight", "guess 1st", "guide",
              "textbook");
  for (const auto& [id, lesson] : loaded.library.lessons) {
    if (!lesson.guide) continue;
    const machine::Machine machine = loaded.library.machine(lesson.machine);
    const std::uint64_t seed = lesson.start.seed;
    const auto rightly = play(machine, lesson, seed, [](auto& run) { name_and_mend(run, faults_of(run)); });
    const auto eight = play(machine, lesson, seed, [](auto& run) { name_and_mend(run, eight_with(run, 7)); });
    const auto guess = play(machine, lesson, seed, [](auto& run) {
      std::vector<std::string> names = faults_of(run);
      names.insert(names.begin(), names.front() == "supply_low" ? "drier_clogged" : "supply_low");
      name_and_mend(run, names);
    });
    const auto guide = play(machine, lesson, seed, [](auto& run) { training::follow(run); });
    const auto book = play(machine, lesson, seed, textbook);
    std::printf("%-26s %-9s %-9s %-9s %-9s %-9s\n", id.c_str(), cell(rightly).c_str(), cell(eight).c_str(),
                cell(guess).c_str(), cell(guide).c_str(), cell(book).c_str());
    std::fflush(stdout);
    for (std::size_t n = 0; n < namers / lessons; ++n) {
      passed += random_namer(machine, lesson, n) ? 1U : 0U;
      ++tried;
    }
  }
  std::printf("random namers: %zu of %zu named what is there on grounds (%.2f %%)\n", passed, tried,
              tried > 0 ? 100.0 * static_cast<double>(passed) / static_cast<double>(tried) : 0.0);
  return 0;
}
