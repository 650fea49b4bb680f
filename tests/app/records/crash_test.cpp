#include <doctest/doctest.h>
#include <fcntl.h>
#include <signal.h>
#include <sqlite3.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstring>
#include <string>

#include "app/records/store.h"
#include "app/records/verify.h"
#include "tests/app/records/rooms.h"

using namespace stirbench;
using namespace stirbench::records;
using test_support::TempFolder;

namespace {

// An attempt of twenty journal records, begun and finished.
Attempt keep_attempt(Store& store, const Person& person) {
  Attempt a;
  a.person = person.id;
  a.lesson = "never-dry";
  a.mode = "test";
  a.machine = "hm-45";
  a.started_utc = "2026-11-25T07:00:00Z";
  a = store.begin_attempt(a);
  JournalFile journal(store.journal_path(a));
  for (int r = 0; r < 20; ++r) journal.write("{\"r\":" + std::to_string(r) + ",\"kind\":\"hash\"}\n");
  a.score_norm = 0.5;
  store.finish_attempt(a);
  return a;
}

// Child: begins and finishes attempts without end, writing journal records between; tells each acknowledged
// id through `pipe`.
[[noreturn]] void work_until_killed(const std::string& dir, int pipe) {
  try {
    Store store(dir);
    const Person person = store.add_person("Kim");
    for (;;) {
      const Attempt a = keep_attempt(store, person);
      const auto id = static_cast<std::int64_t>(a.id);
      if (::write(pipe, &id, sizeof id) != static_cast<ssize_t>(sizeof id)) ::_exit(3);
    }
  } catch (const std::exception&) {
    ::_exit(2);
  }
}

std::string integrity(const std::string& file) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &db) == SQLITE_OK);
  sqlite3_stmt* statement = nullptr;
  REQUIRE(sqlite3_prepare_v2(db, "PRAGMA integrity_check", -1, &statement, nullptr) == SQLITE_OK);
  std::string text;
  if (sqlite3_step(statement) == SQLITE_ROW)
    text = reinterpret_cast<const char*>(sqlite3_column_text(statement, 0));
  sqlite3_finalize(statement);
  sqlite3_close(db);
  return text;
}

}  // namespace

TEST_CASE(
    "kill -9 in the midst: what was acknowledged is there, the database is sound, journals end with whole "
    "records") {
  for (int round = 0; round < 5; ++round) {
    const TempFolder folder("crash");
    const std::string dir = folder.file("data");
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      ::close(ends[0]);
      work_until_killed(dir, ends[1]);
    }
    ::close(ends[1]);
    // Lets it acknowledge a different number each round, then kills it wherever it is.
    std::int64_t acknowledged = 0;
    std::int64_t id = 0;
    for (int i = 0; i < 3 + 4 * round && ::read(ends[0], &id, sizeof id) == static_cast<ssize_t>(sizeof id);
         ++i)
      acknowledged = id;
    ::usleep(static_cast<useconds_t>(700 * round));
    REQUIRE(::kill(child, SIGKILL) == 0);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    CHECK(WIFSIGNALED(status));
    while (::read(ends[0], &id, sizeof id) == static_cast<ssize_t>(sizeof id)) acknowledged = id;
    ::close(ends[0]);

    REQUIRE(acknowledged >= 3);
    CHECK(integrity(dir + "/records.sqlite") == "ok");
    Store store(dir);
    for (std::int64_t i = 1; i <= acknowledged; ++i) {
      const std::optional<Attempt> kept = store.attempt(i);
      REQUIRE(kept);
      CHECK(kept->finished);
      CHECK(kept->score_norm == 0.5);
    }
    // At most the one under way is open, and its journal holds whole records.
    const std::vector<Attempt> all = store.attempts(std::nullopt);
    int open = 0;
    for (const Attempt& a : all) open += a.finished ? 0 : 1;
    CHECK(open <= 1);
    const std::string last = store.journal_path(all.front());
    if (::access(last.c_str(), F_OK) == 0) {
      const std::string text = test_support::read_file(last);
      CHECK((text.empty() || text.back() == '\n'));
    }
  }
}

TEST_CASE("a full disk: the error names the file, and the journal ends with its last whole record") {
  const TempFolder folder("full");
  const std::string path = folder.file("small.journal");
  // A limit on file size stands for the end of the disk. In a child, because the limit is the process's own.
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    ::signal(SIGXFSZ, SIG_IGN);
    const struct rlimit limit { 100, 100 };
    if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) ::_exit(4);
    JournalFile journal(path);
    journal.write(std::string(59, 'a') + "\n");
    try {
      journal.write(std::string(59, 'b') + "\n");
    } catch (const StoreError& error) {
      ::_exit(error.text.find(path) != std::string::npos ? 0 : 5);
    }
    ::_exit(6);
  }
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  REQUIRE(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
  CHECK(test_support::read_file(path) == std::string(59, 'a') + "\n");
}

