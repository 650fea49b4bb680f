#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "sim_core/training/lesson.h"

// People and attempts in SQL through SOCI (SQLite file by default). WAL, synchronous FULL, one transaction per record.
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
  std::string mode;            // guided | practice | test
  std::string machine;
  std::string started_utc;     // ISO 8601
  double simulated_s = 0.0;
  bool passed = false;
  double score_norm = 0.0;
  std::string card_json;       // criteria with reasons
  std::string journal_file;    // file name under the store's journal folder
  std::string state_hash;
  bool finished = false;
};

// Raised on any trouble with the database; the text names the file and the way out.
struct StoreError : std::exception {
  std::string text;
  explicit StoreError(std::string t) : text(std::move(t)) {}
  const char* what() const noexcept override { return text.c_str(); }
};

class Store {
 public:
  // Opens or creates DIR/records.sqlite and DIR/journals/, migrates. Throws StoreError (unwritable, locked, newer format, not a database).
  explicit Store(const std::string& data_dir);
  ~Store();
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;

  std::vector<Person> people();
  Person add_person(const std::string& name);           // 1..80 characters, unique; StoreError else

  // Begins an attempt: reserves the journal's name. Finish fills in the score; an attempt never finished stays, marked so.
  Attempt begin_attempt(Attempt attempt);
  void finish_attempt(const Attempt& attempt);
  std::vector<Attempt> attempts(std::optional<std::int64_t> person);
  std::optional<Attempt> attempt(std::int64_t id);
  std::string journal_path(const Attempt& attempt) const;

 private:
  struct Impl;
  std::unique_ptr<Impl> impl_;
};

// A journal file, flushed with each record so that a killed program loses at most the last second.
class JournalFile {
 public:
  explicit JournalFile(const std::string& path);   // throws StoreError; refuses to overwrite
  ~JournalFile();
  void write(std::string_view record);             // write(2) at once; fsync each simulated second
  JournalFile(const JournalFile&) = delete;
  JournalFile& operator=(const JournalFile&) = delete;

 private:
  int fd_ = -1;
  std::string path_;
};

}  // namespace stirbench::records
