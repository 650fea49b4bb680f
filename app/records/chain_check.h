#pragma once

#include <cstdint>
#include <map>
#include <string>

#include "app/records/store.h"

// Walks audit chains entry by entry, from a store or from an archive.
namespace stirbench::records {

class ChainCheck {
 public:
  // Rows are judged by the chain of `own_room`: its newest digest of a row counts.
  explicit ChainCheck(std::string own_room) : own_room_(std::move(own_room)) {}

  // The next entry, in order of room and number. Empty when it fits; else what is wrong.
  std::string see(const std::string& room, std::int64_t seq, const std::string& entry,
                  const std::string& hash);

  // Row "table/key" with its digest: empty when the chain agrees. Each row is checked once.
  std::string judge_row(const std::string& row, const std::string& digest);
  // Rows of the chain that were never checked: they are missing.
  const std::map<std::string, std::string>& unseen() const { return latest_; }

  std::string site() const { return site_; }
  const std::map<std::string, ChainHead>& heads() const { return heads_; }
  // Hash of a room's entry; empty when there is none.
  std::string hash_at(const std::string& room, std::int64_t seq) const;
  std::int64_t entries() const { return entries_; }

 private:
  std::string own_room_;
  std::map<std::string, ChainHead> heads_;
  std::map<std::pair<std::string, std::int64_t>, std::string> hashes_;
  std::map<std::string, std::string> latest_;
  std::string site_;
  std::int64_t entries_ = 0;
};

}  // namespace stirbench::records
