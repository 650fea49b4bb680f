#include <algorithm>

#include "app/records/names.h"
#include "app/records/store_internal.h"

// People, roles and PINs.
namespace stirbench::records {

namespace {

constexpr int free_tries = 5;
constexpr std::int64_t first_wait_s = 30;
constexpr std::int64_t longest_wait_s = 900;

std::int64_t wait_after(int fails) {
  if (fails < free_tries) return 0;
  const int doublings = std::min(fails - free_tries, 10);
  return std::min(first_wait_s << doublings, longest_wait_s);
}

// Who can open other people's records chooses a longer one.
std::string why_not_pin(const std::string& pin, Role role) {
  const std::size_t least = role == Role::learner ? 4 : 6;
  if (pin.size() < least)
    return "A PIN or passphrase for " + std::string(role == Role::learner ? "a learner" : "this role") +
           " has at least " + std::to_string(least) + " characters.";
  if (pin.size() > 200) return "A PIN or passphrase has at most 200 characters.";
  bool same = true;
  bool row = true;
  for (std::size_t i = 1; i < pin.size(); ++i) {
    same = same && pin[i] == pin[0];
    row = row && pin[i] == pin[i - 1] + 1;
  }
  if (same || row) return "This PIN is among the first that anybody tries. Choose another.";
  return {};
}

class PersonReader {
 public:
  PersonReader(soci::session& sql, const std::string& where) : sql_(sql), where_(where) {}

  template <class... Use>
  std::vector<Person> all(Use&&... use) {
    long long id = 0;
    int gone = 0;
    std::string name, uid, number, role, pin;
    soci::statement statement(sql_);
    statement.exchange(soci::into(id));
    statement.exchange(soci::into(name));
    statement.exchange(soci::into(uid));
    statement.exchange(soci::into(number));
    statement.exchange(soci::into(role));
    statement.exchange(soci::into(pin));
    statement.exchange(soci::into(gone));
    (statement.exchange(soci::use(use)), ...);
    statement.alloc();
    statement.prepare("SELECT id, name, uid, number, role, pin, gone FROM person " + where_);
    statement.define_and_bind();
    statement.execute();
    std::vector<Person> list;
    while (statement.fetch())
      list.push_back({id, name, uid, number, role_of(role).value_or(Role::learner), !pin.empty(), gone != 0});
    return list;
  }

