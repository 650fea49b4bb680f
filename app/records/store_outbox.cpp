#include <set>

#include "app/records/store_internal.h"

// Statements on their way to a record store. A line is written before anything is sent, and changed only
// after the other side has answered: a program that dies in between sends the same statement, with the same
// id, again.
namespace stirbench::records {

namespace {

// Queued lines of one target take the same change.
void mark(Store::Impl& impl, const std::string& now, const std::string& target,
          const std::vector<std::string>& ids, const std::string& set, const std::string& note) {
  impl.changed([&] {
    for (const std::string& id : ids)
      impl.sql << "UPDATE outbox SET " + set +
                      "tries = tries + 1, changed_utc = :now, note = :note"
                      " WHERE id = :id AND target = :target AND state = 'queued'",
          soci::use(now), soci::use(note), soci::use(id), soci::use(target);
  });
}

}  // namespace

void Store::queue(const std::string& target, const std::vector<OutboxItem>& items) {
  impl_->changed([&] {
    const std::string now = now_utc();
    std::set<std::string> known;
    std::string id;
    long long last = 0;
    soci::statement each =
        (impl_->sql.prepare << "SELECT id, seq FROM outbox WHERE target = :target ORDER BY seq",
         soci::use(target), soci::into(id), soci::into(last));
    each.execute();
    while (each.fetch()) known.insert(id);
    for (const OutboxItem& one : items) {
      if (!known.insert(one.id).second) continue;
      ++last;
      impl_->sql << "INSERT INTO outbox(id, target, text, state, seq, tries, changed_utc, note)"
                    " VALUES (:id, :target, :text, 'queued', :seq, 0, :now, '')",
          soci::use(one.id), soci::use(target), soci::use(one.text), soci::use(last), soci::use(now);
    }
  });
}

std::vector<OutboxItem> Store::queued(const std::string& target, std::size_t most) {
  return impl_->guarded([&] {
    std::vector<OutboxItem> out;
    OutboxItem one;
    soci::statement each =
        (impl_->sql.prepare
             << "SELECT id, text, tries FROM outbox WHERE target = :target AND state = 'queued'"
                " ORDER BY seq",
         soci::use(target), soci::into(one.id), soci::into(one.text), soci::into(one.tries));
    each.execute();
    while (out.size() < most && each.fetch()) out.push_back(one);
    return out;
  });
}

void Store::sent(const std::string& target, const std::vector<std::string>& ids) {
  mark(*impl_, now_utc(), target, ids, "state = 'sent', text = '', ", "");
}

void Store::not_sent(const std::string& target, const std::vector<std::string>& ids, const std::string& why) {
  mark(*impl_, now_utc(), target, ids, "", why);
}

void Store::refused(const std::string& target, const std::vector<std::string>& ids, const std::string& why) {
  mark(*impl_, now_utc(), target, ids, "state = 'refused', ", why);
}

OutboxCount Store::outbox(const std::string& target) {
  return impl_->guarded([&] {
    OutboxCount count;
    const auto of = [&](const std::string& state) {
      long long n = 0;
      impl_->sql << "SELECT count(*) FROM outbox WHERE target = :target AND state = :state",
          soci::use(target), soci::use(state), soci::into(n);
      return static_cast<std::int64_t>(n);
    };
    count.queued = of("queued");
    count.sent = of("sent");
    count.refused = of("refused");
    return count;
  });
}

}  // namespace stirbench::records
