#include "app/records/schema.h"

#include <array>
#include <string_view>

#include "app/records/store.h"

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
  if (version > schema_version) {
    throw StoreError(file + " has record format " + std::to_string(version) +
                     "; this program knows formats up to " + std::to_string(schema_version) +
                     ". Use the newer Stirbench, or choose another data folder with --data DIR.");
  }
}

void migrate(soci::session& sql) {
  Transaction transaction(sql);
  // Looked at again inside the transaction: another program may have been faster.
  const std::int64_t version = number_of(sql, "PRAGMA user_version");
  if (version < 1) {
    for (const std::string_view statement : to_version_1) sql << std::string(statement);
  }
  sql << "PRAGMA application_id = " << application_id;
  sql << "PRAGMA user_version = " << schema_version;
  transaction.commit();
}

void expect(bool good, const std::string& file, const std::string& what) {
  if (good) return;
  throw StoreError(file + ": the database does not accept " + what +
                   ". The data folder must be on a local disk; choose another with --data DIR.");
}

}  // namespace

Transaction::Transaction(soci::session& sql) : sql_(sql) {
  sql_ << "BEGIN IMMEDIATE";
}

Transaction::~Transaction() {
  if (!open_) return;
  try {
    sql_ << "ROLLBACK";
  } catch (const soci::soci_error&) {
    // The failed statement has rolled back already, or the connection is gone: SQLite rolls back when it is
    // next opened.
  }
}

void Transaction::commit() {
  sql_ << "COMMIT";
  open_ = false;
}

void prepare_database(soci::session& sql, const std::string& file) {
  sql << "PRAGMA busy_timeout = 2000";
  sql << "PRAGMA foreign_keys = ON";
  refuse_foreign(sql, file);
  // WAL with FULL: the log is on the disk when a commit returns. Builds differ in their defaults, so set and
  // read back.
  const std::string journal_mode = text_of(sql, "PRAGMA journal_mode = WAL");
  sql << "PRAGMA synchronous = FULL";
  expect(journal_mode == "wal", file, "a write-ahead log (found " + journal_mode + ")");
  expect(number_of(sql, "PRAGMA synchronous") == 2, file, "synchronous FULL");
  expect(number_of(sql, "PRAGMA foreign_keys") == 1, file, "foreign keys");
  migrate(sql);
}

}  // namespace stirbench::records
