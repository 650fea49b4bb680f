#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <nlohmann/json.hpp>
#include <set>
#include <string>
#include <vector>

#include "app/library/library.h"
#include "sim_core/journal/journal.h"
#include "sim_core/training/lesson_run.h"
#include "tests/support/files.h"

// Every lesson's right and wrong runs, played as they stand in the content, against the lesson's own
// expect.json: which criteria are missed, whether the lesson is passed, and between which scores. The
// expectations are the lesson author's: what each mistake has to cost. They are written down before the run,
// not copied from it.
namespace {

using namespace stirbench;

const library::Library& content() {
  static const library::Library loaded = [] {
    library::LoadResult result = library::load((test_support::source_root() / "content").string(), "");
    for (const auto& problem : result.problems) FAIL(problem.text());
    return std::move(result.library);
  }();
  return loaded;
}

std::filesystem::path folder_of(const std::string& lesson) {
  return test_support::source_root() / "content/lessons" / lesson;
}

nlohmann::json expectations(const std::string& lesson) {
  return nlohmann::json::parse(test_support::read_file(folder_of(lesson) / "expect.json"));
}

struct Played {
  training::ScoreCard card;
  std::string journal;
  std::uint64_t state_hash = 0;
  int steps_done = 0;
  double simulated_s = 0.0;
};

Played play(const training::Lesson& lesson, const std::string& run_name) {
  const machine::Machine machine = content().machine(lesson.machine);
  library::ActionsResult actions =
      library::read_actions((folder_of(lesson.id) / (run_name + ".jsonl")).string(), machine);
  for (const auto& problem : actions.problems) FAIL(problem.text());
  Played played;
  training::LessonRun run(machine, lesson, "guided", "test", lesson.start.seed,
                          [&played](std::string_view record) { played.journal += record; });
  training::play_to_end(run, std::move(actions.actions));
  played.card = run.card();
  played.state_hash = machine::state_hash(run.session().state());
  played.steps_done = run.scorer().current_step();
  played.simulated_s = machine::time_s(run.session().state());
  return played;
}

// What went wrong; what was never at stake is neither met nor missed and costs its points only.
std::set<std::string> missed_of(const training::ScoreCard& card) {
  std::set<std::string> missed;
  for (const auto& result : card.criteria) {
    if (training::is_missed(result)) missed.insert(result.id);
  }
  return missed;
}

std::string listed(const std::set<std::string>& ids) {
  std::string text;
  for (const std::string& id : ids) text += (text.empty() ? "" : ", ") + id;
  return text;
}

std::string reasons(const training::ScoreCard& card) {
  std::string text;
  for (const auto& result : card.criteria)
    text += "\n  " +
            std::string(result.met        ? "met    "
                        : result.occasion ? "missed "
                                          : "not due ") +
            result.id + ": " + result.why;
  return text;
}

}  // namespace

TEST_CASE("each run of each lesson scores what the lesson says it costs") {
  REQUIRE(content().lessons.size() >= 3);
  for (const auto& [id, lesson] : content().lessons) {
    const nlohmann::json expected = expectations(id);
    // Every run in the folder has an expectation, and the other way round.
    std::set<std::string> runs;
    for (const auto& entry : std::filesystem::directory_iterator(folder_of(id))) {
      if (entry.path().extension() == ".jsonl") runs.insert(entry.path().stem().string());
    }
    std::set<std::string> described;
    for (const auto& item : expected.items()) described.insert(item.key());
    CHECK_MESSAGE(runs == described,
                  id << ": runs " << listed(runs) << "; expect.json " << listed(described));
    CHECK(runs.count("right") == 1);
    CHECK_MESSAGE(runs.size() >= 4, id << ": a lesson needs three wrong runs beside the right one");

    for (const auto& [name, want] : expected.items()) {
      const Played played = play(lesson, name);
      INFO(id << "/" << name << ": score " << played.card.score_norm << ", " << played.simulated_s << " s"
              << reasons(played.card));
      CHECK(played.card.passed == want.at("passed").get<bool>());
      CHECK(played.card.score_norm >= want.value("min_score_norm", 0.0));
      CHECK(played.card.score_norm <= want.value("max_score_norm", 1.0));
      std::set<std::string> missed;
      for (const auto& one : want.value("missed", nlohmann::json::array()))
        missed.insert(one.get<std::string>());
      CHECK_MESSAGE(missed_of(played.card) == missed,
                    "missed " << listed(missed_of(played.card)) << "; expected " << listed(missed));
      if (name == "right") CHECK(played.steps_done == static_cast<int>(lesson.steps.size()));
      for (const auto& result : played.card.criteria) {
        CHECK_FALSE(result.why.empty());
        CHECK_MESSAGE(result.why.find('?') == std::string::npos, "a reason with a gap: " << result.why);
      }
    }
  }
}

