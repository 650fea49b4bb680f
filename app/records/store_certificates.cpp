#include "app/records/names.h"
#include "app/records/store_internal.h"

// What was seen at the machine, demands, certificates.
namespace stirbench::records {

namespace {

const char* state_name(CertificateState state) {
  switch (state) {
    case CertificateState::valid: return "valid";
    case CertificateState::revoked: return "revoked";
    case CertificateState::renewed: return "renewed";
  }
  return "valid";
}

CertificateState state_of(const std::string& name) {
  if (name == "valid") return CertificateState::valid;
  return name == "renewed" ? CertificateState::renewed : CertificateState::revoked;
}

void plain_words(const std::string& what, const std::string& text, std::size_t most) {
  if (text.size() > most) throw StoreError(what + ": at most " + std::to_string(most) + " bytes.");
  if (!text.empty() && !why_not_name(text.substr(0, 80)).empty() && text.size() <= 80)
    throw StoreError(what + ": plain text without control characters.");
}

std::string uid_of(soci::session& sql, std::int64_t person, const std::string& place) {
  std::string uid;
  const long long id = person;
  sql << "SELECT uid FROM person WHERE id = :id AND gone = 0", soci::use(id), soci::into(uid);
  if (!sql.got_data())
    throw StoreError("There is no person " + std::to_string(person) + " in " + place + ".");
  return uid;
}

}  // namespace

Observation Store::add_observation(const Access& who, Observation o) {
  require(who, Right::sign_seen, o.person);
  if (who.person == 0)
    throw StoreError("What was seen at the machine is signed by a named person. Sign in first.");
  plain_words("task", o.task, 200);
  plain_words("machine", o.machine, 80);
  plain_words("note", o.note, 2000);
  if (o.task.empty() || o.machine.empty())
    throw StoreError("Say which task, and at which machine it was seen.");
  o.uid = random_uuid();
  o.observer = who.person;
  o.at_utc = now_utc();
  impl_->changed([&] {
    const std::string person = uid_of(impl_->sql, o.person, impl_->file);
    insert_row(impl_->sql, table_named("observation"),
               {o.uid, person, who.uid, o.demand, o.task, o.machine, o.passed ? 1 : 0, o.note, o.at_utc},
               [this](const std::string& uid) { return impl_->person_number(uid); });
    impl_->log(who, "seen_at_machine", "observation", o.uid);
  });
  return o;
}

std::vector<Observation> Store::observations(std::optional<std::int64_t> person) {
  return impl_->guarded([&] {
    std::vector<Observation> list;
    Observation o;
    long long who = 0, observer = 0;
    int passed = 0;
    const int everybody = person ? 0 : 1;
    const long long wanted = person.value_or(0);
    soci::statement statement =
        (impl_->sql.prepare
             << "SELECT uid, person, observer, demand, task, machine, passed, note, at_utc FROM observation"
                " WHERE (:all = 1 OR person = :person) ORDER BY at_utc, id",
         soci::use(everybody), soci::use(wanted), soci::into(o.uid), soci::into(who), soci::into(observer),
         soci::into(o.demand), soci::into(o.task), soci::into(o.machine), soci::into(passed),
         soci::into(o.note), soci::into(o.at_utc));
    statement.execute();
    while (statement.fetch()) {
      o.person = who;
      o.observer = observer;
      o.passed = passed != 0;
      list.push_back(o);
    }
    return list;
  });
}

std::vector<StoredDemand> Store::demands() {
  return impl_->guarded([&] {
    std::vector<StoredDemand> list;
    StoredDemand d;
    soci::statement statement = (impl_->sql.prepare << "SELECT id, text, changed_utc FROM demand ORDER BY id",
                                 soci::into(d.id), soci::into(d.text), soci::into(d.changed_utc));
    statement.execute();
    while (statement.fetch()) list.push_back(d);
    return list;
  });
}

void Store::put_demand(const Access& who, const std::string& id, const std::string& text) {
  require(who, Right::edit_demands);
  impl_->changed([&] {
    const std::string now = now_utc();
    impl_->sql << "DELETE FROM demand WHERE id = :id", soci::use(id);
    impl_->sql << "INSERT INTO demand(id, text, changed_utc) VALUES (:id, :text, :now)", soci::use(id),
        soci::use(text), soci::use(now);
    impl_->log(who, "demand_changed", "demand", id);
  });
}

void Store::add_certificate(const Access& who, const Certificate& c) {
  require(who, Right::certify, c.person);
  if (who.person == 0) throw StoreError("A certificate is issued by a named person. Sign in first.");
  impl_->changed([&] {
    const std::string person = uid_of(impl_->sql, c.person, impl_->file);
    insert_row(impl_->sql, table_named("certificate"),
               {c.uid, person, who.uid, c.demand, c.issued_utc, c.until_utc, c.file, "valid", c.issued_utc,
                "", c.renews},
               [this](const std::string& uid) { return impl_->person_number(uid); });
    impl_->log(who, "certificate_issued", "certificate", c.uid, {{"sha256", sha256_hex(c.file)}});
    if (c.renews.empty()) return;
    impl_->sql << "UPDATE certificate SET state = 'renewed', changed_utc = :now WHERE uid = :uid AND state = "
                  "'valid'",
        soci::use(c.issued_utc), soci::use(c.renews);
    impl_->log(who, "certificate_renewed", "certificate", c.renews);
  });
}

void Store::set_certificate_state(const Access& who, const std::string& uid, CertificateState state,
                                  const std::string& reason) {
  plain_words("reason", reason, 300);
  impl_->changed([&] {
    long long person = 0;
    impl_->sql << "SELECT person FROM certificate WHERE uid = :uid", soci::use(uid), soci::into(person);
    if (!impl_->sql.got_data())
      throw StoreError("There is no certificate " + uid + " in " + impl_->file + ".");
    require(who, Right::certify, person);
    const std::string name = state_name(state);
    const std::string now = now_utc();
    impl_->sql
        << "UPDATE certificate SET state = :state, reason = :reason, changed_utc = :now WHERE uid = :uid",
        soci::use(name), soci::use(reason), soci::use(now), soci::use(uid);
    impl_->log(who, "certificate_" + name, "certificate", uid);
  });
}

std::vector<Certificate> Store::certificates(std::optional<std::int64_t> person) {
  return impl_->guarded([&] {
    std::vector<Certificate> list;
    Certificate c;
    long long who = 0, issuer = 0;
    std::string state;
    const int everybody = person ? 0 : 1;
    const long long wanted = person.value_or(0);
    soci::statement statement =
        (impl_->sql.prepare
             << "SELECT uid, person, issuer, demand, issued_utc, until_utc, file, state, changed_utc, "
                "reason, renews"
                " FROM certificate WHERE (:all = 1 OR person = :person) ORDER BY issued_utc, id",
         soci::use(everybody), soci::use(wanted), soci::into(c.uid), soci::into(who), soci::into(issuer),
         soci::into(c.demand), soci::into(c.issued_utc), soci::into(c.until_utc), soci::into(c.file),
         soci::into(state), soci::into(c.changed_utc), soci::into(c.reason), soci::into(c.renews));
    statement.execute();
    while (statement.fetch()) {
      c.person = who;
      c.issuer = issuer;
      c.state = state_of(state);
      list.push_back(c);
    }
    return list;
  });
}

}  // namespace stirbench::records
