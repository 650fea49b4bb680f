#pragma once

#include <cstdint>
#include <exception>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "app/records/access.h"
#include "app/records/hash.h"
#include "sim_core/training/skill_evidence.h"

// People, attempts, what was seen at the machine, certificates, and the chain over all of it, in SQL through
// SOCI: a SQLite file by default (WAL, synchronous FULL), or a PostgreSQL server for many sites. One
// transaction per record.
namespace stirbench::records {

struct Person {
  std::int64_t id = 0;
  std::string name;
  std::string uid;
  std::string number;  // of the house's own list, may be empty
  Role role = Role::learner;
  bool has_pin = false;
  bool gone = false;  // removed: the name is no longer known
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
  std::string uid;
  std::string journal_sha256;  // of the journal when the attempt was finished; empty: none was kept
  int musts_missed = 0;        // must-pass criteria missed
};

// What the table of people against skills needs of an attempt.
struct AttemptBrief {
  std::int64_t id = 0;
  std::int64_t person = 0;
  std::string lesson;
  bool test = false;  // counts for a certificate
  bool whole = true;  // false: practice that went on from a moment of another run; opens no closed series
  std::int64_t started_s = 0;
  bool passed = false;
  int musts_missed = 0;
  bool hinted = false;                       // guided, or hints were asked for in practice
  std::vector<training::SkillMark> marks{};  // empty: kept by an older program
};

// "Seen at the machine": a named person saw a learner do a task on the real machine.
struct Observation {
  std::string uid;
  std::int64_t person = 0;
  std::int64_t observer = 0;
  std::string demand;   // id of the certificate's demand
  std::string task;     // the task as the demand words it
  std::string machine;  // which real machine, as people there call it
  bool passed = false;
  std::string note;
  std::string at_utc;
};

enum class CertificateState : unsigned char { valid, revoked, renewed };
struct Certificate {
  std::string uid;  // serial
  std::int64_t person = 0;
  std::int64_t issuer = 0;
  std::string demand;
  std::string issued_utc;
  std::string until_utc;
  std::string file;  // the signed text (certificate.h); empty when its person was removed
  CertificateState state = CertificateState::valid;
  std::string changed_utc;
  std::string reason;  // of a revocation
  std::string renews;  // serial of the one before
};

struct StoredDemand {
  std::string id;
  std::string text;  // JSON (library::parse_demand)
  std::string changed_utc;
};

// A statement on its way to another system. What was taken there keeps its line without its text.
struct OutboxItem {
  std::string id;    // the statement's own
  std::string text;  // JSON
  int tries = 0;
};
struct OutboxCount {
  std::int64_t queued = 0;
  std::int64_t sent = 0;
  std::int64_t refused = 0;  // by the other side, for good; stays here with its reason
};

struct ChainHead {
  std::string room;
  std::int64_t count = 0;
  std::string hash;
};

// Thrown on any trouble with the database; the text names the file and the remedy.
struct StoreError : std::exception {
  std::string text;
  bool damaged = false;  // what is kept does not verify or cannot be read
  explicit StoreError(std::string t, bool is_damaged = false) : text(std::move(t)), damaged(is_damaged) {}
  const char* what() const noexcept override { return text.c_str(); }
};

struct StoreOptions {
  std::string data_dir;
  // "postgresql://USER@HOST/NAME": records on a server. Empty: what DATA/database says, else
  // DATA/records.sqlite.
  std::string database;
  PinCost pin_cost;
  std::function<std::int64_t()> now_s;  // seconds since 1970, UTC; empty: the system's clock
};

// One open connection; not to be shared between threads. Two programs may have the same store open: each
// waits up to two seconds for the other, then throws. Every call that changes something is one transaction
// with its entry in the audit chain, and is on the disk when it returns.
class Store {
 public:
  // Opens or creates DIR/records.sqlite and DIR/journals/, migrates. Throws StoreError (unwritable, locked,
  // newer format, not a database). Folders it makes are for the user alone (0700), files too (0600).
  explicit Store(const std::string& data_dir);
  explicit Store(const StoreOptions& options);
  ~Store();
  Store(const Store&) = delete;
  Store& operator=(const Store&) = delete;