 private:
  soci::session& sql_;
  std::string where_;
};

Person known(soci::session& sql, std::int64_t id, const std::string& place) {
  const long long wanted = id;
  std::vector<Person> found = PersonReader(sql, "WHERE id = :id").all(wanted);
  if (found.empty()) throw StoreError("There is no person " + std::to_string(id) + " in " + place + ".");
  return found.front();
}

long long managers(soci::session& sql) {
  long long count = 0;
  sql << "SELECT count(*) FROM person WHERE role = 'manager' AND gone = 0", soci::into(count);
  return count;
}

}  // namespace

std::vector<Person> Store::people(bool with_gone) {
  return impl_->guarded([&] {
    return PersonReader(impl_->sql, std::string(with_gone ? "" : "WHERE gone = 0 ") + "ORDER BY name_key")
        .all();
  });
}

std::optional<Person> Store::person(std::int64_t id) {
  return impl_->guarded([&]() -> std::optional<Person> {
    const long long wanted = id;
    const std::vector<Person> found = PersonReader(impl_->sql, "WHERE id = :id").all(wanted);
    if (found.empty()) return std::nullopt;
    return found.front();
  });
}

std::optional<Person> Store::person_named(const std::string& name) {
  return impl_->guarded([&]() -> std::optional<Person> {
    const std::string key = name_key(trimmed(name));
    const std::vector<Person> found = PersonReader(impl_->sql, "WHERE name_key = :key AND gone = 0").all(key);
    if (found.empty()) return std::nullopt;
    return found.front();
  });
}

Person Store::add_person(const std::string& name) { return add_person(nobody(), name); }

Person Store::add_person(const Access& who, const std::string& name, const std::string& number) {
  Person person;
  person.name = trimmed(name);
  person.number = trimmed(number);
  const std::string trouble = why_not_name(person.name);
  if (!trouble.empty()) throw StoreError(trouble);
  if (!person.number.empty() && !why_not_name(person.number).empty())
    throw StoreError("The number is not plain text.");
  require(who, Right::add_people);
  person.uid = random_uuid();
  impl_->changed([&] {
    int taken = 0;
    const std::string key = name_key(person.name);
    impl_->sql << "SELECT count(*) FROM person WHERE name_key = :key", soci::use(key), soci::into(taken);
    if (taken != 0)
      throw StoreError("There is already somebody with the name \"" + person.name +
                       "\". Choose that entry, or add a letter.");
    insert_row(impl_->sql, table_named("person"),
               {person.uid, person.name, person.number, "learner", "", random_hex(16), 0},
               [](const std::string&) { return 0LL; });
    person.id = impl_->person_number(person.uid);
    impl_->log(who, "person_added", "person", person.uid);
  });
  return person;
}

void Store::set_role(const Access& who, std::int64_t person, Role role) {
  require(who, Right::set_roles, person);
  impl_->changed([&] {
    const Person before = known(impl_->sql, person, impl_->file);
    if (before.gone) throw StoreError("This person was removed.");
    // The store may have got a manager since `who` was looked up.
    if (who.open && managers(impl_->sql) > 0) require(Access{}, Right::set_roles);
    if (role != Role::learner && !before.has_pin)
      throw StoreError(
          before.name +
          " has no PIN yet. Set one first, then give the role: it opens other people's records.");
    if (before.role == Role::manager && role != Role::manager && managers(impl_->sql) == 1)
      throw StoreError(before.name + " is the only manager. Make somebody else one first.");
    const std::string name(role_name(role));
    const long long id = person;
    impl_->sql << "UPDATE person SET role = :role WHERE id = :id", soci::use(name), soci::use(id);
    impl_->log(who, "role_given", "person", before.uid, {{"role", name}});
  });
}

namespace {

void keep_pin(Store::Impl& impl, const Access& who, const Person& person, const std::string& next,
              const char* event) {
  const std::string encoded = hash_pin(next, impl.pin_cost);
  const long long id = person.id;
  impl.sql << "UPDATE person SET pin = :pin, pin_fails = 0, pin_wait_s = 0 WHERE id = :id",
      soci::use(encoded), soci::use(id);
  impl.log(who, event, "person", person.uid);
}

}  // namespace

void Store::set_own_pin(std::int64_t id, const std::string& present, const std::string& next) {
  const std::optional<Person> found = person(id);
  if (!found || found->gone)
    throw StoreError("There is no person " + std::to_string(id) + " in " + impl_->file + ".");
  const std::string trouble = why_not_pin(next, found->role);
  if (!trouble.empty()) throw StoreError(trouble);
  Access self;
  if (found->has_pin) self = sign_in(id, present);
  impl_->changed([&] {
    const Person now = known(impl_->sql, id, impl_->file);
    if (!now.has_pin) {
      // Who comes first sets it; with attempts kept already, a stranger could open them that way.
      long long kept = 0;
      const long long number = id;
      impl_->sql << "SELECT count(*) FROM attempt WHERE person = :id", soci::use(number), soci::into(kept);
      if (kept != 0 && managers(impl_->sql) > 0)
        throw StoreError(
            "Attempts are kept under this name already. A manager gives the first PIN: stirbench people pin "
            "NAME --as MANAGER.");
    } else if (self.person == 0) {
      throw StoreError("Somebody has set a PIN meanwhile.");
    }
    keep_pin(*impl_, Access{now.id, now.uid, now.role, false}, now, next, "pin_set");
  });
}

void Store::reset_pin(const Access& who, std::int64_t person, const std::string& next) {
  require(who, Right::reset_pins, person);
  impl_->changed([&] {
    const Person found = known(impl_->sql, person, impl_->file);
    if (found.gone) throw StoreError("This person was removed.");
    const std::string trouble = why_not_pin(next, found.role);
    if (!trouble.empty()) throw StoreError(trouble);
    keep_pin(*impl_, who, found, next, "pin_reset");
  });
}

void Store::anonymise(const Access& who, std::int64_t person) {
  require(who, Right::keep_records, person);
  impl_->changed([&] {
    const Person found = known(impl_->sql, person, impl_->file);
    if (found.gone) throw StoreError("This person was removed already.");
    if (found.role == Role::manager && managers(impl_->sql) == 1)
      throw StoreError(found.name + " is the only manager. Make somebody else one first.");
    const long long id = person;
    const std::string name = "Removed person " + found.uid.substr(0, 8);
    const std::string key = name_key(name);
    const std::string salt = random_hex(16);  // the former salt is gone too: the former digest leads nowhere
    impl_->sql
        << "UPDATE person SET name = :name, name_key = :key, number = '', pin = '', salt = :salt, gone = 1,"
           " role = 'learner' WHERE id = :id",
        soci::use(name), soci::use(key), soci::use(salt), soci::use(id);
    impl_->log(who, "person_removed", "person", found.uid);
    std::vector<std::string> seen, certificates;
    read_rows(impl_->sql, table_named("observation"), "", [&](const Row& row) {
      if (row[1] == found.uid && !row[7].get<std::string>().empty())
        seen.push_back(row[0].get<std::string>());
    });
    read_rows(impl_->sql, table_named("certificate"), "", [&](const Row& row) {
      if (row[1] == found.uid) certificates.push_back(row[0].get<std::string>());
    });
    for (const std::string& uid : seen) {
      impl_->sql << "UPDATE observation SET note = '' WHERE uid = :uid", soci::use(uid);
      impl_->log(who, "note_removed", "observation", uid);
    }
    // The signed text holds the name. The file that was handed out stays good for whoever holds it.
    for (const std::string& uid : certificates) {
      impl_->sql << "UPDATE certificate SET file = '' WHERE uid = :uid", soci::use(uid);
      impl_->log(who, "text_removed", "certificate", uid);
    }
  });
  if (impl_->engine == Engine::sqlite)
    impl_->guarded([&] { impl_->sql << "PRAGMA wal_checkpoint(TRUNCATE)"; });
}

bool Store::same_name(const std::string& a, const std::string& b) {
  return name_key(trimmed(a)) == name_key(trimmed(b));
}

bool Store::managed() {
  return impl_->guarded([this] { return managers(impl_->sql) > 0; });
}

Access Store::nobody() {
  Access access;
  access.open = !managed();
  return access;
}

Access Store::sign_in(std::int64_t id, const std::string& pin) {
  const long long wanted = id;
  std::string encoded;
  // Counted as wrong before it is looked at: many tries side by side do not get round the count.
  const Person who = impl_->changed([&] {
    Person found = known(impl_->sql, id, impl_->file);
    if (found.gone || !found.has_pin)
      throw StoreError(found.name + " has no PIN. Set one: stirbench people pin NAME.");
    int fails = 0;
    long long until_s = 0;
    impl_->sql << "SELECT pin, pin_fails, pin_wait_s FROM person WHERE id = :id", soci::use(wanted),
        soci::into(encoded), soci::into(fails), soci::into(until_s);
    const std::int64_t now = impl_->now_s();
    if (until_s > now)
      throw StoreError("Too many wrong PINs for " + found.name + ". Wait " + std::to_string(until_s - now) +
                       " s.");
    ++fails;
    const long long next_s = wait_after(fails) == 0 ? 0 : now + wait_after(fails);
    impl_->sql << "UPDATE person SET pin_fails = :fails, pin_wait_s = :until WHERE id = :id",
        soci::use(fails), soci::use(next_s), soci::use(wanted);
    if (next_s != 0) impl_->log_event(Access{}, "pin_tries", {{"about", found.uid}, {"tries", fails}});
    return found;
  });
  if (!pin_matches(encoded, pin)) throw StoreError("This is not the PIN of " + who.name + ".");
  const std::string again = pin_needs_rehash(encoded, impl_->pin_cost) ? hash_pin(pin, impl_->pin_cost) : "";
  impl_->changed([&] {
    impl_->sql << "UPDATE person SET pin_fails = 0, pin_wait_s = 0 WHERE id = :id", soci::use(wanted);
    if (again.empty()) return;
    impl_->sql << "UPDATE person SET pin = :pin WHERE id = :id", soci::use(again), soci::use(wanted);
    impl_->log(Access{who.id, who.uid, who.role, false}, "pin_set", "person", who.uid);
  });
  Access access{who.id, who.uid, who.role, false};
  access.open = !managed();
  return access;
}

}  // namespace stirbench::records
