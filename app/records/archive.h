#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/records/store.h"

// Records as a folder: back-up, restore, and the way from one room to another, from SQLite to a server and back.
//   records.jsonl   {"audit":[room,seq,entry,hash]} and {"row":[table,[...]]}, one a line
//   journals/...    the attempts' journals
//   manifest.json   kind, format, room, site, head of the chain, SHA-256 of each file and of itself
// Holds names and PIN hashes: keep it as you keep the records. The site's key is not in it.
namespace stirbench::records {

struct ArchiveReport {
  std::int64_t people = 0;
  std::int64_t attempts = 0;
  std::int64_t others = 0;    // observations, demands, certificates
  std::int64_t journals = 0;
  std::int64_t known = 0;     // merge: was there already
  std::vector<std::string> notes;  // "Kim is kept as Kim (Room 2): ..."
};

// Writes a folder that must not exist yet. Complete when its manifest is there: it is written last.
ArchiveReport back_up(Store& store, const Access& who, const std::string& folder);

// Throws StoreError (damaged) naming the file that is not what the manifest says, or the chain's entry, or the row.
void verify_archive(const std::string& folder);

// Into a store that holds nothing yet; the room's identity and chain go on where they ended.
ArchiveReport restore(Store& store, const std::string& folder);

// Another room's archive into this store, without loss: its people, attempts, journals, certificates and its whole chain. What is
// known already stays; what was finished, revoked or removed there since is brought up to date. Two people with the same name and
// different identities are kept apart, the newcomer under "Name (room)", unless both carry the same number. All or nothing.
ArchiveReport merge(Store& store, const Access& who, const std::string& folder);

}  // namespace stirbench::records