  // --- people (store_people.cpp) ---
  // Sorted by name, ignoring case; without removed people unless `with_gone`.
  std::vector<Person> people(bool with_gone = false);
  std::optional<Person> person(std::int64_t id);
  std::optional<Person> person_named(const std::string& name);
  // 1..80 characters of valid UTF-8 without control characters; blanks at the ends are dropped; unique
  // without regard to capitals (A-Z only). StoreError else. Without an Access: only while the store has no
  // manager.
  Person add_person(const std::string& name);
  Person add_person(const Access& who, const std::string& name, const std::string& number = "");
  void set_role(const Access& who, std::int64_t person, Role role);
  // A person's own PIN: the first one (only while there are no attempts yet), or by giving the present one.
  void set_own_pin(std::int64_t person, const std::string& present, const std::string& next);
  // A new PIN for another person: recovery by a second manager.
  void reset_pin(const Access& who, std::int64_t person, const std::string& next);
  // Replaces name, number and PIN by nothing that leads back to the person; attempts and chain stay.
  void anonymise(const Access& who, std::int64_t person);

  bool managed();  // there is a manager
  static bool same_name(const std::string& a,
                        const std::string& b);  // without regard to capitals and blanks at the ends
  // Access without signing in: all rights in a store without a manager, none in a managed one.
  Access nobody();
  // Five wrong PINs: a wait that doubles from 30 s to 15 min. StoreError says so; the count outlives the
  // program.
  Access sign_in(std::int64_t person, const std::string& pin);

  // --- attempts (store_attempts.cpp) ---
  // Begins an attempt: reserves the journal's name. Finish fills in the score; an attempt never finished
  // stays, marked so. A person who is not known, or an attempt that is not open, is a StoreError. The
  // journal's hash and the number of missed must-pass items are taken down by finish.
  Attempt begin_attempt(Attempt attempt);
  void finish_attempt(const Attempt& attempt);
  // Newest first. The caller has checked why_not(Right::see_attempts).
  std::vector<Attempt> attempts(std::optional<std::int64_t> person);
  std::optional<Attempt> attempt(std::int64_t id);
  std::vector<AttemptBrief> briefs(
      std::optional<std::int64_t> person = std::nullopt);  // finished ones, oldest first
  std::string journal_path(const Attempt& attempt) const;
  // The journal's text: the file, else what the server keeps of it. StoreError when neither is there.
  std::string journal_text(const Attempt& attempt);

  // --- certificates (store_certificates.cpp) ---
  Observation add_observation(const Access& who, Observation observation);
  std::vector<Observation> observations(std::optional<std::int64_t> person = std::nullopt);  // oldest first
  std::vector<StoredDemand> demands();
  void put_demand(const Access& who, const std::string& id, const std::string& text);
  void add_certificate(const Access& who, const Certificate& certificate);
  void set_certificate_state(const Access& who, const std::string& uid, CertificateState state,
                             const std::string& reason);
  std::vector<Certificate> certificates(std::optional<std::int64_t> person = std::nullopt);  // oldest first
  // --- outbox (store_outbox.cpp): what goes to a record store at `target`, a URL without name and password
  // --- Takes in what was not taken in before for this target, in their order; one transaction.
  void queue(const std::string& target, const std::vector<OutboxItem>& items);
  std::vector<OutboxItem> queued(const std::string& target,
                                 std::size_t most);  // in the order they were taken in
  void sent(const std::string& target, const std::vector<std::string>& ids);
  void not_sent(const std::string& target, const std::vector<std::string>& ids,
                const std::string& why);  // stays queued
  void refused(const std::string& target, const std::vector<std::string>& ids, const std::string& why);
  OutboxCount outbox(const std::string& target);

  // Something done with the records as a whole (an export, a back-up): only an entry in the chain.
  void note(const Access& who, const std::string& event, const std::string& what);

  // --- the chain ---
  ChainHead head();
  std::string site();
  void set_site(const Access& who, const std::string& name);

  std::string data_dir() const;
  std::string place() const;  // the file, or the server without its password
  bool on_server() const;
  std::int64_t now_s() const;
  std::string now_utc() const;

  struct Impl;
  Impl& impl() { return *impl_; }

 private:
  std::unique_ptr<Impl> impl_;
};

// "2026-01-31T07:05:09Z" and back; -1 when it is not such a text.
std::string utc_text(std::int64_t seconds);
std::int64_t utc_seconds(std::string_view text);

// A run whose result may count for a certificate: no hints were shown.
bool counts_for_certificate(std::string_view mode);

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
