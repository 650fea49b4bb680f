#include "app/records/database_schema.h"

#include <array>
#include <string_view>
#include <utility>
#include <vector>

#include "app/records/audit.h"
#include "app/records/hash.h"
#include "app/records/names.h"
#include "app/records/store.h"
#include "app/records/tables.h"

namespace stirbench::records {

namespace {

// Statements that lead from version i to i + 1. Never edit one that was released: add the next.
constexpr std::array<std::string_view, 4> to_version_1{
    "CREATE TABLE person ("
    " id INTEGER PRIMARY KEY,"
    " name TEXT NOT NULL COLLATE NOCASE UNIQUE CHECK (length(name) BETWEEN 1 AND 80))",
    "CREATE TABLE attempt ("
    " id INTEGER PRIMARY KEY AUTOINCREMENT,"
    " person INTEGER NOT NULL REFERENCES person(id),"
    " lesson TEXT NOT NULL,"
    " lesson_hash TEXT NOT NULL,"
    " mode TEXT NOT NULL,"
    " machine TEXT NOT NULL,"
    " started_utc TEXT NOT NULL,"
    " simulated_s REAL NOT NULL DEFAULT 0,"
    " passed INTEGER NOT NULL DEFAULT 0 CHECK (passed IN (0, 1)),"
    " score_norm REAL NOT NULL DEFAULT 0 CHECK (score_norm BETWEEN 0 AND 1),"
    " card_json TEXT NOT NULL DEFAULT '',"
    " journal_file TEXT UNIQUE,"
    " state_hash TEXT NOT NULL DEFAULT '',"
    " finished INTEGER NOT NULL DEFAULT 0 CHECK (finished IN (0, 1)))",
    "CREATE INDEX attempt_by_person ON attempt(person, id)",
    "CREATE INDEX attempt_by_lesson ON attempt(lesson, id)",
};

// Identities that hold across files, roles and PINs, what was seen at the machine, demands, certificates, the
// audit chain.
constexpr std::array<std::string_view, 20> to_version_2{
    "ALTER TABLE person ADD COLUMN uid TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE person ADD COLUMN name_key TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE person ADD COLUMN number TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE person ADD COLUMN role TEXT NOT NULL DEFAULT 'learner'",
    "ALTER TABLE person ADD COLUMN pin TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE person ADD COLUMN pin_fails INTEGER NOT NULL DEFAULT 0",
    "ALTER TABLE person ADD COLUMN pin_wait_s INTEGER NOT NULL DEFAULT 0",
    "ALTER TABLE person ADD COLUMN salt TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE person ADD COLUMN gone INTEGER NOT NULL DEFAULT 0",
    "ALTER TABLE attempt ADD COLUMN uid TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE attempt ADD COLUMN journal_sha256 TEXT NOT NULL DEFAULT ''",
    "ALTER TABLE attempt ADD COLUMN musts_missed INTEGER NOT NULL DEFAULT 0",
    "CREATE TABLE room (name TEXT PRIMARY KEY, value TEXT NOT NULL)",
    "CREATE TABLE audit (room TEXT NOT NULL, seq INTEGER NOT NULL, entry TEXT NOT NULL, hash TEXT NOT NULL,"
    " PRIMARY KEY (room, seq))",
    "CREATE TABLE observation (id INTEGER PRIMARY KEY, uid TEXT NOT NULL UNIQUE,"
    " person INTEGER NOT NULL REFERENCES person(id), observer INTEGER NOT NULL REFERENCES person(id),"
    " demand TEXT NOT NULL, task TEXT NOT NULL, machine TEXT NOT NULL, passed INTEGER NOT NULL, note TEXT "
    "NOT NULL,"
    " at_utc TEXT NOT NULL)",
    "CREATE TABLE demand (id TEXT PRIMARY KEY, text TEXT NOT NULL, changed_utc TEXT NOT NULL)",
    "CREATE TABLE certificate (id INTEGER PRIMARY KEY, uid TEXT NOT NULL UNIQUE,"
    " person INTEGER NOT NULL REFERENCES person(id), issuer INTEGER NOT NULL REFERENCES person(id),"
    " demand TEXT NOT NULL, issued_utc TEXT NOT NULL, until_utc TEXT NOT NULL, file TEXT NOT NULL,"
    " state TEXT NOT NULL, changed_utc TEXT NOT NULL, reason TEXT NOT NULL, renews TEXT NOT NULL)",
    "CREATE TABLE journal (attempt TEXT PRIMARY KEY, text TEXT NOT NULL)",
    "CREATE INDEX observation_by_person ON observation(person, id)",
    "CREATE INDEX certificate_by_person ON certificate(person, id)",
};

// After the rows of an older file have got their identities.
constexpr std::array<std::string_view, 3> close_version_2{
    "CREATE UNIQUE INDEX person_by_uid ON person(uid)",
    "CREATE UNIQUE INDEX person_by_key ON person(name_key)",
    "CREATE UNIQUE INDEX attempt_by_uid ON attempt(uid)",
};

// Statements on their way to a record store (app/reports/push.h), and what the table of everybody reads,
// without the score cards.
constexpr std::array<std::string_view, 3> to_version_3{
    "CREATE TABLE outbox (id TEXT NOT NULL, target TEXT NOT NULL, text TEXT NOT NULL, state TEXT NOT NULL,"
    " seq INTEGER NOT NULL, tries INTEGER NOT NULL, changed_utc TEXT NOT NULL, note TEXT NOT NULL, PRIMARY "
    "KEY (id, target))",
    "CREATE INDEX outbox_by_state ON outbox(target, state)",
    "CREATE INDEX attempt_brief ON attempt(started_utc, id, person, lesson, mode, passed, musts_missed, "
    "finished)",
};

// What each attempt says of each skill, from its score card (marks.h): derived, so not in the chain.
constexpr std::array<std::string_view, 3> to_version_4{
    "ALTER TABLE attempt ADD COLUMN marks TEXT NOT NULL DEFAULT ''",
    "DROP INDEX attempt_brief",
    "CREATE INDEX attempt_brief ON attempt(started_utc, id, person, lesson, mode, passed, musts_missed, "
    "finished, marks)",
};

// SQLite's types and words in PostgreSQL's; numbers are given by us, so nothing counts up by itself.
std::string in_dialect(Engine engine, std::string statement) {
  if (engine == Engine::sqlite) return statement;
  static const std::vector<std::pair<std::string, std::string>> words = {{" COLLATE NOCASE", ""},
                                                                         {" AUTOINCREMENT", ""},
                                                                         {" INTEGER ", " BIGINT "},
                                                                         {" REAL ", " DOUBLE PRECISION "}};
  for (const auto& [from, to] : words) {
    for (std::size_t at = statement.find(from); at != std::string::npos;
         at = statement.find(from, at + to.size()))
      statement.replace(at, from.size(), to);
  }
  return statement;
}

std::int64_t number_of(soci::session& sql, const std::string& query) {
  long long value = 0;
  sql << query, soci::into(value);
  return value;
}

std::string text_of(soci::session& sql, const std::string& query) {
  std::string value;
  sql << query, soci::into(value);
  return value;
}

void refuse_newer(std::int64_t version, const std::string& place) {
  if (version <= schema_version) return;
  throw StoreError(place + " has record format " + std::to_string(version) +
                   "; this program knows formats up to " + std::to_string(schema_version) +
                   ". Use the newer Stirbench, or choose another data folder with --data DIR.");
}

void refuse_foreign(soci::session& sql, const std::string& file) {
  const std::int64_t owner = number_of(sql, "PRAGMA application_id");
  const std::int64_t version = number_of(sql, "PRAGMA user_version");
  const std::int64_t tables = number_of(sql, "SELECT count(*) FROM sqlite_master");
  const bool empty = tables == 0 && version == 0;
  if (owner != application_id && !(owner == 0 && empty)) {
    throw StoreError(
        file +
        " is a database of another program. Move it away, or choose another data folder with --data DIR.");
  }
  refuse_newer(version, file);
}

std::int64_t version_of(soci::session& sql, Engine engine, const std::string& place) {
  if (engine == Engine::sqlite) return number_of(sql, "PRAGMA user_version");
  const auto tables =
      number_of(sql, "SELECT count(*) FROM information_schema.tables WHERE table_schema = current_schema()");
  if (tables == 0) return 0;
  const auto ours =
      number_of(sql,
                "SELECT count(*) FROM information_schema.tables WHERE table_schema = current_schema()"
                " AND table_name IN ('room', 'audit', 'attempt', 'person')");
  if (ours != 4)
    throw StoreError(place + " holds tables of another program. Give Stirbench a database of its own.");
  const std::int64_t version =
      std::stoll("0" + text_of(sql, "SELECT value FROM room WHERE name = 'version'"));
  refuse_newer(version, place);
  return version;
}

// Identities for what an older file holds.
void identify_rows(soci::session& sql) {
  std::vector<std::pair<long long, std::string>> people;
  std::vector<long long> attempts;
  {
    long long id = 0;
    std::string name;
    soci::statement each =
        (sql.prepare << "SELECT id, name FROM person ORDER BY id", soci::into(id), soci::into(name));
    each.execute();
    while (each.fetch()) people.emplace_back(id, name);
    soci::statement runs = (sql.prepare << "SELECT id FROM attempt ORDER BY id", soci::into(id));
    runs.execute();
    while (runs.fetch()) attempts.push_back(id);
  }
  for (const auto& [id, name] : people) {
    const std::string uid = random_uuid();
    const std::string key = name_key(name);
    const std::string salt = random_hex(16);
    sql << "UPDATE person SET uid = :uid, name_key = :key, salt = :salt WHERE id = :id", soci::use(uid),
        soci::use(key), soci::use(salt), soci::use(id);
  }
  for (const long long id : attempts) {
    const std::string uid = random_uuid();
    sql << "UPDATE attempt SET uid = :uid WHERE id = :id", soci::use(uid), soci::use(id);
  }
}

void put(soci::session& sql, const std::string& name, const std::string& value) {
  sql << "INSERT INTO room(name, value) VALUES (:name, :value)", soci::use(name), soci::use(value);
}

// What was kept before the chain began is taken into it as it is found.
void begin_chain(soci::session& sql) {
  const std::string room = random_uuid();
  put(sql, "room", room);
  put(sql, "site", "");
  put(sql, "version", std::to_string(schema_version));
  append_audit(sql, room, {{"ev", "opened"}});
  for (const Table& table : tables()) {
    std::vector<std::pair<std::string, std::string>> rows;
    read_rows(sql, table, "",
              [&](const Row& row) { rows.emplace_back(row[0].get<std::string>(), row_digest(row)); });
    for (const auto& [key, digest] : rows)
      append_audit(sql, room, {{"ev", "taken_over"}, {"row", table.name + "/" + key}, {"digest", digest}});
  }
}

void migrate(soci::session& sql, Engine engine, const std::string& place) {
  Transaction transaction(sql, engine);
  // Looked at inside the transaction: another program may have been faster.
  const std::int64_t version = version_of(sql, engine, place);
  if (version == schema_version) return;
  if (version < 1) {
    for (const std::string_view statement : to_version_1) sql << in_dialect(engine, std::string(statement));
  }
  if (version < 2) {
    for (const std::string_view statement : to_version_2) sql << in_dialect(engine, std::string(statement));
    identify_rows(sql);
    for (const std::string_view statement : close_version_2)
      sql << in_dialect(engine, std::string(statement));
    begin_chain(sql);
  }
  if (version < 3) {
    for (const std::string_view statement : to_version_3) sql << in_dialect(engine, std::string(statement));
  }
  if (version < 4) {
    for (const std::string_view statement : to_version_4) sql << in_dialect(engine, std::string(statement));
    const std::string now = std::to_string(schema_version);
    sql << "UPDATE room SET value = :now WHERE name = 'version'", soci::use(now);
  }
  if (engine == Engine::sqlite) {
    sql << "PRAGMA application_id = " << application_id;
    sql << "PRAGMA user_version = " << schema_version;
  }
  transaction.commit();
}

void expect(bool good, const std::string& file, const std::string& what) {
  if (good) return;
  throw StoreError(file + ": the database does not accept " + what +
                   ". The data folder must be on a local disk; choose another with --data DIR.");
}

}  // namespace

Transaction::Transaction(soci::session& sql, Engine engine) : sql_(sql) {
  if (engine == Engine::sqlite) {
    sql_ << "BEGIN IMMEDIATE";
    return;
  }
  sql_ << "BEGIN";
  try {
    sql_ << "SELECT pg_advisory_xact_lock(" << application_id << ")";
  } catch (...) {
    sql_ << "ROLLBACK";
    throw;
  }
}

Transaction::~Transaction() {
  if (!open_) return;
  try {
    sql_ << "ROLLBACK";
  } catch (const soci::soci_error&) {
    // The failed statement has rolled back already, or the connection is gone: the database rolls back by
    // itself.
  }
}

void Transaction::commit() {
  sql_ << "COMMIT";
  open_ = false;
}

void prepare_database(soci::session& sql, Engine engine, const std::string& place) {
  if (engine == Engine::postgresql) {
    sql << "SET client_min_messages = warning";
    sql << "SET lock_timeout = '10s'";
    sql << "SET synchronous_commit = on";
    if (version_of(sql, engine, place) != schema_version) migrate(sql, engine, place);
    return;
  }
  sql << "PRAGMA busy_timeout = 2000";
  sql << "PRAGMA foreign_keys = ON";
  // What is removed is overwritten, so that a removed name is not left in a free page.
  sql << "PRAGMA secure_delete = ON";
  refuse_foreign(sql, place);
  // WAL with FULL: the log is on the disk when a commit returns. Builds differ in their defaults, so set and
  // read back.
  const std::string journal_mode = text_of(sql, "PRAGMA journal_mode = WAL");
  sql << "PRAGMA synchronous = FULL";
  expect(journal_mode == "wal", place, "a write-ahead log (found " + journal_mode + ")");
  expect(number_of(sql, "PRAGMA synchronous") == 2, place, "synchronous FULL");
  expect(number_of(sql, "PRAGMA foreign_keys") == 1, place, "foreign keys");
  if (version_of(sql, engine, place) != schema_version) migrate(sql, engine, place);
}

}  // namespace stirbench::records
