#include "app/records/verify.h"

#include <filesystem>

#include "app/records/certificate.h"
#include "app/records/chain_check.h"
#include "app/records/marks.h"
#include "app/records/names.h"
#include "app/records/store_internal.h"

namespace stirbench::records {

namespace {

class Verifier {
 public:
  Verifier(Store& store, const VerifyOptions& options)
      : store_(store), impl_(store.impl()), options_(options), chain_(impl_.room) {}

  VerifyResult run() {
    const auto part = [this](const char* name, auto&& work) {
      try {
        impl_.guarded([&] { work(); });
      } catch (const StoreError& error) {
        fault(name, error.text);
      } catch (const std::exception& error) {
        fault(name, error.what());
      }
    };
    part("database", [this] { look_at_database(); });
    part("audit", [this] { look_at_chains(); });
    part("room", [this] { look_at_room(); });
    part("rows", [this] { look_at_rows(); });
    part("names", [this] { look_at_names(); });
    part("marks", [this] { look_at_marks(); });
    part("certificate", [this] { look_at_certificates(); });
    if (options_.journals) part("journals", [this] { look_at_journals(); });
    return std::move(result_);
  }

 private:
  void fault(const std::string& place, const std::string& what) { result_.faults.push_back({place, what}); }

  void look_at_database() {
    if (impl_.engine != Engine::sqlite) return;
    std::string answer;
    impl_.sql << "PRAGMA integrity_check(1)", soci::into(answer);
    if (answer != "ok") fault(impl_.file, answer);
  }

  void look_at_chains() {
    std::string room, entry, hash;
    long long seq = 0;
    soci::statement each =
        (impl_.sql.prepare << "SELECT room, seq, entry, hash FROM audit ORDER BY room, seq", soci::into(room),
         soci::into(seq), soci::into(entry), soci::into(hash));
    each.execute();
    while (each.fetch()) {
      const std::string wrong = chain_.see(room, seq, entry, hash);
      if (!wrong.empty()) fault("audit " + room + "/" + std::to_string(seq), wrong);
    }
    result_.entries = chain_.entries();
    for (const auto& [id, head] : chain_.heads()) {
      if (id == impl_.room)
        result_.heads.insert(result_.heads.begin(), head);
      else
        result_.heads.push_back(head);
    }
    if (chain_.heads().count(impl_.room) == 0)
      fault("audit " + impl_.room, "the chain of these records is not there");
    if (options_.printed) look_at_head("printed head", *options_.printed);
  }

  void look_at_head(const std::string& place, const ChainHead& head) {
    const std::string now = chain_.hash_at(head.room, head.count);
    if (now.empty())
      fault(place, "the chain ends before entry " + std::to_string(head.count));
    else if (now != head.hash)
      fault(place, "entry " + std::to_string(head.count) + " of the chain has another hash");
  }

  void look_at_room() {
    std::string name, value;
    soci::statement each = (impl_.sql.prepare << "SELECT name, value FROM room ORDER BY name",
                            soci::into(name), soci::into(value));
    each.execute();
    while (each.fetch()) {
      if (name == "site" && value != chain_.site())
        fault("room site", "expected \"" + chain_.site() + "\", found \"" + value + "\"");
      if (name == "version" && value != std::to_string(schema_version))
        fault("room version", "found " + value);
    }
  }

  void look_at_rows() {
    for (const Table& table : tables()) {
      read_rows(impl_.sql, table, "", [&](const Row& row) {
        ++result_.rows;
        const std::string key = row[0].is_string() ? row[0].get<std::string>() : row[0].dump();
        const std::string wrong = chain_.judge_row(table.name + "/" + key, row_digest(row));
        if (!wrong.empty()) fault(table.name + " " + key, wrong);
      });
    }
    for (const auto& [row, digest] : chain_.unseen()) fault(row, "the chain has it, the table has not");
  }

  // Derived, so not in the chain: what people are looked up by.
  void look_at_names() {
    std::string uid, name, key;
    soci::statement each = (impl_.sql.prepare << "SELECT uid, name, name_key FROM person", soci::into(uid),
                            soci::into(name), soci::into(key));
    each.execute();
    while (each.fetch()) {
      if (name_key(name) != key) fault("person " + uid, "the name and the key it is looked up by differ");
    }
  }

  // Derived too: what the table of everybody reads instead of score cards.
  void look_at_marks() {
    std::string uid, card, marks;
    soci::statement each = (impl_.sql.prepare << "SELECT uid, card_json, marks FROM attempt", soci::into(uid),
                            soci::into(card), soci::into(marks));
    each.execute();
    while (each.fetch()) {
      if (marks_of_card(card) != marks)
        fault("attempt " + uid, "its score card and what is kept of its skills differ");
    }
  }

  void look_at_certificates() {
    for (const Certificate& one : store_.certificates()) {
      if (one.file.empty()) continue;
      const CertificateCheck check = check_certificate(one.file);
      if (!check.fault.empty())
        fault("certificate " + one.uid + ", " + check.place, check.fault);
      else if (check.text.serial != one.uid || check.text.until_utc != one.until_utc)
        fault("certificate " + one.uid, "its text is that of another certificate");
      else if (check.head.room == impl_.room || !chain_.hash_at(check.head.room, 1).empty())
        look_at_head("certificate " + one.uid, check.head);
    }
  }

  void look_at_journals() {
    for (const Attempt& one : store_.attempts(std::nullopt)) {
      if (one.journal_sha256.empty()) continue;
      ++result_.journals;
      const std::string path = store_.journal_path(one);
      std::string found = sha256_of_file(path);
      if (impl_.engine == Engine::postgresql && found != one.journal_sha256) {
        try {
          found = sha256_hex(store_.journal_text(one));
        } catch (const StoreError&) {
          found.clear();
        }
      }
      if (found.empty())
        fault(path, "the journal is not there");
      else if (found != one.journal_sha256)
        fault(path, "the journal is not the one that was kept");
    }
  }

  Store& store_;
  Store::Impl& impl_;
  const VerifyOptions& options_;
  ChainCheck chain_;
  VerifyResult result_;
};

}  // namespace

VerifyResult verify_records(Store& store, const VerifyOptions& options) {
  return Verifier(store, options).run();
}

}  // namespace stirbench::records
