#include "app/records/store.h"

#include <doctest/doctest.h>
#include <sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <string>

#include "tests/support/files.h"

using namespace stirbench;
using namespace stirbench::records;
using test_support::TempFolder;

namespace {

// The text of the StoreError that `work` throws, or "" when it throws none.
template <class Work>
std::string error_of(Work&& work) {
  try {
    work();
  } catch (const StoreError& error) {
    return error.text;
  }
  return {};
}

bool says(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

// Another program's hands on the file: SQLite itself, without our layer.
class RawDatabase {
 public:
  explicit RawDatabase(const std::string& file) { REQUIRE(sqlite3_open(file.c_str(), &db_) == SQLITE_OK); }
  ~RawDatabase() { sqlite3_close(db_); }
  RawDatabase(const RawDatabase&) = delete;
  RawDatabase& operator=(const RawDatabase&) = delete;
  void run(const std::string& sql) {
    REQUIRE(sqlite3_exec(db_, sql.c_str(), nullptr, nullptr, nullptr) == SQLITE_OK);
  }
  std::string ask(const std::string& sql) {
    sqlite3_stmt* statement = nullptr;
    REQUIRE(sqlite3_prepare_v2(db_, sql.c_str(), -1, &statement, nullptr) == SQLITE_OK);
    std::string text;
    if (sqlite3_step(statement) == SQLITE_ROW)
      text = reinterpret_cast<const char*>(sqlite3_column_text(statement, 0));
    sqlite3_finalize(statement);
    return text;
  }

 private:
  sqlite3* db_ = nullptr;
};

unsigned mode_of(const std::string& path) {
  struct stat info {};
  REQUIRE(::stat(path.c_str(), &info) == 0);
  return static_cast<unsigned>(info.st_mode) & 0777U;
}

Attempt example(const Person& person) {
  Attempt a;
  a.person = person.id;
  a.lesson = "first-batch";
  a.lesson_hash = "0123456789abcdef";
  a.mode = "guided";
  a.machine = "hm-45";
  a.started_utc = "2026-11-25T07:00:00Z";
  return a;
}

}  // namespace

TEST_CASE("a round trip through the file keeps every field") {
  const TempFolder folder("records");
  Attempt begun;
  {
    Store store(folder.file("data"));
    const Person person = store.add_person("  Noor Example ");
    CHECK(person.name == "Noor Example");
    begun = store.begin_attempt(example(person));
    CHECK(begun.id > 0);
    CHECK(begun.journal_file == "000001-first-batch.journal");
    CHECK(store.journal_path(begun) == folder.file("data/journals/000001-first-batch.journal"));
    CHECK_FALSE(store.attempt(begun.id)->finished);
    begun.simulated_s = 4321.1;
    begun.passed = true;
    begun.score_norm = 0.1 + 0.2;
    begun.card_json = R"({"criteria":[{"why":"At 12:31 the probe read 84.2 °C, it's \"warm\"."}]})";
    begun.state_hash = "fedcba9876543210";
    begun.finished = true;
    store.finish_attempt(begun);
  }
  Store store(folder.file("data"));
  const std::optional<Attempt> kept = store.attempt(begun.id);
  REQUIRE(kept);
  CHECK(kept->person == begun.person);
  CHECK(kept->lesson == begun.lesson);
  CHECK(kept->lesson_hash == begun.lesson_hash);
  CHECK(kept->mode == begun.mode);
  CHECK(kept->machine == begun.machine);
  CHECK(kept->started_utc == begun.started_utc);
  CHECK(kept->simulated_s == begun.simulated_s);
  CHECK(kept->passed);
  CHECK(kept->score_norm == begun.score_norm);  // to the bit
  CHECK(kept->card_json == begun.card_json);
  CHECK(kept->journal_file == begun.journal_file);
  CHECK(kept->state_hash == begun.state_hash);
  CHECK(kept->finished);
  CHECK_FALSE(store.attempt(begun.id + 1));
}

TEST_CASE("attempts: newest first, by person, and a finished one stays as it is") {
  const TempFolder folder("records");
  Store store(folder.file("data"));
  const Person zoe = store.add_person("Zoe");
  const Person ada = store.add_person("ada");
  const Attempt first = store.begin_attempt(example(zoe));
  const Attempt second = store.begin_attempt(example(ada));
  const Attempt third = store.begin_attempt(example(zoe));
  REQUIRE(store.attempts(std::nullopt).size() == 3);
  CHECK(store.attempts(std::nullopt)[0].id == third.id);
  const auto hers = store.attempts(zoe.id);
  REQUIRE(hers.size() == 2);
  CHECK(hers[0].id == third.id);
  CHECK(hers[1].id == first.id);
  const auto everybody = store.people();
  REQUIRE(everybody.size() == 2);
  CHECK(everybody[0].name == "ada");

  store.finish_attempt(second);
  CHECK(says(error_of([&] { store.finish_attempt(second); }), "is not open"));
  Attempt unknown = second;
  unknown.id = 99;
  CHECK(says(error_of([&] { store.finish_attempt(unknown); }), "is not open"));
  Attempt wild = first;
  wild.score_norm = 1.5;
  CHECK(says(error_of([&] { store.finish_attempt(wild); }), "expected 0 .. 1"));
  Person nobody;
  nobody.id = 77;
  CHECK(says(error_of([&] { store.begin_attempt(example(nobody)); }), "no person 77"));
}

TEST_CASE("names: 1 to 80 characters, unique, valid text") {
  const TempFolder folder("records");
  Store store(folder.file("data"));
  store.add_person("Kim");
  CHECK(says(error_of([&] { store.add_person("kim"); }), "already somebody"));
  CHECK(says(error_of([&] { store.add_person("   "); }), "at least one character"));
  CHECK(says(error_of([&] { store.add_person(std::string(81, 'x')); }), "81"));
  CHECK(says(error_of([&] { store.add_person("a\x01z"); }), "control character"));
  CHECK(says(error_of([&] { store.add_person("a\xC3"); }), "UTF-8"));         // cut short
  CHECK(says(error_of([&] { store.add_person("\xC0\xAF"); }), "UTF-8"));      // overlong, RFC 3629 section 3
  CHECK(says(error_of([&] { store.add_person("\xED\xA0\x80"); }), "UTF-8"));  // surrogate, RFC 3629 section 3
  std::string eighty;
  for (int i = 0; i < 80; ++i) eighty += "é";
  CHECK(store.add_person(eighty).name == eighty);  // characters, not bytes
  CHECK(store.people().size() == 2);
}

TEST_CASE("SQL in names and lessons is only text") {
  const TempFolder folder("records");
  Store store(folder.file("data"));
  const std::string hostile = "Robin'); DROP TABLE person; -- :name";
  const Person person = store.add_person(hostile);
  Attempt a = example(person);
  a.lesson = "../../etc'; DELETE FROM attempt; --";
  a = store.begin_attempt(a);
  CHECK(a.journal_file.find('/') == std::string::npos);
  CHECK(store.people().at(0).name == hostile);
  CHECK(store.attempts(person.id).at(0).lesson == a.lesson);
}

TEST_CASE("pragmas, integrity and file modes") {
  const TempFolder folder("records");
  const std::string dir =
      folder.file("some where/data");  // parents are made; a blank in the path is no trouble
  Store store(dir);
  const Attempt a = store.begin_attempt(example(store.add_person("Kim")));
  CHECK(mode_of(dir) == 0700U);
  CHECK(mode_of(dir + "/journals") == 0700U);
  CHECK(mode_of(dir + "/records.sqlite") == 0600U);
  CHECK(mode_of(dir + "/records.sqlite-wal") == 0600U);
  { JournalFile journal(store.journal_path(a)); }
  CHECK(mode_of(store.journal_path(a)) == 0600U);

  RawDatabase raw(dir + "/records.sqlite");
  CHECK(raw.ask("PRAGMA journal_mode") == "wal");
  CHECK(raw.ask("PRAGMA application_id") == "1400138098");  // 0x53746972, "Stir"
  CHECK(raw.ask("PRAGMA user_version") == "4");
  CHECK(raw.ask("PRAGMA integrity_check") == "ok");
}

TEST_CASE("a locked database: a clear message after the wait, nothing written") {
  const TempFolder folder("records");
  Store store(folder.file("data"));
  store.add_person("Kim");
  const std::string file = folder.file("data/records.sqlite");
  RawDatabase other(file);
  other.run("BEGIN IMMEDIATE");
  const std::string text = error_of([&] { store.add_person("Ada"); });
  CHECK(says(text, file));
  CHECK(says(text, "in use by another program"));
  CHECK(store.people().size() == 1);  // reading goes on beside a writer
  other.run("COMMIT");
  CHECK(store.add_person("Ada").id > 0);
}

TEST_CASE("files that are not ours are left alone") {
  const TempFolder folder("records");
  const std::string file = folder.file("data/records.sqlite");

  SUBCASE("not a database") {
    const std::string garbage(5000, 'x');
    test_support::write_file(file, garbage);
    const std::string text = error_of([&] { Store store(folder.file("data")); });
    CHECK(says(text, file));
    CHECK(says(text, "is not a database"));
    CHECK(test_support::read_file(file) == garbage);
  }
  SUBCASE("another program's database") {
    { Store store(folder.file("elsewhere")); }
    test_support::write_file(folder.file("data/keep"), "");
    {
      RawDatabase raw(file);
      raw.run("CREATE TABLE things(a)");
    }
    const std::string text = error_of([&] { Store store(folder.file("data")); });
    CHECK(says(text, "database of another program"));
    RawDatabase raw(file);
    CHECK(raw.ask("SELECT count(*) FROM sqlite_master") == "1");
  }
  SUBCASE("a newer format") {
    { Store store(folder.file("data")); }
    {
      RawDatabase raw(file);
      raw.run("PRAGMA user_version = 7");
    }
    const std::string text = error_of([&] { Store store(folder.file("data")); });
    CHECK(says(text, "record format 7"));
    CHECK(says(text, "formats up to 4"));
    RawDatabase raw(file);
    CHECK(raw.ask("PRAGMA user_version") == "7");
  }
}

TEST_CASE("a data folder that cannot be written") {
  const TempFolder folder("records");
  // A file where the folder should be: refused for everybody, root too.
  test_support::write_file(folder.file("taken"), "x");
  std::string text = error_of([&] { Store store(folder.file("taken")); });
  CHECK(says(text, folder.file("taken")));
  CHECK(says(text, "--data DIR"));
  text = error_of([&] { Store store(folder.file("taken/below")); });
  CHECK(says(text, "cannot be written"));
  // The kernel's own folder takes no new entries from anybody.
  text = error_of([] { Store store("/proc/stirbench"); });
  CHECK(says(text, "/proc/stirbench"));
  if (::geteuid() != 0) {
    const std::string closed = folder.file("closed");
    REQUIRE(::mkdir(closed.c_str(), 0500) == 0);
    text = error_of([&] { Store store(closed); });
    CHECK(says(text, "cannot be written"));
  }
}

TEST_CASE("a journal is not overwritten, and a name in use is passed over") {
  const TempFolder folder("records");
  Store store(folder.file("data"));
  const Person kim = store.add_person("Kim");
  test_support::write_file(folder.file("data/journals/000001-first-batch.journal"), "old");
  const Attempt a = store.begin_attempt(example(kim));
  CHECK(a.journal_file == "000001-first-batch-2.journal");
  CHECK(says(error_of([&] { JournalFile again(folder.file("data/journals/000001-first-batch.journal")); }),
             "is not overwritten"));
  CHECK(says(error_of([&] { JournalFile lost(folder.file("nowhere/x.journal")); }), "cannot be made"));
}
