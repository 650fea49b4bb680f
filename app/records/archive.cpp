#include "app/records/archive.h"

#include <sys/stat.h>

#include <filesystem>
#include <set>

#include "app/library/reading/paths.h"
#include "app/records/archive_file.h"
#include "app/records/names.h"
#include "app/records/store_internal.h"

namespace stirbench::records {

namespace {

namespace fs = std::filesystem;
using Json = nlohmann::json;

// Columns of the rows, as tables.cpp lists them.
constexpr std::size_t person_name = 1, person_number = 2, person_gone = 6;
constexpr std::size_t attempt_file = 11, attempt_finished = 13, attempt_sha = 14;

void write_or_throw(const std::string& file, const std::string& text) {
  const std::string failed = library::write_atomically(file, text);
  if (!failed.empty()) throw StoreError(failed);
  ::chmod(file.c_str(), 0600);
}

void count(ArchiveReport& report, const std::string& table) {
  if (table == "person")
    ++report.people;
  else if (table == "attempt")
    ++report.attempts;
  else
    ++report.others;
}

std::string dump(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

void put_entry(soci::session& sql, const ArchiveEntry& e) {
  const long long seq = e.seq;
  sql << "INSERT INTO audit(room, seq, entry, hash) VALUES (:room, :seq, :entry, :hash)", soci::use(e.room),
      soci::use(seq), soci::use(e.entry), soci::use(e.hash);
}

// A journal of the archive into this store: file and, on a server, text.
void bring_journal(Store::Impl& impl, const std::string& folder, const std::string& from,
                   const std::string& to, const std::string& uid, const std::string& sha) {
  const std::string source = folder + "/journals/" + from;
  if (sha256_of_file(source) != sha)
    throw StoreError(source + ": the journal is not the one that was kept", true);
  const std::string text = library::read_file(source);
  write_or_throw(impl.journals + "/" + to, text);
  if (impl.engine != Engine::postgresql) return;
  impl.sql << "DELETE FROM journal WHERE attempt = :uid", soci::use(uid);
  impl.sql << "INSERT INTO journal(attempt, text) VALUES (:uid, :text)", soci::use(uid), soci::use(text);
}

}  // namespace

ArchiveReport back_up(Store& store, const Access& who, const std::string& folder) {
  require(who, Right::keep_records);
  store.note(who, "backed_up", "");
  Store::Impl& impl = store.impl();
  std::error_code error;
  if (fs::exists(folder, error))
    throw StoreError(folder + " exists already and is not overwritten. Choose another name.");
  fs::create_directories(folder + "/journals", error);
  if (error) throw StoreError(folder + " cannot be made: " + error.message() + ".");
  ::chmod(folder.c_str(), 0700);
  ArchiveReport report;
  Json manifest = {{"kind", "stirbench archive"},
                   {"format", 1},
                   {"room", impl.room},
                   {"site", store.site()},
                   {"files", Json::object()}};
  std::string text;
  // One transaction, so that chain and rows belong to the same moment.
  impl.changed([&] {
    const AuditHead head = audit_head(impl.sql, impl.room);
    manifest["head"] = {{"count", head.count}, {"hash", head.hash}};
    std::string room, entry, hash;
    long long seq = 0;
    soci::statement each = (impl.sql.prepare << "SELECT room, seq, entry, hash FROM audit ORDER BY room, seq",
                            soci::into(room), soci::into(seq), soci::into(entry), soci::into(hash));
    each.execute();
    while (each.fetch()) text += dump({{"audit", Json::array({room, seq, entry, hash})}}) + "\n";
    for (const Table& table : tables()) {
      read_rows(impl.sql, table, "", [&](const Row& row) {
        text += dump({{"row", Json::array({table.name, row})}}) + "\n";
        count(report, table.name);
      });
    }
  });
  for (const Attempt& one : store.attempts(std::nullopt)) {
    if (one.journal_sha256.empty()) continue;
    const std::string journal = store.journal_text(one);
    if (sha256_hex(journal) != one.journal_sha256)
      throw StoreError(store.journal_path(one) +
                           ": the journal is not the one that was kept. Bring it back first; see stirbench "
                           "records verify.",
                       true);
    const std::string name = "journals/" + one.journal_file;
    write_or_throw(folder + "/" + name, journal);
    manifest["files"][name] = one.journal_sha256;
    ++report.journals;
  }
  write_or_throw(folder + "/records.jsonl", text);
  manifest["files"]["records.jsonl"] = sha256_hex(text);
  manifest["sha256"] = sha256_hex(manifest.dump(2));
  write_or_throw(folder + "/manifest.json", manifest.dump(2) + "\n");
  return report;
}

ArchiveReport restore(Store& store, const std::string& folder) {
  const ArchiveFile archive = read_archive(folder);
  Store::Impl& impl = store.impl();
  ArchiveReport report;
  impl.changed([&] {
    long long kept = 0;
    impl.sql << "SELECT (SELECT count(*) FROM person) + (SELECT count(*) FROM audit WHERE seq > 1)",
        soci::into(kept);
    if (kept != 0)
      throw StoreError(impl.file + " holds records already. Restore into an empty data folder, or merge.");
    impl.sql << "DELETE FROM audit";
    impl.sql << "UPDATE room SET value = :room WHERE name = 'room'", soci::use(archive.room);
    impl.sql << "UPDATE room SET value = :site WHERE name = 'site'", soci::use(archive.site);
    for (const ArchiveEntry& entry : archive.entries) put_entry(impl.sql, entry);
    for (const auto& [table, row] : archive.rows) {
      insert_row(impl.sql, table_named(table), row,
                 [&impl](const std::string& uid) { return impl.person_number(uid); });
      count(report, table);
      if (table != "attempt" || row[attempt_sha].get<std::string>().empty()) continue;
      const std::string name = row[attempt_file].get<std::string>();
      bring_journal(impl, folder, name, name, row[0].get<std::string>(), row[attempt_sha].get<std::string>());
      ++report.journals;
    }
    impl.room = archive.room;
    impl.log_event(Access{}, "restored");
  });
  return report;
}

namespace {

class Merger {
 public:
  Merger(Store& store, const Access& who, const ArchiveFile& archive)
      : impl_(store.impl()),
        who_(who),
        archive_(archive),
        label_(archive.site.empty() ? archive.room.substr(0, 8) : archive.site) {}

