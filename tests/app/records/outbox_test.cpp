#include <doctest/doctest.h>
#include <sqlite3.h>

#include "app/records/verify.h"
#include "tests/app/records/rooms.h"

using namespace stirbench;
using namespace stirbench::records;
using namespace stirbench::records_test;

TEST_CASE("the outbox: queues once, sends in order, keeps until confirmed; on both engines") {
  on_both([](bool on_server) {
    CAPTURE(on_server);
    const Room room("outbox", on_server);
    const std::string there = "https://store.invalid/xapi";
    {
      const auto store = room.open();
      store->queue(there, {{"c", "{3}", 0}, {"a", "{1}", 0}});
      store->queue(there, {{"a", "{other}", 0}, {"b", "{2}", 0}});
      store->queue("https://elsewhere.invalid", {{"a", "{1}", 0}});
      const std::vector<OutboxItem> first = store->queued(there, 10);
      REQUIRE(first.size() == 3);
      CHECK(first[0].id == "c");
      CHECK(first[1].text == "{1}");
      CHECK(first[2].id == "b");
      CHECK(store->queued(there, 2).size() == 2);
      store->not_sent(there, {"c", "a"}, "it's down: \\ :x '); DROP TABLE outbox;--");
      CHECK(store->queued(there, 10).at(0).tries == 1);
      store->sent(there, {"c"});
      store->refused(there, {"b"}, "400");
    }
    const auto store = room.open();  // another start of the program
    CHECK(store->queued(there, 10).size() == 1);
    const OutboxCount count = store->outbox(there);
    CHECK(count.queued == 1);
    CHECK(count.sent == 1);
    CHECK(count.refused == 1);
    // What is there already, or was refused, is not taken in again.
    store->queue(there, {{"c", "{3}", 0}, {"b", "{2}", 0}});
    CHECK(store->outbox(there).queued == 1);
    CHECK(store->outbox("https://elsewhere.invalid").queued == 1);
    CHECK(verify_records(*store).faults.empty());
  });
}

TEST_CASE("records of the previous version get the outbox and keep their contents") {
  const Room room("outbox-migrate", false);
  std::string head;
  {
    const auto store = room.open();
    const Managed m = make_managed(*store);
    run_attempt(*store, store->add_person(m.manager, "Kim"), "never-dry", "test", true);
    head = store->head().hash;
  }
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open((room.dir() + "/records.sqlite").c_str(), &db) == SQLITE_OK);
  const char* back =
      "DROP TABLE outbox; DROP INDEX attempt_brief; ALTER TABLE attempt DROP COLUMN marks; UPDATE room SET "
      "value = '2' WHERE name = 'version'; "
      "PRAGMA user_version = 2;";
  REQUIRE(sqlite3_exec(db, back, nullptr, nullptr, nullptr) == SQLITE_OK);
  sqlite3_close(db);
  const auto store = room.open();
  CHECK(store->head().hash == head);
  CHECK(store->briefs().size() == 1);
  store->queue("https://store.invalid", {{"a", "{1}", 0}});
  CHECK(store->outbox("https://store.invalid").queued == 1);
  CHECK(verify_records(*store).faults.empty());
}

TEST_CASE("practice that went on from a moment of another run opens no closed series") {
  const Room room("retry", false);
  const auto store = room.open();
  const Person kim = store->add_person("Kim");
  run_attempt(*store, kim, "never-dry", "practice", true);
  run_attempt(*store, kim, "never-dry", "retry", true);
  const std::vector<AttemptBrief> briefs = store->briefs();
  REQUIRE(briefs.size() == 2);
  CHECK(briefs[0].whole != briefs[1].whole);
  for (const AttemptBrief& one : briefs) CHECK_FALSE(one.test);
}
