#include <filesystem>

#include "app/library/reading/paths.h"
#include "app/records/marks.h"
#include "app/records/names.h"
#include "app/records/store_internal.h"

// Attempts and their journals.
namespace stirbench::records {

namespace {

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
                    " score_norm, card_json, coalesce(journal_file, ''), state_hash, finished, uid, "
                    "journal_sha256,"
                    " musts_missed FROM attempt " +
                        where,
             soci::use(all), soci::use(person), soci::use(id), soci::into(id_), soci::into(person_),
             soci::into(a_.lesson), soci::into(a_.lesson_hash), soci::into(a_.mode), soci::into(a_.machine),
             soci::into(a_.started_utc), soci::into(a_.simulated_s), soci::into(passed_),
             soci::into(a_.score_norm), soci::into(a_.card_json), soci::into(a_.journal_file),
             soci::into(a_.state_hash), soci::into(finished_), soci::into(a_.uid),
             soci::into(a_.journal_sha256), soci::into(a_.musts_missed))) {
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

// Must-pass criteria that a score card lists as missed, not those that were never at stake; 0 when it is not
// one.
int musts_missed(const std::string& card) {
  const nlohmann::json list = nlohmann::json::parse(card, nullptr, false);
  const nlohmann::json& criteria = list.is_object() && list.contains("criteria") ? list["criteria"] : list;
  int missed = 0;
  if (!criteria.is_array()) return 0;
  for (const auto& one : criteria) {
    if (one.is_object() && one.value("must_pass", false) && !one.value("met", true) &&
        one.value("occasion", true))
      ++missed;
  }
  return missed;
}

}  // namespace

std::string Store::Impl::free_journal_name(std::int64_t id, const std::string& lesson) const {
  const std::string stem = journal_stem(id, lesson);
  std::string name = stem + ".journal";
  // A file from an older, lost database must not be overwritten; two desks on one server have folders of
  // their own.
  for (int again = 2; std::filesystem::exists(journals + "/" + name); ++again)
    name = stem + "-" + std::to_string(again) + ".journal";
  return name;
}

Attempt Store::begin_attempt(Attempt a) {
  return impl_->changed([&] {
    std::string person_uid;
    const long long person = a.person;
    impl_->sql << "SELECT uid FROM person WHERE id = :id AND gone = 0", soci::use(person),
        soci::into(person_uid);
    if (!impl_->sql.got_data())
      throw StoreError("There is no person " + std::to_string(a.person) + " in " + impl_->file + ".");
    a.id = next_number(impl_->sql, "attempt");
    a.uid = random_uuid();
    a.journal_file = impl_->free_journal_name(a.id, a.lesson);
    a.finished = false;
    insert_row(impl_->sql, table_named("attempt"),
               {a.uid, person_uid, a.lesson, a.lesson_hash, a.mode, a.machine, a.started_utc, 0.0, 0, 0.0, "",
                a.journal_file, "", 0, "", 0},
               [person](const std::string&) { return person; });
    impl_->log(Access{a.person, person_uid, Role::learner, false}, "attempt_begun", "attempt", a.uid);
    return a;
  });
}

void Store::finish_attempt(const Attempt& a) {
  if (!(a.score_norm >= 0.0 && a.score_norm <= 1.0)) {
    throw StoreError("score_norm: expected 0 .. 1, found " + std::to_string(a.score_norm));
  }
  const std::string sha = sha256_of_file(journal_path(a));
  impl_->changed([&] {
    const long long id = a.id;
    const int passed = a.passed ? 1 : 0;
    const int missed = musts_missed(a.card_json);
    const std::string marks = marks_of_card(a.card_json);
    soci::statement update =
        (impl_->sql.prepare
             << "UPDATE attempt SET simulated_s = :s, passed = :p, score_norm = :n, card_json = :c,"
                " state_hash = :h, journal_sha256 = :j, musts_missed = :m, marks = :k, finished = 1 WHERE id "
                "= :id AND "
                "finished = 0",
         soci::use(a.simulated_s), soci::use(passed), soci::use(a.score_norm), soci::use(a.card_json),
         soci::use(a.state_hash), soci::use(sha), soci::use(missed), soci::use(marks), soci::use(id));
    update.execute(true);
    if (update.get_affected_rows() != 1) {
      throw StoreError("Attempt " + std::to_string(a.id) + " is not open in " + impl_->file +
                       "; a finished attempt is not changed.");
    }
    std::string uid, person_uid;
    impl_->sql << "SELECT a.uid, p.uid FROM attempt a JOIN person p ON p.id = a.person WHERE a.id = :id",
        soci::use(id), soci::into(uid), soci::into(person_uid);
    // Other sites cannot reach this folder: the server keeps the text too.
    if (impl_->engine == Engine::postgresql && !sha.empty()) {
      const std::string text = library::read_file(journal_path(a));
      impl_->sql << "INSERT INTO journal(attempt, text) VALUES (:uid, :text)", soci::use(uid),
          soci::use(text);
    }
    impl_->log(Access{a.person, person_uid, Role::learner, false}, "attempt_finished", "attempt", uid);
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

std::vector<AttemptBrief> Store::briefs(std::optional<std::int64_t> person) {
  return impl_->guarded([&] {
    constexpr std::size_t at_once = 4096;
    std::vector<long long> id(at_once), who(at_once);
    std::vector<std::string> lesson(at_once), mode(at_once), started(at_once), marks(at_once);
    std::vector<int> passed(at_once), missed(at_once);
    const int everybody = person ? 0 : 1;
    const long long wanted = person.value_or(0);
    soci::statement statement =
        (impl_->sql.prepare
             << "SELECT id, person, lesson, mode, started_utc, passed, musts_missed, marks FROM attempt"
                " WHERE finished = 1 AND (:all = 1 OR person = :person) ORDER BY started_utc, id",
         soci::use(everybody), soci::use(wanted), soci::into(id), soci::into(who), soci::into(lesson),
         soci::into(mode), soci::into(started), soci::into(passed), soci::into(missed), soci::into(marks));
    statement.execute();
    std::vector<AttemptBrief> list;
    while (statement.fetch()) {
      for (std::size_t i = 0; i < id.size(); ++i)
        list.push_back({id[i], who[i], lesson[i], counts_for_certificate(mode[i]), mode[i] != "retry",
                        utc_seconds(started[i]), passed[i] != 0, missed[i],
                        mode[i] == "guided" || was_hinted(marks[i]), read_marks(marks[i])});
      for (auto* column : {&id, &who}) column->resize(at_once);
      for (auto* column : {&lesson, &mode, &started, &marks}) column->resize(at_once);
      for (auto* column : {&passed, &missed}) column->resize(at_once);
    }
    return list;
  });
}

std::string Store::journal_path(const Attempt& attempt) const {
  return impl_->journals + "/" + attempt.journal_file;
}

std::string Store::journal_text(const Attempt& attempt) {
  const std::string path = journal_path(attempt);
  if (std::filesystem::exists(path) &&
      (attempt.journal_sha256.empty() || sha256_of_file(path) == attempt.journal_sha256 ||
       impl_->engine == Engine::sqlite))
    return library::read_file(path);
  return impl_->guarded([&] {
    std::string text;
    impl_->sql << "SELECT text FROM journal WHERE attempt = :uid", soci::use(attempt.uid), soci::into(text);
    if (!impl_->sql.got_data()) throw StoreError("The journal " + path + " is not there any more.");
    return text;
  });
}

}  // namespace stirbench::records