  ArchiveReport run() {
    take_chains();
    for (const auto& [table, row] : archive_.rows) {
      if (table == "person")
        take_person(row);
      else if (table == "demand")
        take_demand(row);
      else
        take_row(table, row);
    }
    impl_.log_event(who_, "merged", {{"room", archive_.room}, {"entries", archive_.entries.size()}});
    return report_;
  }

 private:
  // What is there already must be the same; what is new goes on from it.
  void take_chains() {
    for (const ArchiveEntry& e : archive_.entries) {
      std::string hash;
      const long long seq = e.seq;
      impl_.sql << "SELECT hash FROM audit WHERE room = :room AND seq = :seq", soci::use(e.room),
          soci::use(seq), soci::into(hash);
      const bool there = impl_.sql.got_data();
      if (there && hash != e.hash)
        throw StoreError(
            "audit " + e.room + "/" + std::to_string(e.seq) +
                ": the archive's chain is another one than the chain kept here. Nothing was merged.",
            true);
      if (there) continue;
      if (e.room == impl_.room)
        throw StoreError("audit " + e.room + "/" + std::to_string(e.seq) +
                         ": the archive is newer than these records, from which it came. Restore it instead; "
                         "nothing was merged.");
      put_entry(impl_.sql, e);
    }
  }

  std::optional<Row> row_of(const std::string& table, const std::string& key) {
    std::optional<Row> found;
    read_rows(impl_.sql, table_named(table), key, [&](const Row& row) { found = row; });
    return found;
  }

  std::string person_with(const std::string& column, const std::string& value) {
    std::string uid;
    impl_.sql << "SELECT uid FROM person WHERE gone = 0 AND " + column + " = :value", soci::use(value),
        soci::into(uid);
    return impl_.sql.got_data() ? uid : "";
  }

  void take_person(Row row) {
    const std::string uid = row[0].get<std::string>();
    if (const std::optional<Row> here = row_of("person", uid)) {
      if (row[person_gone] == 1 && (*here)[person_gone] == 0)
        remove_person(uid, row);
      else
        ++report_.known;
      return;
    }
    const std::string number = row[person_number].get<std::string>();
    const std::string same = number.empty() ? "" : person_with("number", number);
    if (!same.empty()) {
      same_as_[uid] = same;
      report_.notes.push_back(row[person_name].get<std::string>() + ": number " + number +
                              " is here already; the attempts are kept under that person.");
      ++report_.known;
      return;
    }
    const std::string name = row[person_name].get<std::string>();
    std::string free = name;
    for (int again = 1; !person_with_key(free).empty(); ++again)
      free = name.substr(0, 60) + " (" + label_.substr(0, 12) +
             (again > 1 ? " " + std::to_string(again) : "") + ")";
    if (free != name) report_.notes.push_back(name + " is kept as " + free + ": the name is taken here.");
    row[person_name] = free;
    // Roles are given where they hold: a manager of another room is not one here.
    if (row[3] != "learner")
      report_.notes.push_back(free + " was " + row[3].get<std::string>() +
                              " there; here without a role until a manager gives one.");
    row[3] = "learner";
    insert_row(impl_.sql, table_named("person"), row, [](const std::string&) { return 0LL; });
    impl_.log(who_, "merged", "person", uid);
    ++report_.people;
  }

