#pragma once

#include <soci/soci.h>

#include <cstdint>
#include <string>

// The database's shape and its way from version to version. The same SQL runs on SQLite and on PostgreSQL;
// where the two have no common word (types, locks, the place of the version), this file and Transaction know
// it.
namespace stirbench::records {

// "Stir" in ASCII: marks the file as ours (SQLite's application_id).
inline constexpr std::int64_t application_id = 0x53746972;
// Newest shape that this program knows (SQLite's user_version, else room.version).
inline constexpr std::int64_t schema_version = 4;

enum class Engine : unsigned char { sqlite, postgresql };

// Sets the pragmas and reads them back, refuses a foreign or newer file, brings an older one up to date in
// one transaction. Throws StoreError naming `place`; soci's errors pass through.
void prepare_database(soci::session& sql, Engine engine, const std::string& place);

// BEGIN IMMEDIATE (SQLite) or BEGIN with the store's lock (PostgreSQL) ... COMMIT; rolls back when it goes
// out of scope without commit(). One writer at a time, so that the chain has one end and a number is given
// once.
class Transaction {
 public:
  Transaction(soci::session& sql, Engine engine);
  ~Transaction();
  void commit();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;

 private:
  soci::session& sql_;
  bool open_ = true;
};

}  // namespace stirbench::records
