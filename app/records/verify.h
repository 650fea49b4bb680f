#pragma once

#include <optional>
#include <string>
#include <vector>

#include "app/records/store.h"

// Whether everything that is kept is what was written: database, chains, rows, journals, certificates.
namespace stirbench::records {

struct RecordProblem {
  std::string place;  // "audit ROOM/12", "attempt UID", a journal's file
  std::string what;
};

struct VerifyOptions {
  bool journals = true;              // read each journal's file
  std::optional<ChainHead> printed;  // a head that stands on paper: the chain must still have it
};

struct VerifyResult {
  std::vector<RecordProblem> faults;  // empty: everything agrees
  std::int64_t entries = 0;
  std::int64_t rows = 0;
  std::int64_t journals = 0;
  std::vector<ChainHead> heads;  // of all rooms; the own one first
};

// Reads only. Trouble with the database is a fault too.
VerifyResult verify_records(Store& store, const VerifyOptions& options = {});

}  // namespace stirbench::records
