#include "app/records/audit.h"

#include "app/records/hash.h"

namespace stirbench::records {

AuditHead audit_head(soci::session& sql, const std::string& room) {
  AuditHead head{room, 0, chain_start};
  long long seq = 0;
  std::string hash;
  sql << "SELECT seq, hash FROM audit WHERE room = :room ORDER BY seq DESC LIMIT 1", soci::use(room),
      soci::into(seq), soci::into(hash);
  if (sql.got_data()) {
    head.count = seq;
    head.hash = hash;
  }
  return head;
}

void append_audit(soci::session& sql, const std::string& room, nlohmann::json entry) {
  const AuditHead head = audit_head(sql, room);
  const long long seq = head.count + 1;
  entry["seq"] = seq;
  const std::string text = entry.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
  const std::string hash = chain_step(head.hash, text);
  sql << "INSERT INTO audit(room, seq, entry, hash) VALUES (:room, :seq, :entry, :hash)", soci::use(room),
      soci::use(seq), soci::use(text), soci::use(hash);
}

}  // namespace stirbench::records
