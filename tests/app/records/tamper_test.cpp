#include <doctest/doctest.h>
#include <sqlite3.h>

#include <filesystem>
#include <nlohmann/json.hpp>
#include <random>
#include <sstream>

#include "app/records/archive.h"
#include "app/records/certificate.h"
#include "app/records/verify.h"
#include "tests/app/records/rooms.h"

using namespace stirbench;
using namespace stirbench::records;
using namespace stirbench::records_test;
namespace fs = std::filesystem;

namespace {

// One byte of `text` becomes another.
std::string flipped(std::string text, std::mt19937& random) {
  const std::size_t at = random() % text.size();
  text[at] = static_cast<char>(static_cast<unsigned char>(text[at]) ^ (1U + random() % 255U));
  return text;
}

void run_sql(const std::string& file, const std::string& sql) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(file.c_str(), &db) == SQLITE_OK);
  char* message = nullptr;
  const int result = sqlite3_exec(db, sql.c_str(), nullptr, nullptr, &message);
  INFO((message == nullptr ? "" : message));
  CHECK(result == SQLITE_OK);
  sqlite3_close(db);
}

struct Kept {
  Person kim;
  Attempt attempt;
};

Kept fill(Store& store) {
  const Managed m = make_managed(store);
  store.set_site(m.manager, "Tidewater Row");
  Kept kept;
  kept.kim = store.add_person(m.manager, "Kim", "7");
  kept.attempt = run_attempt(store, kept.kim, "never-dry", "test", true);
  run_attempt(store, kept.kim, "hot-product", "test", false, "2026-11-25T08:00:00Z", true);
  Observation seen;
  seen.person = kept.kim.id;
  seen.task = "Locks out";
  seen.machine = "The left one";
  seen.passed = true;
  store.add_observation(m.manager, seen);
  store.put_demand(m.manager, "start-alone", "{\"id\":\"start-alone\"}");
  CertificateText text = example_certificate();
  text.head = store.head();
  const KeyPair key = site_key(store.data_dir(), true);
  Certificate c{text.serial,
                kept.kim.id,
                0,
                "start-alone",
                text.issued_utc,
                text.until_utc,
                write_certificate(text, key.seed),
                CertificateState::valid,
                "",
                "",
                ""};
  store.add_certificate(m.manager, c);
  back_up(store, m.manager, store.data_dir() + "/../b");
  return kept;
}

}  // namespace

TEST_CASE("certificate: every byte counts; two thousand random changes are all noticed and placed") {
  const KeyPair key = make_key_pair();
  const CertificateText text = example_certificate();
  const std::string file = write_certificate(text, key.seed);
  const CertificateCheck good = check_certificate(file);
  CHECK(good.fault == "");
  CHECK(good.text.holder == text.holder);
  CHECK(good.text.evidence.at(0).score_norm == 0.95);
  CHECK(good.text.seen.at(0).by == "R. Osei");
  CHECK(good.head.count == 12);
  CHECK(good.public_key == key.public_key);
  std::mt19937 random(7);
  int unnoticed = 0;
  for (int i = 0; i < 2000; ++i) {
    const CertificateCheck check = check_certificate(flipped(file, random));
    if (check.fault.empty() || check.place.empty()) ++unnoticed;
  }
  // And each byte once, as the smallest change.
  for (std::size_t at = 0; at < file.size(); ++at) {
    std::string changed = file;
    changed[at] = static_cast<char>(changed[at] ^ 1);
    if (check_certificate(changed).fault.empty()) ++unnoticed;
  }
  CHECK(unnoticed == 0);
  for (const std::string& other :
       {file + "\n", file + file, file.substr(0, file.size() - 1), std::string("\n\n"), std::string()})
    CHECK(check_certificate(other).fault != "");
  CHECK(check_certificate(file.substr(0, file.find('\n') + 1) + "{}\n").place == "line 2");
  std::string renamed = file;
  renamed.replace(renamed.find("Imani"), 5, "Priya");
  CHECK(check_certificate(renamed).place == "line 1");
}

TEST_CASE("the short line of the QR symbol: every byte counts too") {
  const KeyPair key = make_key_pair();
  CertificateText text = example_certificate();
  text.holder = "Imani | Castellanos";
  const std::string line = short_certificate(text, write_certificate(text, key.seed), key.seed);
  CHECK(check_short_certificate(line).fault == "");
  CHECK(check_short_certificate(line).text.holder == "Imani / Castellanos");
  CHECK(line.size() < 1000);
  std::mt19937 random(8);
  int unnoticed = 0;
  for (int i = 0; i < 400; ++i) {
    const std::string changed = flipped(line, random);
    // Blanks at the ends are what a scanner may add.
    if (changed.find_first_not_of(" \t\r\n") != 0 ||
        changed.find_last_not_of(" \t\r\n") + 1 != changed.size())
      continue;
    if (check_short_certificate(changed).fault.empty()) ++unnoticed;
  }
  CHECK(unnoticed == 0);
}

TEST_CASE("journals and archives: random changes are noticed and the file is named") {
  const Room room("tamper", false);
  const auto store = room.open();
  const Kept kept = fill(*store);
  std::mt19937 random(9);
  const std::string journal = store->journal_path(kept.attempt);
  const std::string text = test_support::read_file(journal);
  int unnoticed = 0;
  for (int i = 0; i < 40; ++i) {
    test_support::write_file(journal, flipped(text, random));
    const VerifyResult result = verify_records(*store);
    if (result.faults.size() != 1 || result.faults[0].place != journal) ++unnoticed;
  }
  fs::remove(journal);
  CHECK(verify_records(*store).faults.at(0).what == "the journal is not there");
  test_support::write_file(journal, text);
  CHECK(verify_records(*store).faults.empty());
  const std::string folder = store->data_dir() + "/../b";
  verify_archive(folder);
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file()) continue;
    const std::string file = entry.path().string();
    const std::string bytes = test_support::read_file(file);
    for (int i = 0; i < 60; ++i) {
      test_support::write_file(file, flipped(bytes, random));
      if (!says(error_of([&] { verify_archive(folder); }), entry.path().filename().string())) ++unnoticed;
    }
    test_support::write_file(file, bytes);
  }
  verify_archive(folder);
  CHECK(unnoticed == 0);
}