  std::string person_with_key(const std::string& name) {
    std::string uid;
    const std::string key = name_key(name);
    impl_.sql << "SELECT uid FROM person WHERE name_key = :key", soci::use(key), soci::into(uid);
    return impl_.sql.got_data() ? uid : "";
  }

  void remove_person(const std::string& uid, const Row& row) {
    const std::string name = row[person_name].get<std::string>();
    const std::string key = name_key(name);
    const std::string salt = row[5].get<std::string>();
    impl_.sql << "UPDATE person SET name = :name, name_key = :key, number = '', pin = '', salt = :salt, gone "
                 "= 1, role = 'learner'"
                 " WHERE uid = :uid",
        soci::use(name), soci::use(key), soci::use(salt), soci::use(uid);
    impl_.log(who_, "person_removed", "person", uid);
  }

  void take_demand(const Row& row) {
    const std::string id = row[0].get<std::string>();
    const std::optional<Row> here = row_of("demand", id);
    if (here && (*here)[2].get<std::string>() >= row[2].get<std::string>()) {
      ++report_.known;
      return;
    }
    impl_.sql << "DELETE FROM demand WHERE id = :id", soci::use(id);
    insert_row(impl_.sql, table_named("demand"), row, [](const std::string&) { return 0LL; });
    impl_.log(who_, "merged", "demand", id);
    ++report_.others;
  }

  // Attempts, observations, certificates: known ones only change from open to finished, from valid to
  // revoked, or lose a text.
  void take_row(const std::string& table, Row row) {
    const std::string uid = row[0].get<std::string>();
    const std::optional<Row> here = row_of(table, uid);
    if (here && !is_newer(table, *here, row)) {
      ++report_.known;
      return;
    }
    if (table == "attempt") take_journal(row, here);
    if (here) impl_.sql << "DELETE FROM " + table + " WHERE uid = :uid", soci::use(uid);
    insert_row(impl_.sql, table_named(table), row, [this](const std::string& person) {
      const auto same = same_as_.find(person);
      return impl_.person_number(same == same_as_.end() ? person : same->second);
    });
    impl_.log(who_, "merged", table, uid);
    count(report_, table);
  }

  static bool has_no_text(const Row& value) {
    return value.is_string() && value.get_ref<const std::string&>().empty();
  }

  static bool is_newer(const std::string& table, const Row& here, const Row& row) {
    if (table == "attempt") return here[attempt_finished] == 0 && row[attempt_finished] == 1;
    if (table == "certificate")
      return row[8].get<std::string>() > here[8].get<std::string>() ||
             (has_no_text(row[6]) && !has_no_text(here[6]));
    return has_no_text(row[7]) && !has_no_text(here[7]);  // an observation whose note was removed
  }

  void take_journal(Row& row, const std::optional<Row>& here) {
    const std::string sha = row[attempt_sha].get<std::string>();
    const std::string from = row[attempt_file].is_string() ? row[attempt_file].get<std::string>() : "";
    const std::string to =
        here && (*here)[attempt_file].is_string()
            ? (*here)[attempt_file].get<std::string>()
            : impl_.free_journal_name(next_number(impl_.sql, "attempt"), row[2].get<std::string>());
    row[attempt_file] = to;
    if (sha.empty()) return;
    bring_journal(impl_, archive_.folder, from, to, row[0].get<std::string>(), sha);
    ++report_.journals;
  }

  Store::Impl& impl_;
  const Access& who_;
  const ArchiveFile& archive_;
  std::string label_;
  std::map<std::string, std::string> same_as_;
  ArchiveReport report_;
};

}  // namespace

ArchiveReport merge(Store& store, const Access& who, const std::string& folder) {
  require(who, Right::keep_records);
  const ArchiveFile archive = read_archive(folder);
  return store.impl().changed([&] { return Merger(store, who, archive).run(); });
}

}  // namespace stirbench::records
