#include "app/records/store.h"

#include <fcntl.h>
#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <filesystem>

#include "app/records/names.h"
#include "app/records/schema.h"

namespace stirbench::records {

namespace {

std::string reason_of(int error_number) {
  return std::strerror(error_number);
}

void make_folder(const std::string& dir) {
  std::error_code error;
  const std::filesystem::path path(dir);
  if (path.has_parent_path()) std::filesystem::create_directories(path.parent_path(), error);
  if (!error && ::mkdir(dir.c_str(), 0700) != 0 && errno != EEXIST)
    error.assign(errno, std::generic_category());
  if (!error && !std::filesystem::is_directory(path, error) && !error)
    error.assign(ENOTDIR, std::generic_category());
  if (!error && ::access(dir.c_str(), W_OK | X_OK) != 0) error.assign(errno, std::generic_category());
  if (!error) return;
  throw StoreError("The data folder " + dir + " cannot be written: " + error.message() +
                   ". Make it writable, or choose another with --data DIR.");
}

// Made before SQLite opens it, so that it (and the log files, which take over its mode) are for the user
// alone.
void make_private_file(const std::string& file) {
  const int fd = ::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600);
  if (fd < 0) {
    throw StoreError(file + " cannot be opened for writing: " + reason_of(errno) +
                     ". Make it writable, or choose another data folder with --data DIR.");
  }
  ::close(fd);
}

// SQLite's result codes (https://www.sqlite.org/rescode.html), low byte; as sentences with a way out.
std::string in_words(int result, const std::string& file, const std::string& detail) {
  switch (result & 0xff) {
    case 5:  // SQLITE_BUSY
    case 6:  // SQLITE_LOCKED
      return file + " is in use by another program. Close the other one, or wait a moment, and try again.";
    case 8:   // SQLITE_READONLY
    case 14:  // SQLITE_CANTOPEN
      return file + " cannot be written. Make the data folder writable, or choose another with --data DIR.";
    case 10:  // SQLITE_IOERR
      return file + ": the disk reports an error (" + detail +
             "). Check the disk, or choose another data folder with --data DIR.";
    case 11:  // SQLITE_CORRUPT
      return file + " is damaged. Move it away and bring back a copy; a new one is made when there is none.";
    case 13:  // SQLITE_FULL
      return file + ": the disk is full. Make room and try again; what was kept before is safe.";
    case 26:  // SQLITE_NOTADB
      return file + " is not a database. Move it away; a new one is made when there is none.";
    default:
      return file + ": " + detail;
  }
}

// Reads attempts through typed variables: SQLite's columns have no fixed type, so a row read by its column
// types may change with what is stored.
class AttemptReader {
 public:
  // `where` may use :all, :person and :id, in this order.
  AttemptReader(soci::session& sql, const std::string& where, const int& all, const long long& person,
                const long long& id)
      : statement_(
            (sql.prepare
                 << "SELECT id, person, lesson, lesson_hash, mode, machine, started_utc, simulated_s, passed,"
                    " score_norm, card_json, coalesce(journal_file, ''), state_hash, finished FROM attempt " +
                        where,
             soci::use(all), soci::use(person), soci::use(id), soci::into(id_), soci::into(person_),
             soci::into(a_.lesson), soci::into(a_.lesson_hash), soci::into(a_.mode), soci::into(a_.machine),
             soci::into(a_.started_utc), soci::into(a_.simulated_s), soci::into(passed_),
             soci::into(a_.score_norm), soci::into(a_.card_json), soci::into(a_.journal_file),
             soci::into(a_.state_hash), soci::into(finished_))) {
    statement_.execute();
  }

  std::vector<Attempt> all() {
    std::vector<Attempt> list;
    while (statement_.fetch()) {
      a_.id = id_;
      a_.person = person_;
      a_.passed = passed_ != 0;
      a_.finished = finished_ != 0;
      list.push_back(a_);
    }
    return list;
  }

 private:
  Attempt a_;
  long long id_ = 0;
  long long person_ = 0;
  int passed_ = 0;
  int finished_ = 0;
  soci::statement statement_;  // after what it writes into
};

}  // namespace

struct Store::Impl {
  std::string file;
  std::string journals;
  soci::session sql;

  // Runs `work` and turns the database's errors into StoreErrors.
  template <class Work>
  auto guarded(Work&& work) {
    try {
      return work();
    } catch (const soci::sqlite3_soci_error& error) {
      throw StoreError(in_words(error.result(), file, error.get_error_message()));
    } catch (const soci::soci_error& error) {
      throw StoreError(file + ": " + error.get_error_message());
    }
  }

  std::string free_journal_name(std::int64_t id, const std::string& lesson) const {
    const std::string stem = journal_stem(id, lesson);
    std::string name = stem + ".journal";
    // A file from an older, lost database must not be overwritten.
    for (int again = 2; std::filesystem::exists(journals + "/" + name); ++again)
      name = stem + "-" + std::to_string(again) + ".journal";
    return name;
  }
};

