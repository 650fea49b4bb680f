#pragma once

#include <string>
#include <vector>

#include "app/records/chain_check.h"
#include "app/records/tables.h"

// An archive as read: checked against its manifest, its chain and its digests.
namespace stirbench::records {

struct ArchiveEntry {
  std::string room;
  std::int64_t seq = 0;
  std::string entry;
  std::string hash;
};
struct ArchiveFile {
  std::string folder;
  std::string room;
  std::string site;
  std::vector<ArchiveEntry> entries;              // by room and number
  std::vector<std::pair<std::string, Row>> rows;  // table name, row; people first
};

// Throws StoreError (damaged) naming the place.
ArchiveFile read_archive(const std::string& folder);

}  // namespace stirbench::records
