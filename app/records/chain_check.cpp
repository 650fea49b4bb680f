#include "app/records/chain_check.h"

#include <nlohmann/json.hpp>

namespace stirbench::records {

std::string ChainCheck::see(const std::string& room, std::int64_t seq, const std::string& entry,
                            const std::string& hash) {
  ++entries_;
  ChainHead& head = heads_[room];
  if (head.room.empty()) head = {room, 0, chain_start};
  const std::int64_t expected = head.count + 1;
  const std::string before = head.hash;
  head.count = seq;
  head.hash = hash;
  hashes_[{room, seq}] = hash;
  if (seq != expected)
    return "expected entry " + std::to_string(expected) + ", found entry " + std::to_string(seq);
  if (chain_step(before, entry) != hash) return "the hash does not follow from the entry and the one before";
  const nlohmann::json json = nlohmann::json::parse(entry, nullptr, false);
  if (!json.is_object() || json.value("seq", std::int64_t{0}) != seq)
    return "the entry is not what the program writes";
  if (room != own_room_) return {};
  if (json.contains("row")) latest_[json.value("row", "")] = json.value("digest", "");
  if (json.value("ev", "") == "site_named") site_ = json.value("site", "");
  return {};
}

std::string ChainCheck::judge_row(const std::string& row, const std::string& digest) {
  const auto found = latest_.find(row);
  if (found == latest_.end()) return "the chain knows nothing of this row";
  const bool same = found->second == digest;
  latest_.erase(found);
  return same ? "" : "the row is not what the chain says it was when it was last changed";
}

std::string ChainCheck::hash_at(const std::string& room, std::int64_t seq) const {
  const auto found = hashes_.find({room, seq});
  return found == hashes_.end() ? "" : found->second;
}

}  // namespace stirbench::records
