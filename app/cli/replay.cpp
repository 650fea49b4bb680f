#include "app/cli/replay.h"

#include <optional>

#include "app/cli/judge.h"
#include "app/cli/lesson.h"
#include "app/cli/simulate.h"
#include "app/library/reading/paths.h"
#include "app/reports/debrief_paper.h"
#include "sim_core/bytes/hash64.h"
#include "sim_core/journal/journal.h"
#include "sim_core/training/scorer.h"

namespace stirbench::cli {

namespace {

int not_verified(const CommonOptions& common, const std::string& file, const std::string& message,
                 const journal::Journal& journal, std::uint64_t tick) {
  say(file + ": " + message);
  if (common.json) {
    print_json({{"verified", false},
                {"message", message},
                {"tick", tick},
                {"machine", journal.header.machine},
                {"lesson", journal.header.lesson}});
  }
  return exit_not_verified;
}

void write_pdf(const std::string& file, const library::Library& library, const machine::Machine& machine,
               const training::Lesson* lesson, const std::string& journal) {
  const std::string failed =
      library::write_atomically(file, reports::debrief_pdf(library, machine, lesson, journal, {}));
  if (!failed.empty()) throw Refusal(failed);
}

std::string journal_text(const std::string& file) {
  try {
    return library::read_file(file);
  } catch (const std::runtime_error& error) {
    throw Refusal(error.what());
  }
}

}  // namespace

int replay_journal(const CommonOptions& common, const std::string& file, const std::string& pdf) {
  const std::string text = journal_text(file);
  journal::Journal journal;
  const journal::JournalProblem fault = journal::read_journal(text, journal);
  if (!fault.message.empty()) return not_verified(common, file, fault.message, journal, 0);

  const library::Library library = load_library(common);
  if (library.machines.count(journal.header.machine) == 0) {
    return not_verified(common, file,
                        "the journal's machine \"" + journal.header.machine +
                            "\" is not in the content; known: " + known_ids(library.machines),
                        journal, 0);
  }
  const machine::Machine machine = library.machine(journal.header.machine);
  const std::optional<training::Lesson> lesson =
      library.lesson(journal.header.lesson, journal.header.start.seed);
  std::optional<training::Scorer> scorer;
  if (lesson) scorer.emplace(*lesson);

  training::BatchJudge judge(machine);
  std::vector<machine::Event> history;
  const journal::ReplayResult result = journal::replay(
      machine, journal, [&](const machine::State& state, const std::vector<machine::Event>& events) {
        history.insert(history.end(), events.begin(), events.end());
        judge.see(state);
        if (scorer) scorer->see(training::Moment{machine, state, events});
      });
  if (!result.verified) return not_verified(common, file, result.message, journal, result.tick);

  std::optional<training::ScoreCard> card;
  const std::vector<machine::Event> quiet;
  if (scorer) card = scorer->card(training::Moment{machine, result.state, quiet});
  const bool lesson_changed = scorer && lesson->hash != journal.header.lesson_hash;
  if (lesson_changed)
    say("The lesson has changed since this journal was kept; the score below is by the lesson as it is now.");
  if (!pdf.empty()) write_pdf(pdf, library, machine, lesson ? &*lesson : nullptr, text);
  if (common.json) {
    nlohmann::json out = state_json(machine, result.state, history);
    out.update(judge_json(judge, result.state));
    out["verified"] = true;
    out["tick"] = result.tick;
    out["lesson"] = journal.header.lesson;
    out["mode"] = journal.header.mode;
    out["lesson_changed"] = lesson_changed;
    if (card) out["score"] = card_json(*card);
    print_json(out);
  } else {
    print("Verified: " + std::to_string(journal.hashes.size()) + " state hashes agree, to tick " +
          std::to_string(result.tick) + " (" + clock_text(machine::time_s(result.state)) + ").");
    print("mode             " + (journal.header.mode == "actions_file"
                                     ? "an actions file was played, nobody's hands"
                                     : journal.header.mode));
    print("state hash       " + bytes::hex64(machine::state_hash(result.state)));
    print_judge(judge, result.state);
    if (card) print_card(*card);
  }
  return exit_done;
}

}  // namespace stirbench::cli