TEST_CASE("every field of every row: a change by hand is noticed and the row is named") {
  const Room room("fields", false);
  {
    const auto store = room.open();
    fill(*store);
  }
  const std::string file = room.dir() + "/records.sqlite";
  const struct {
    const char* table;
    const char* fields;
    const char* place;
  } rows[] = {
      {"person", "uid name number role pin salt", "person"},
      {"attempt",
       "uid lesson lesson_hash mode machine started_utc card_json journal_file state_hash journal_sha256",
       "attempt"},
      {"observation", "uid task machine note at_utc demand", "observation"},
      {"demand", "text changed_utc", "demand"},
      {"certificate", "uid demand issued_utc until_utc file state changed_utc reason renews", "certificate"},
      {"audit", "entry hash room", "audit"},
  };
  for (const auto& row : rows) {
    std::istringstream fields(row.fields);
    for (std::string field; fields >> field;) {
      const std::string sql = std::string("UPDATE ") + row.table + " SET " + field + " = " + field +
                              " || 'x' WHERE rowid = (SELECT max(rowid) FROM " + row.table + ")";
      CAPTURE(sql);
      const std::string before = test_support::read_file(file);
      run_sql(file, "PRAGMA foreign_keys = OFF; " + sql);
      auto store = room.open();
      const VerifyResult result = verify_records(*store);
      REQUIRE(!result.faults.empty());
      CHECK(says(result.faults[0].place, row.place));
      run_sql(file, "PRAGMA wal_checkpoint(TRUNCATE)");
      store.reset();
      test_support::write_file(file, before);
    }
  }
  for (const char* sql :
       {"UPDATE attempt SET passed = 1 - passed WHERE id = 1",
        "UPDATE attempt SET score_norm = score_norm + 1e-9 WHERE id = 1",
        "UPDATE attempt SET simulated_s = 1 WHERE id = 2", "UPDATE attempt SET finished = 0 WHERE id = 2",
        "UPDATE attempt SET musts_missed = 0 WHERE id = 2", "UPDATE attempt SET person = 1 WHERE id = 2",
        "DELETE FROM attempt WHERE id = 2", "UPDATE observation SET observer = 2",
        "UPDATE observation SET passed = 0", "UPDATE certificate SET person = 1",
        "UPDATE person SET gone = 1 WHERE id = 2", "UPDATE person SET name_key = 'x' WHERE id = 2",
        "DELETE FROM audit WHERE seq = 4", "UPDATE room SET value = 'Elsewhere' WHERE name = 'site'",
        "UPDATE room SET value = 'x' WHERE name = 'room'",
        "DELETE FROM audit WHERE seq = (SELECT max(seq) FROM audit)",
        "INSERT INTO observation SELECT 9, 'u', person, observer, demand, task, machine, passed, note, "
        "at_utc FROM observation"}) {
    CAPTURE(sql);
    const std::string before = test_support::read_file(file);
    run_sql(file, std::string("PRAGMA foreign_keys = OFF; ") + sql);
    auto store = room.open();
    const bool last_entry = std::string(sql).find("max(seq)") != std::string::npos;
    VerifyOptions options;
    // A chain that was only cut at its end shows it against a head that stands on paper.
    const auto manifest = nlohmann::json::parse(test_support::read_file(room.file("b/manifest.json")));
    if (last_entry)
      options.printed = ChainHead{manifest["room"], manifest["head"]["count"], manifest["head"]["hash"]};
    CHECK_FALSE(verify_records(*store, options).faults.empty());
    run_sql(file, "PRAGMA wal_checkpoint(TRUNCATE)");
    store.reset();
    test_support::write_file(file, before);
  }
  const auto store = room.open();
  CHECK(verify_records(*store).faults.empty());
}

TEST_CASE("raw changes in the database file: noticed, or no record is another one") {
  const Room room("raw", false);
  {
    const auto store = room.open();
    fill(*store);
  }
  const std::string file = room.dir() + "/records.sqlite";
  const std::string before = test_support::read_file(file);
  const auto snapshot = [&](Store& store) {
    std::string all;
    for (const Person& p : store.people(true)) all += p.uid + p.name + p.number + std::to_string(p.id);
    for (const Attempt& a : store.attempts(std::nullopt))
      all +=
          a.uid + a.lesson + a.mode + a.card_json + std::to_string(a.score_norm) + std::to_string(a.person);
    for (const Certificate& c : store.certificates()) all += c.file + c.until_utc;
    return all;
  };
  std::string good;
  {
    const auto store = room.open();
    good = snapshot(*store);
  }
  std::mt19937 random(10);
  int noticed = 0;
  int changed_unnoticed = 0;
  for (int i = 0; i < 250; ++i) {
    fs::remove(file + "-wal");
    fs::remove(file + "-shm");
    test_support::write_file(file, flipped(before, random));
    try {
      const auto store = room.open();
      const bool bad = !verify_records(*store).faults.empty();
      if (bad)
        ++noticed;
      else if (snapshot(*store) != good)
        ++changed_unnoticed;
    } catch (const std::exception&) {
      ++noticed;
    }
  }
  CHECK(changed_unnoticed == 0);
  CHECK(noticed > 20);
}