TEST_CASE("a database that can grow no further says that the disk is full, and goes on with what it has") {
  const TempFolder folder("full");
  const std::string dir = folder.file("data");
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    int answer = 6;
    try {
      Store store(dir);
      store.add_person("Kim");
      ::signal(SIGXFSZ, SIG_IGN);
      const struct rlimit limit { 65536, 65536 };
      if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) ::_exit(4);
      try {
        for (int i = 0; i < 2000; ++i) store.add_person("Person " + std::to_string(i));
      } catch (const StoreError& error) {
        // SQLite reports the kernel's limit as a full disk or as a disk error.
        const bool clear = error.text.find("records.sqlite") != std::string::npos &&
                           error.text.find("disk") != std::string::npos;
        answer = clear && !store.people().empty() ? 0 : 5;
      }
    } catch (const std::exception&) {
      answer = 7;
    }
    ::_exit(answer);
  }
  int status = 0;
  REQUIRE(::waitpid(child, &status, 0) == child);
  REQUIRE(WIFEXITED(status));
  CHECK(WEXITSTATUS(status) == 0);
  CHECK(integrity(dir + "/records.sqlite") == "ok");
}

// Signs and finishes attempts until the disk is full; tells through `pipe` how many of each were
// acknowledged.
[[noreturn]] static void work_until_full(const std::string& dir, rlim_t bytes, int pipe) {
  std::int64_t done[2] = {0, 0};
  int answer = 6;
  try {
    Store store(StoreOptions{dir, "", records_test::cheap_pins(), {}});
    const Person kim = *store.person_named("Kim");
    const Access who = store.sign_in(store.person_named("Ana Manager")->id, "739182");
    ::signal(SIGXFSZ, SIG_IGN);
    const struct rlimit limit { bytes, bytes };
    if (::setrlimit(RLIMIT_FSIZE, &limit) != 0) ::_exit(4);
    try {
      for (int i = 0; i < 400; ++i) {
        Observation seen;
        seen.person = kim.id;
        seen.task = "Task " + std::to_string(i) + std::string(150, 'x');
        seen.machine = "m";
        seen.passed = true;
        store.add_observation(who, seen);
        ++done[0];
        keep_attempt(store, kim);
        ++done[1];
      }
    } catch (const StoreError& error) {
      answer = error.text.find("disk") != std::string::npos || error.text.find("space") != std::string::npos
                   ? 0
                   : 5;
    }
  } catch (const std::exception&) {
    answer = 7;
  }
  if (::write(pipe, done, sizeof done) != static_cast<ssize_t>(sizeof done)) answer = 3;
  ::_exit(answer);
}

TEST_CASE(
    "a disk that fills during attempts and sign-offs: nothing acknowledged is lost, nothing is half, the "
    "chain verifies") {
  // A limit on each file's size stands for the end of the disk; at several places of the work.
  for (const rlim_t bytes : {171000U, 240000U, 400000U, 700000U, 1300000U}) {
    CAPTURE(bytes);
    const TempFolder folder("full-work");
    const std::string dir = folder.file("data");
    {
      Store store(StoreOptions{dir, "", records_test::cheap_pins(), {}});
      store.add_person(records_test::make_managed(store).manager, "Kim");
    }
    int ends[2];
    REQUIRE(::pipe(ends) == 0);
    const pid_t child = ::fork();
    REQUIRE(child >= 0);
    if (child == 0) {
      ::close(ends[0]);
      work_until_full(dir, bytes, ends[1]);
    }
    ::close(ends[1]);
    std::int64_t done[2] = {-1, -1};
    CHECK(::read(ends[0], done, sizeof done) == static_cast<ssize_t>(sizeof done));
    ::close(ends[0]);
    int status = 0;
    REQUIRE(::waitpid(child, &status, 0) == child);
    REQUIRE(WIFEXITED(status));
    CHECK(WEXITSTATUS(status) == 0);
    CHECK(done[0] < 400);
    CHECK(integrity(dir + "/records.sqlite") == "ok");
    // Room again: everything that was acknowledged is there.
    Store store(dir);
    CHECK(static_cast<std::int64_t>(store.observations().size()) >= done[0]);
    CHECK(static_cast<std::int64_t>(store.observations().size()) <= done[0] + 1);
    std::int64_t finished = 0;
    for (const Attempt& a : store.attempts(std::nullopt)) {
      finished += a.finished ? 1 : 0;
      if (a.finished) CHECK(sha256_of_file(store.journal_path(a)) == a.journal_sha256);
    }
    CHECK(finished >= done[1]);
    CHECK(finished <= done[1] + 1);
    CHECK(verify_records(store).faults.empty());
    const Person kim = *store.person_named("Kim");
    Attempt a;
    a.person = kim.id;
    a.lesson = "never-dry";
    a.mode = "practice";
    a.machine = "hm-45";
    a.started_utc = "2026-11-25T07:00:00Z";
    CHECK_NOTHROW(store.begin_attempt(a));
  }
}
