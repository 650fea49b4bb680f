#include "app/records/store.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstring>
#include <ctime>
#include <filesystem>

#include "app/library/reading/paths.h"
#include "app/records/names.h"
#include "app/records/store_internal.h"

// The entry of SOCI's PostgreSQL part; its header would ask for PostgreSQL's own, which nothing else here
// needs.
extern "C" const soci::backend_factory* factory_postgresql();

namespace stirbench::records {

namespace {

std::string reason_of(int error_number) { return std::strerror(error_number); }

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

bool is_server(const std::string& database) {
  return database.starts_with("postgresql://") || database.starts_with("postgres://");
}

// Without "user:password@", for messages.
std::string without_password(std::string url) {
  const std::size_t start = url.find("://") + 3;
  const std::size_t at = url.rfind('@');
  const std::size_t colon = url.find(':', start);
  if (at != std::string::npos && colon != std::string::npos && colon < at) url.erase(colon, at - colon);
  const std::size_t query = url.find('?');
  return query == std::string::npos ? url : url.substr(0, query);
}

std::string chosen_database(const StoreOptions& options) {
  if (!options.database.empty()) return options.database;
  const std::string file = options.data_dir + "/database";
  if (!std::filesystem::exists(file)) return {};
  std::string url = trimmed(library::read_file(file));
  if (!is_server(url))
    throw StoreError(file + ": expected postgresql://USER@HOST/NAME, found \"" + url + "\".");
  return url;
}

}  // namespace

std::string in_words(int result, const std::string& file, const std::string& detail) {
  switch (result & 0xff) {  // https://www.sqlite.org/rescode.html, low byte
    case 5:                 // SQLITE_BUSY
    case 6:                 // SQLITE_LOCKED
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
    default: return file + ": " + detail;
  }
}

bool means_damage(int result) {
  const int code = result & 0xff;
  return code == 11 || code == 26;  // SQLITE_CORRUPT, SQLITE_NOTADB
}

std::string server_in_words(const soci::soci_error& error, const std::string& place) {
  const std::string detail = error.get_error_message();
  if (error.get_error_category() == soci::soci_error::connection_error)
    return place + " cannot be reached: " + detail +
           " Is the server running, and are name and password right?";
  return place + ": " + detail;
}

void require(const Access& who, Right right, std::int64_t about) {
  const std::string reason = why_not(who, right, about);
  if (!reason.empty()) throw StoreError(reason);
}

std::string utc_text(std::int64_t seconds) {
  const auto time = static_cast<std::time_t>(seconds);
  std::tm utc{};
  gmtime_r(&time, &utc);
  char buffer[40];
  std::strftime(buffer, sizeof buffer, "%Y-%m-%dT%H:%M:%SZ", &utc);
  return buffer;
}

std::int64_t utc_seconds(std::string_view text) {
  std::tm utc{};
  const std::string copy(text);
  const char* end = ::strptime(copy.c_str(), "%Y-%m-%dT%H:%M:%SZ", &utc);
  if (end == nullptr || *end != '\0') return -1;
  return static_cast<std::int64_t>(::timegm(&utc));
}

bool counts_for_certificate(std::string_view mode) { return mode == "test" || mode == "sealed"; }

void Store::Impl::log(const Access& who, const std::string& event, const std::string& table,
                      const std::string& key, nlohmann::json more) {
  more["row"] = table + "/" + key;
  read_rows(sql, table_named(table), key, [&](const Row& row) { more["digest"] = row_digest(row); });
  log_event(who, event, std::move(more));
}

void Store::Impl::log_event(const Access& who, const std::string& event, nlohmann::json more) {
  more["ev"] = event;
  more["by"] = who.uid.empty() ? "nobody" : who.uid;
  more["at"] = utc_text(now_s());
  append_audit(sql, room, std::move(more));
}

long long Store::Impl::person_number(const std::string& uid) {
  long long id = 0;
  sql << "SELECT id FROM person WHERE uid = :uid", soci::use(uid), soci::into(id);
  if (!sql.got_data()) throw StoreError("There is no person " + uid + " in " + file + ".");
  return id;
}

Store::Store(const std::string& data_dir) : Store(StoreOptions{data_dir, "", {}, {}}) {}

Store::Store(const StoreOptions& options) : impl_(std::make_unique<Impl>()) {
  impl_->data_dir = options.data_dir;
  impl_->journals = options.data_dir + "/journals";
  impl_->pin_cost = options.pin_cost;
  impl_->now_s = options.now_s ? options.now_s : [] { return static_cast<std::int64_t>(std::time(nullptr)); };
  make_folder(options.data_dir);
  make_folder(impl_->journals);
  const std::string database = chosen_database(options);
  if (is_server(database)) {
    impl_->engine = Engine::postgresql;
    impl_->file = without_password(database);
  } else {
    impl_->file = options.data_dir + "/records.sqlite";
    make_private_file(impl_->file);
    // The quotes let the path hold blanks; SOCI has no way to write a quote inside.
    if (impl_->file.find('"') != std::string::npos)
      throw StoreError("The data folder's name must not hold a \": " + impl_->file);
  }
  impl_->guarded([&] {
    if (impl_->engine == Engine::postgresql)
      impl_->sql.open(*factory_postgresql(), database);
    else
      impl_->sql.open(soci::sqlite3, "db=\"" + impl_->file + "\"");
    prepare_database(impl_->sql, impl_->engine, impl_->file);
    impl_->sql << "SELECT value FROM room WHERE name = 'room'", soci::into(impl_->room);
  });
}

Store::~Store() = default;

ChainHead Store::head() {
  return impl_->guarded([this] {
    const AuditHead head = audit_head(impl_->sql, impl_->room);
    return ChainHead{head.room, head.count, head.hash};
  });
}

std::string Store::site() {
  return impl_->guarded([this] {
    std::string name;
    impl_->sql << "SELECT value FROM room WHERE name = 'site'", soci::into(name);
    return name;
  });
}

void Store::set_site(const Access& who, const std::string& name) {
  require(who, Right::keep_records);
  const std::string kept = trimmed(name);
  const std::string trouble = why_not_name(kept);
  if (!trouble.empty()) throw StoreError(trouble);
  impl_->changed([&] {
    impl_->sql << "UPDATE room SET value = :value WHERE name = 'site'", soci::use(kept);
    impl_->log_event(who, "site_named", {{"site", kept}});
  });
}

void Store::note(const Access& who, const std::string& event, const std::string& what) {
  impl_->changed([&] { impl_->log_event(who, event, {{"what", what}}); });
}

std::string Store::data_dir() const { return impl_->data_dir; }
std::string Store::place() const { return impl_->file; }
bool Store::on_server() const { return impl_->engine == Engine::postgresql; }
std::int64_t Store::now_s() const { return impl_->now_s(); }
std::string Store::now_utc() const { return utc_text(impl_->now_s()); }

}  // namespace stirbench::records
