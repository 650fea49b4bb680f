#pragma once

#include <soci/soci.h>

#include <cstdint>
#include <string>

// The database's shape and its way from version to version.
namespace stirbench::records {

// "Stir" in ASCII: marks the file as ours (SQLite's application_id).
inline constexpr std::int64_t application_id = 0x53746972;
// Newest shape that this program knows (SQLite's user_version).
inline constexpr std::int64_t schema_version = 1;

// Sets the pragmas and reads them back, refuses a foreign or newer file, brings an older one up to date in
// one transaction. Throws StoreError naming `file`; soci's errors pass through.
void prepare_database(soci::session& sql, const std::string& file);

// BEGIN IMMEDIATE ... COMMIT; rolls back when it goes out of scope without commit(). IMMEDIATE, so that a
// second writer is met here and not in the middle.
class Transaction {
 public:
  explicit Transaction(soci::session& sql);
  ~Transaction();
  void commit();
  Transaction(const Transaction&) = delete;
  Transaction& operator=(const Transaction&) = delete;

 private:
  soci::session& sql_;
  bool open_ = true;
};

}  // namespace stirbench::records
