#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/records/store.h"

// Records as a folder: back-up, restore, transfer from one room to another, and between SQLite and a server.
//   records.jsonl   {"audit":[room,seq,entry,hash]} and {"row":[table,[...]]}, one a line
//   journals/...    the attempts' journals
//   manifest.json   kind, format, room, site, head of the chain, SHA-256 of each file and of itself
// It contains names and PIN hashes: protect it like the records. The site's key is not in it.
namespace stirbench::records {

struct ArchiveReport {
  std::int64_t people = 0;
  std::int64_t attempts = 0;
  std::int64_t others = 0;  // observations, demands, certificates
  std::int64_t journals = 0;
  std::int64_t known = 0;          // merge: was there already
  std::vector<std::string> notes;  // "Kim is kept as Kim (Room 2): ..."
};

// Writes a folder that must not exist yet. The manifest is written last: with it the archive is complete.
ArchiveReport back_up(Store& store, const Access& who, const std::string& folder);

// Throws StoreError (damaged) naming the file that is not what the manifest says, or the chain's entry, or
// the row.
void verify_archive(const std::string& folder);

// Into an empty store; the room's identity and chain continue where they ended.
ArchiveReport restore(Store& store, const std::string& folder);

// Merges another room's archive into this store without loss: its people, attempts, journals, certificates
// and its whole chain. Known rows stay; what was finished, revoked or removed there since is updated. Two
// people with the same name and different identities are kept apart, the newcomer as "Name (room)", unless
// both have the same number. All or nothing.
ArchiveReport merge(Store& store, const Access& who, const std::string& folder);

}  // namespace stirbench::records
