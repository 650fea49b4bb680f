#include "app/cli/records.h"

#include <sys/stat.h>

#include <charconv>
#include <cmath>
#include <filesystem>

#include "app/library/reading/paths.h"
#include "app/records/archive.h"
#include "app/records/verify.h"
#include "sim_core/journal/journal.h"
#include "sim_core/training/scorer.h"

namespace stirbench::cli {

namespace {

nlohmann::json head_json(const records::ChainHead& head) {
  return {{"room", head.room}, {"count", head.count}, {"hash", head.hash}};
}

std::string head_text(const records::ChainHead& head) {
  return head.room + ":" + std::to_string(head.count) + ":" + head.hash;
}

records::ChainHead head_or_refuse(const std::string& text) {
  const std::size_t first = text.find(':');
  const std::size_t second = first == std::string::npos ? first : text.find(':', first + 1);
  records::ChainHead head;
  if (second != std::string::npos) {
    const char* end = text.data() + second;
    const auto read = std::from_chars(text.data() + first + 1, end, head.count);
    head.room = text.substr(0, first);
    head.hash = text.substr(second + 1);
    if (read.ec == std::errc() && read.ptr == end && head.count > 0 && !head.room.empty() &&
        head.hash.size() == 64)
      return head;
  }
  throw Refusal(
      "--head: expected ROOM:COUNT:HASH as a certificate or `stirbench records head` prints it, found \"" +
      text + "\"");
}

int print_report(const CommonOptions& common, const char* verb, const records::ArchiveReport& r) {
  if (common.json) {
    print_json({{verb, true},
                {"people", r.people},
                {"attempts", r.attempts},
                {"others", r.others},
                {"journals", r.journals},
                {"known", r.known},
                {"notes", r.notes}});
  } else {
    for (const std::string& note : r.notes) print(note);
    print(std::to_string(r.people) + " people, " + std::to_string(r.attempts) + " attempts, " +
          std::to_string(r.journals) + " journals, " + std::to_string(r.others) + " other rows" +
          (r.known == 0 ? "." : "; " + std::to_string(r.known) + " known already."));
  }
  return exit_done;
}

}  // namespace

int records_verify(const CommonOptions& common, bool journals, const std::string& head) {
  records::VerifyOptions options;
  options.journals = journals;
  if (!head.empty()) options.printed = head_or_refuse(head);
  records::VerifyResult result;
  std::string place = library::data_dir(common.data_dir);
  try {
    records::Store store = open_store(common);
    place = store.place();
    result = records::verify_records(store, options);
  } catch (const records::StoreError& error) {
    if (!error.damaged) throw;
    result.faults.push_back({place, error.text});
  }
  nlohmann::json faults = nlohmann::json::array();
  for (const auto& fault : result.faults) {
    faults.push_back({{"place", fault.place}, {"what", fault.what}});
    say(fault.place + ": " + fault.what);
  }
  if (common.json) {
    nlohmann::json heads = nlohmann::json::array();
    for (const auto& one : result.heads) heads.push_back(head_json(one));
    print_json({{"verified", result.faults.empty()},
                {"faults", faults},
                {"entries", result.entries},
                {"rows", result.rows},
                {"journals", result.journals},
                {"heads", heads}});
  } else if (result.faults.empty()) {
    print("Verified: " + std::to_string(result.entries) + " entries of the chain, " +
          std::to_string(result.rows) + " rows, " + std::to_string(result.journals) + " journals.");
    if (!result.heads.empty()) print("head  " + head_text(result.heads.front()));
  }
  return result.faults.empty() ? exit_done : exit_not_verified;
}

int records_head(const CommonOptions& common) {
  records::Store store = open_store(common);
  const records::ChainHead head = store.head();
  if (common.json)
    print_json(head_json(head));
  else
    print(head_text(head));
  return exit_done;
}

int records_backup(const CommonOptions& common, const SignInOptions& asking, const std::string& folder) {
  records::Store store = open_store(common);
  const int code = print_report(common, "backed_up", records::back_up(store, sign_in(store, asking), folder));
  say("The site's key is not in the back-up. Keep a copy of " + store.data_dir() + "/site.key apart.");
  return code;
}

int records_restore(const CommonOptions& common, const std::string& folder) {
  records::Store store = open_store(common);
  return print_report(common, "restored", records::restore(store, folder));
}

int records_merge(const CommonOptions& common, const SignInOptions& asking, const std::string& folder) {
  records::Store store = open_store(common);
  return print_report(common, "merged", records::merge(store, sign_in(store, asking), folder));
}

int records_site(const CommonOptions& common, const SignInOptions& asking, const std::string& name) {
  records::Store store = open_store(common);
  store.set_site(sign_in(store, asking), name);
  if (common.json)
    print_json({{"site", store.site()}});
  else
    print(store.site());
  return exit_done;
}

int records_use(const CommonOptions& common, const std::string& database) {
  const std::string dir = library::data_dir(common.data_dir);
  const std::string file = dir + "/database";
  if (database == "file") {
    std::error_code error;
    std::filesystem::remove(file, error);
    if (error) throw Refusal(file + ": " + error.message());
  } else {
    const std::string folder_problem = library::make_writable(dir);
    if (!folder_problem.empty()) throw Refusal(folder_problem);
    records::Store tried(records::StoreOptions{dir, database, {}, {}});  // throws when it cannot be used
    if (!tried.on_server())
      throw Refusal("DATABASE: expected postgresql://USER@HOST/NAME or \"file\", found \"" + database + "\"");
    const std::string failed = library::write_atomically(file, database + "\n");
    if (!failed.empty()) throw Refusal(failed);
    ::chmod(file.c_str(), 0600);
  }
  records::Store store(dir);
  if (common.json)
    print_json({{"records", store.place()}});
  else
    print("Records are kept in " + store.place());
  return exit_done;
}

namespace {

struct Rescored {
  std::int64_t same = 0;
  std::int64_t other_version = 0;
  std::int64_t different = 0;
};

// Empty when it agrees; "version" when the lesson has changed since; else what differs.
std::string rescore(const library::Library& library, records::Store& store, const records::Attempt& a) {
  journal::Journal journal;
  const journal::JournalProblem fault = journal::read_journal(store.journal_text(a), journal);
  if (!fault.message.empty()) return fault.message;
  const auto lesson = library.lessons.find(a.lesson);
  if (lesson == library.lessons.end() || library.machines.count(a.machine) == 0 ||
      lesson->second.hash != a.lesson_hash)
    return "version";
  const machine::Machine machine = library.machine(a.machine);
  training::Scorer scorer(lesson->second);
  const journal::ReplayResult run = journal::replay(
      machine, journal, [&](const machine::State& state, const std::vector<machine::Event>& events) {
        scorer.see(training::Moment{machine, state, events});
      });
  if (!run.verified) return run.message;
  const std::vector<machine::Event> quiet;
  const training::ScoreCard card = scorer.card(training::Moment{machine, run.state, quiet});
  if (card.passed != a.passed || card.score_norm != a.score_norm)
    return "kept " + fixed(100.0 * a.score_norm, 2) + " %, scored again " +
           fixed(100.0 * card.score_norm, 2) + " %";
  return {};
}

}  // namespace

int records_rescore(const CommonOptions& common, const SignInOptions& asking) {
  records::Store store = open_store(common);
  const std::string denied = records::why_not(sign_in(store, asking), records::Right::see_everybody);
  if (!denied.empty()) throw Refusal(denied);
  const library::Library library = load_library(common);
  Rescored count;
  nlohmann::json faults = nlohmann::json::array();
  for (const records::Attempt& a : store.attempts(std::nullopt)) {
    if (!a.finished || a.journal_sha256.empty()) continue;
    const std::string what = rescore(library, store, a);
    if (what.empty()) {
      ++count.same;
    } else if (what == "version") {
      ++count.other_version;
    } else {
      ++count.different;
      faults.push_back({{"attempt", a.uid}, {"what", what}});
      say(store.journal_path(a) + ": " + what);
    }
  }
  if (common.json) {
    print_json({{"same", count.same},
                {"other_version", count.other_version},
                {"different", count.different},
                {"faults", faults}});
  } else {
    print(std::to_string(count.same) + " give the kept score, " + std::to_string(count.other_version) +
          " were scored by another version of their lesson and keep that score, " +
          std::to_string(count.different) + " differ.");
  }
  return count.different == 0 ? exit_done : exit_not_verified;
}

}  // namespace stirbench::cli
