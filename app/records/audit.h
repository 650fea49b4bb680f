#pragma once

#include <soci/soci.h>

#include <cstdint>
#include <nlohmann/json.hpp>
#include <string>

// The audit log: one entry for each change, each hash over the one before (hash.h). An entry names the row it
// is about and the digest of that row afterwards, who did it (a uid, never a name) and when.
//
// A chain reveals edits, but not that its end was cut off or that it was rewritten as a whole: therefore its
// head (count, hash) is printed on each certificate. A merge copies the other room's chain as it is; the
// newest digest of a row is always in the store's own chain.
namespace stirbench::records {

struct AuditHead {
  std::string room;
  std::int64_t count = 0;
  std::string hash;
};

// Appends inside the caller's transaction. `entry` gets "seq" first.
void append_audit(soci::session& sql, const std::string& room, nlohmann::json entry);

AuditHead audit_head(soci::session& sql, const std::string& room);

}  // namespace stirbench::records