Store::Store(const std::string& data_dir) : impl_(std::make_unique<Impl>()) {
  impl_->file = data_dir + "/records.sqlite";
  impl_->journals = data_dir + "/journals";
  make_folder(data_dir);
  make_folder(impl_->journals);
  make_private_file(impl_->file);
  impl_->guarded([this] {
    // The quotes let the path hold blanks; SOCI has no way to write a quote inside.
    if (impl_->file.find('"') != std::string::npos)
      throw StoreError("The data folder's name must not hold a \": " + impl_->file);
    impl_->sql.open(soci::sqlite3, "db=\"" + impl_->file + "\"");
    prepare_database(impl_->sql, impl_->file);
  });
}

Store::~Store() = default;

std::vector<Person> Store::people() {
  return impl_->guarded([this] {
    std::vector<Person> list;
    long long id = 0;
    std::string name;
    soci::statement statement =
        (impl_->sql.prepare << "SELECT id, name FROM person ORDER BY name COLLATE NOCASE", soci::into(id),
         soci::into(name));
    statement.execute();
    while (statement.fetch()) list.push_back({id, name});
    return list;
  });
}

Person Store::add_person(const std::string& name) {
  Person person;
  person.name = trimmed(name);
  const std::string trouble = why_not_name(person.name);
  if (!trouble.empty()) throw StoreError(trouble);
  impl_->guarded([&] {
    Transaction transaction(impl_->sql);
    int known = 0;
    impl_->sql << "SELECT count(*) FROM person WHERE name = :name", soci::use(person.name), soci::into(known);
    if (known != 0)
      throw StoreError("There is already somebody with the name \"" + person.name +
                       "\". Choose that entry, or add a letter.");
    impl_->sql << "INSERT INTO person(name) VALUES (:name)", soci::use(person.name);
    long long id = 0;
    impl_->sql << "SELECT last_insert_rowid()", soci::into(id);
    person.id = id;
    transaction.commit();
  });
  return person;
}

Attempt Store::begin_attempt(Attempt a) {
  return impl_->guarded([&] {
    Transaction transaction(impl_->sql);
    const long long person = a.person;
    int known = 0;
    impl_->sql << "SELECT count(*) FROM person WHERE id = :id", soci::use(person), soci::into(known);
    if (known == 0)
      throw StoreError("There is no person " + std::to_string(a.person) + " in " + impl_->file + ".");
    impl_->sql << "INSERT INTO attempt(person, lesson, lesson_hash, mode, machine, started_utc)"
                  " VALUES (:person, :lesson, :hash, :mode, :machine, :started)",
        soci::use(person), soci::use(a.lesson), soci::use(a.lesson_hash), soci::use(a.mode),
        soci::use(a.machine), soci::use(a.started_utc);
    long long id = 0;
    impl_->sql << "SELECT last_insert_rowid()", soci::into(id);
    a.id = id;
    a.journal_file = impl_->free_journal_name(a.id, a.lesson);
    a.finished = false;
    impl_->sql << "UPDATE attempt SET journal_file = :file WHERE id = :id", soci::use(a.journal_file),
        soci::use(id);
    transaction.commit();
    return a;
  });
}

void Store::finish_attempt(const Attempt& a) {
  if (!(a.score_norm >= 0.0 && a.score_norm <= 1.0)) {
    throw StoreError("score_norm: expected 0 .. 1, found " + std::to_string(a.score_norm));
  }
  impl_->guarded([&] {
    Transaction transaction(impl_->sql);
    const long long id = a.id;
    const int passed = a.passed ? 1 : 0;
    soci::statement update =
        (impl_->sql.prepare
             << "UPDATE attempt SET simulated_s = :s, passed = :p, score_norm = :n, card_json = :c,"
                " state_hash = :h, finished = 1 WHERE id = :id AND finished = 0",
         soci::use(a.simulated_s), soci::use(passed), soci::use(a.score_norm), soci::use(a.card_json),
         soci::use(a.state_hash), soci::use(id));
    update.execute(true);
    if (update.get_affected_rows() != 1) {
      throw StoreError("Attempt " + std::to_string(a.id) + " is not open in " + impl_->file +
                       "; a finished attempt is not changed.");
    }
    transaction.commit();
  });
}

std::vector<Attempt> Store::attempts(std::optional<std::int64_t> person) {
  return impl_->guarded([&] {
    const int everybody = person ? 0 : 1;
    const long long wanted = person.value_or(0);
    const long long any_id = 0;
    return AttemptReader(impl_->sql, "WHERE (:all = 1 OR person = :person) AND id > :id ORDER BY id DESC",
                         everybody, wanted, any_id)
        .all();
  });
}

std::optional<Attempt> Store::attempt(std::int64_t id) {
  return impl_->guarded([&]() -> std::optional<Attempt> {
    const int everybody = 1;
    const long long anybody = 0;
    const long long wanted = id;
    std::vector<Attempt> found =
        AttemptReader(impl_->sql, "WHERE (:all = 1 OR person = :person) AND id = :id", everybody, anybody,
                      wanted)
            .all();
    if (found.empty()) return std::nullopt;
    return found.front();
  });
}

std::string Store::journal_path(const Attempt& attempt) const {
  return impl_->journals + "/" + attempt.journal_file;
}

}  // namespace stirbench::records