// The bar is a choice: a tenth of the points for what happens by itself.
TEST_CASE("who does nothing for half an hour earns at most a tenth of any lesson's points") {
  for (const auto& [id, lesson] : content().lessons) {
    const machine::Machine machine = content().machine(lesson.machine);
    training::LessonRun run(machine, lesson, "actions_file", "test", lesson.start.seed);
    const double until_s = std::min(1800.0, lesson.limit_s);
    while (!run.over() && machine::time_s(run.state()) < until_s) run.step();
    const training::ScoreCard card = run.card();
    MESSAGE(id << ": " << 100.0 * card.score_norm << " % for doing nothing");
    CHECK_MESSAGE(card.score_norm <= 0.10, id << reasons(card));
    CHECK_FALSE(card.passed);
  }
}

TEST_CASE("every criterion can be missed: some wrong run of its lesson misses it") {
  for (const auto& [id, lesson] : content().lessons) {
    std::set<std::string> missed;
    const nlohmann::json expected = expectations(id);
    for (const auto& item : expected.items()) {
      for (const auto& one : item.value().value("missed", nlohmann::json::array()))
        missed.insert(one.get<std::string>());
    }
    // What every lesson asks without saying it.
    std::set<std::string> known{std::string(training::injury_criterion)};
    for (const auto& criterion : lesson.criteria) {
      known.insert(criterion.id);
      if (criterion.everywhere) continue;  // tests/app/library/conduct_test.cpp
      CHECK_MESSAGE(missed.count(criterion.id) == 1, id << ": no wrong run misses " << criterion.id);
    }
    for (const std::string& one : missed)
      CHECK_MESSAGE(known.count(one) == 1, id << ": expect.json names " << one << ", which is no criterion");
  }
}

TEST_CASE("a lesson's journal replays to the same hashes and is scored the same again") {
  for (const auto& [id, lesson] : content().lessons) {
    const Played played = play(lesson, "right");
    CHECK(played.state_hash == play(lesson, "right").state_hash);

    journal::Journal journal;
    const journal::JournalProblem fault = journal::read_journal(played.journal, journal);
    REQUIRE_MESSAGE(fault.message.empty(), fault.message);
    CHECK(journal.header.lesson == id);
    CHECK(journal.header.lesson_hash == lesson.hash);
    const machine::Machine machine = content().machine(lesson.machine);
    training::Scorer scorer(lesson);
    const journal::ReplayResult result = journal::replay(
        machine, journal, [&](const machine::State& state, const std::vector<machine::Event>& events) {
          scorer.see(training::Moment{machine, state, events});
        });
    REQUIRE_MESSAGE(result.verified, result.message);
    const std::vector<machine::Event> quiet;
    const training::ScoreCard again = scorer.card(training::Moment{machine, result.state, quiet});
    CHECK(again.passed == played.card.passed);
    CHECK(again.score_norm == played.card.score_norm);
    REQUIRE(again.criteria.size() == played.card.criteria.size());
    for (std::size_t i = 0; i < again.criteria.size(); ++i) {
      CHECK(again.criteria[i].met == played.card.criteria[i].met);
      CHECK(again.criteria[i].why == played.card.criteria[i].why);
      CHECK(again.criteria[i].at_s == played.card.criteria[i].at_s);
    }
  }
}
