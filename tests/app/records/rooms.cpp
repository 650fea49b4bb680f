#include "tests/app/records/rooms.h"

#include <doctest/doctest.h>

#include "tests/app/records/server.h"
#include "tests/support/skip.h"

namespace stirbench::records_test {

namespace {

Server& server() {
  static Server one;
  return one;
}

}  // namespace

Room::Room(const std::string& purpose, bool on_server) : folder_(purpose) {
  if (on_server) database_ = server().address(server().new_database());
}

records::StoreOptions Room::options() const {
  return {dir(), database_, cheap_pins(), [clock = now] { return *clock; }};
}

void on_both(const std::function<void(bool on_server)>& work) {
  work(false);
  if (server().ready()) {
    work(true);
  } else if (server().installed()) {
    FAIL_CHECK("the PostgreSQL server that is installed did not come up");
  } else {
    test_support::skip("no PostgreSQL server is installed, tried on SQLite only", "postgresql");
  }
}

records::CertificateText example_certificate() {
  records::CertificateText t;
  t.serial = records::random_uuid();
  t.site = "Tidewater Row";
  t.holder = "Imani Castellanos";
  t.holder_uid = records::random_uuid();
  t.demand_id = "start-alone";
  t.demand_title = "Safe to start alone";
  t.demand_sha256 = records::sha256_hex("demand");
  t.tests_each = 3;
  t.lessons_each = 3;
  t.days_apart = 2;
  t.skills = {"Guards", "Locking out"};
  t.issued_utc = "2026-11-25T08:00:00Z";
  t.until_utc = "2027-11-25T08:00:00Z";
  t.issuer = "Ana Manager";
  t.evidence = {{records::random_uuid(), "guards-stop-it", "00", "2026-11-20T08:00:00Z", true, 0.95,
                 records::sha256_hex("j"), "ff"}};
  t.seen = {{"Locks out", "The left one", "R. Osei", "2026-11-21T08:00:00Z", records::random_uuid()}};
  t.head = {records::random_uuid(), 12, records::sha256_hex("h")};
  return t;
}

records::Attempt run_attempt(records::Store& store, const records::Person& person, const std::string& lesson,
                             const std::string& mode, bool passed, const std::string& started_utc,
                             bool must_missed) {
  records::Attempt a;
  a.person = person.id;
  a.lesson = lesson;
  a.lesson_hash = "0123456789abcdef";
  a.mode = mode;
  a.machine = "hm-45";
  a.started_utc = started_utc;
  a = store.begin_attempt(a);
  {
    records::JournalFile journal(store.journal_path(a));
    journal.write("{\"r\":0,\"kind\":\"header\",\"of\":\"" + a.uid + "\"}\n");
    journal.write("{\"r\":1,\"kind\":\"end\"}\n");
  }
  a.passed = passed;
  a.score_norm = passed ? 0.9 : 0.4;
  a.simulated_s = 300.5;
  a.card_json = must_missed ? R"([{"id":"x","must_pass":true,"met":false}])"
                            : R"([{"id":"x","must_pass":true,"met":true}])";
  a.state_hash = "fedcba9876543210";
  store.finish_attempt(a);
  return *store.attempt(a.id);
}

Managed make_managed(records::Store& store) {
  Managed out;
  out.ana = store.add_person("Ana Manager");
  store.set_own_pin(out.ana.id, "", "739182");
  store.set_role(store.nobody(), out.ana.id, records::Role::manager);
  out.manager = store.sign_in(out.ana.id, "739182");
  return out;
}

}  // namespace stirbench::records_test
