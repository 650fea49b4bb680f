#pragma once

#include <cstdint>
#include <exception>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "sim_core/training/lesson.h"

// People and attempts in SQL through SOCI (SQLite file by default). WAL, synchronous FULL, one transaction
// per record.
namespace stirbench::records {

struct Person {
  std::int64_t id = 0;
  std::string name;
};

struct Attempt {
  std::int64_t id = 0;
  std::int64_t person = 0;
  std::string lesson;
  std::string lesson_hash;
  std::string mode;  // guided | practice | test
  std::string machine;
  std::string started_utc;  // ISO 8601
  double simulated_s = 0.0;
  bool passed = false;
  double score_norm = 0.0;
  std::string card_json;     // criteria with reasons
  std::string journal_file;  // file name under the store's journal folder
  std::string state_hash;
  bool finished = false;
};

// Raised on any trouble with the database; the text names the file and the way out.
struct StoreError : std::exception {
  std::string text;
  explicit StoreError(std::string t) : text(std::move(t)) {}
  const char* what() const noexcept override { return text.c_str(); }
};

// One open connection; not to be shared between threads. Two programs may have the same store open: each
// waits up to two seconds for the other, then throws. Every call that changes something is one transaction
// and is on the disk when it returns.
class Store {
 public:
  // Opens or creates DIR/records.sqlite and DIR/journals/, migrates. Throws StoreError (unwritable, locked,
  // newer format, not a database). Folders it makes are for the user alone (0700), files too (0600).
  explicit Store(const std::string& data_dir);
  ~Store();
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;

  // By name, without regard to capitals.
  std::vector<Person> people();
  // 1..80 characters of valid UTF-8 without control characters; blanks at the ends are dropped; unique
  // without regard to capitals (A-Z only). StoreError else.
  Person add_person(const std::string& name);

  // Begins an attempt: reserves the journal's name. Finish fills in the score; an attempt never finished
  // stays, marked so. A person who is not known, or an attempt that is not open, is a StoreError.
  Attempt begin_attempt(Attempt attempt);
  void finish_attempt(const Attempt& attempt);
  // Newest first.
  std::vector<Attempt> attempts(std::optional<std::int64_t> person);
  std::optional<Attempt> attempt(std::int64_t id);
  std::string journal_path(const Attempt& attempt) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

// A journal file, written record by record so that a killed program loses at most the last second.
class JournalFile {
 public:
  explicit JournalFile(const std::string& path);  // throws StoreError; refuses to overwrite
  ~JournalFile();
  // One write(2) at once, so a record survives the program's death. On to the disk with fdatasync: at the
  // header and the end record at once, between them at hash records (one each simulated second), but not more
  // often than once a second of the wall clock, so that a run at 300 times real time is not held up by the
  // disk. Throws StoreError on a full disk; the file then ends with the last whole record.
  void write(std::string_view record);
  JournalFile(const JournalFile&) = delete;
  JournalFile& operator=(const JournalFile&) = delete;

 private:
  void sync();

  int fd_ = -1;
  std::string path_;
  std::int64_t length_ = 0;     // bytes of whole records
  std::int64_t synced_ms_ = 0;  // wall clock of the last fdatasync
};

}  // namespace stirbench::records
