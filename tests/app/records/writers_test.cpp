#include <doctest/doctest.h>
#include <signal.h>
#include <sqlite3.h>
#include <sys/wait.h>
#include <unistd.h>

#include <set>

#include "app/records/verify.h"
#include "tests/app/records/rooms.h"

using namespace stirbench;
using namespace stirbench::records;
using namespace stirbench::records_test;

namespace {

std::string faults_of(Store& store) {
  std::string out;
  for (const RecordProblem& fault : verify_records(store).faults)
    out += fault.place + ": " + fault.what + "\n";
  return out;
}

// Signs that a task was seen until it is killed; tells each acknowledged number through `pipe`.
[[noreturn]] void sign_until_killed(const StoreOptions& options, int pipe) {
  try {
    Store store(options);
    const Access who = store.sign_in(store.person_named("Ana Manager")->id, "739182");
    const Person kim = *store.person_named("Kim");
    for (std::int64_t n = 1;; ++n) {
      Observation seen;
      seen.person = kim.id;
      seen.task = "Task " + std::to_string(n);
      seen.machine = "m";
      seen.passed = true;
      store.add_observation(who, seen);
      run_attempt(store, kim, "never-dry", "test", true);
      if (::write(pipe, &n, sizeof n) != static_cast<ssize_t>(sizeof n)) ::_exit(3);
    }
  } catch (const std::exception&) {
    ::_exit(2);
  }
}

}  // namespace

TEST_CASE("two desks write at once: each in turn, one chain, each number once") {
  on_both([](bool on_server) {
    CAPTURE(on_server);
    const Room room("writers", on_server);
    {
      const auto store = room.open();
      store->add_person("Kim");
    }
    std::vector<pid_t> desks;
    for (int desk = 0; desk < 2; ++desk) {
      const pid_t child = ::fork();
      REQUIRE(child >= 0);
      if (child == 0) {
        int answer = 0;
        try {
          StoreOptions options = room.options();
          if (on_server) options.data_dir += std::to_string(desk);  // another computer
          Store store(options);
          for (int i = 0; i < 12; ++i)
            run_attempt(store, *store.person_named("Kim"), "desk-" + std::to_string(desk), "test", true);
        } catch (const std::exception&) {
          answer = 5;
        }
        ::_exit(answer);
      }
      desks.push_back(child);
    }
    for (const pid_t desk : desks) {
      int status = -1;
      ::waitpid(desk, &status, 0);
      CHECK(status == 0);
    }
    const auto store = room.open();
    const std::vector<Attempt> all = store->attempts(std::nullopt);
    CHECK(all.size() == 24);
    std::set<std::int64_t> ids;
    for (const Attempt& a : all) {
      ids.insert(a.id);
      CHECK(says(store->journal_text(a), a.uid));  // on a server also those of the other computer
    }
    CHECK(ids.size() == 24);
    CHECK(faults_of(*store) == "");
  });
}

TEST_CASE(
    "kill -9 during sign-offs and attempts: nothing acknowledged is lost, nothing is half there, the chain "
    "verifies") {
  for (int round = 0; round < 6; ++round) {
    const Room room("killed", false);
    {
      const auto store = room.open();
      const Managed m = make_managed(*store);
      store->add_person(m.manager, "Kim");
    }
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      ::close(ends[0]);
      sign_until_killed(room.options(), ends[1]);
    }
    ::close(ends[1]);
    std::int64_t acknowledged = 0;
    std::int64_t n = 0;
    for (int i = 0; i <= round && ::read(ends[0], &n, sizeof n) == static_cast<ssize_t>(sizeof n); ++i)
      acknowledged = n;
    ::usleep(static_cast<useconds_t>(900 * round));
    REQUIRE(::kill(child, SIGKILL) == 0);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WIFSIGNALED(status));
    while (::read(ends[0], &n, sizeof n) == static_cast<ssize_t>(sizeof n)) acknowledged = n;
    ::close(ends[0]);
    REQUIRE(acknowledged >= 1);
    const auto store = room.open();
    CHECK(faults_of(*store) == "");
    CHECK(store->observations().size() >= static_cast<std::size_t>(acknowledged));
    CHECK(store->briefs().size() >= static_cast<std::size_t>(acknowledged));
    CHECK(store->observations().size() <= static_cast<std::size_t>(acknowledged) + 1);
  }
}

TEST_CASE("records of the first format are brought up to date, with identities and a chain") {
  const Room room("migrate", false);
  {
    test_support::write_file(room.dir() + "/journals/000001-first-batch.journal", "old\n");
    sqlite3* db = nullptr;
    REQUIRE(sqlite3_open((room.dir() + "/records.sqlite").c_str(), &db) == SQLITE_OK);
    const char* sql =
        "CREATE TABLE person (id INTEGER PRIMARY KEY, name TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK "
        "(length(name) BETWEEN 1 AND 80));"
        "CREATE TABLE attempt (id INTEGER PRIMARY KEY AUTOINCREMENT, person INTEGER NOT NULL REFERENCES "
        "person(id), lesson TEXT NOT NULL,"
        " lesson_hash TEXT NOT NULL, mode TEXT NOT NULL, machine TEXT NOT NULL, started_utc TEXT NOT NULL, "
        "simulated_s REAL NOT NULL"
        " DEFAULT 0, passed INTEGER NOT NULL DEFAULT 0 CHECK (passed IN (0, 1)), score_norm REAL NOT NULL "
        "DEFAULT 0 CHECK (score_norm"
        " BETWEEN 0 AND 1), card_json TEXT NOT NULL DEFAULT '', journal_file TEXT UNIQUE, state_hash TEXT "
        "NOT NULL DEFAULT '', finished"
        " INTEGER NOT NULL DEFAULT 0 CHECK (finished IN (0, 1)));"
        "CREATE INDEX attempt_by_person ON attempt(person, id); CREATE INDEX attempt_by_lesson ON "
        "attempt(lesson, id);"
        "INSERT INTO person VALUES (1, 'Kim'), (4, 'Ada Lind');"
        "INSERT INTO attempt VALUES (1, 4, 'first-batch', 'h', 'guided', 'hm-45', '2026-01-01T00:00:00Z', "
        "10.5, 1, 0.25, '[]',"
        " '000001-first-batch.journal', 's', 1);"
        "PRAGMA application_id = 1400138098; PRAGMA user_version = 1;";
    REQUIRE(sqlite3_exec(db, sql, nullptr, nullptr, nullptr) == SQLITE_OK);
    sqlite3_close(db);
  }
  const auto store = room.open();
  const std::vector<Person> people = store->people();
  REQUIRE(people.size() == 2);
  CHECK(people[0].name == "Ada Lind");
  CHECK(people[0].id == 4);
  CHECK(people[0].uid.size() == 36);
  const std::vector<Attempt> all = store->attempts(4);
  REQUIRE(all.size() == 1);
  CHECK(all[0].score_norm == 0.25);
  CHECK(all[0].uid.size() == 36);
  CHECK(faults_of(*store) == "");
  CHECK(says(error_of([&] { store->add_person("ada lind"); }), "already somebody"));
  run_attempt(*store, people[1], "never-dry", "test", true);
  CHECK(faults_of(*store) == "");
}
