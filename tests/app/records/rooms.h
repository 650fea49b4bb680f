#pragma once

#include <functional>
#include <memory>
#include <string>

#include "app/records/certificate.h"
#include "app/records/store.h"
#include "tests/support/files.h"

// Places to keep records in, for tests that run on SQLite and on a PostgreSQL server of their own.
namespace stirbench::records_test {

// A PIN hash that costs nothing: the tests are about the rules.
inline records::PinCost cheap_pins() { return {1, 8192}; }

// One set of records: a data folder, on SQLite or with a new database on the tests' server. Time stands still
// until moved.
class Room {
 public:
  Room(const std::string& purpose, bool on_server);
  records::StoreOptions options() const;
  std::unique_ptr<records::Store> open() const { return std::make_unique<records::Store>(options()); }
  std::string dir() const { return folder_.file("data"); }
  std::string file(const std::string& name) const { return folder_.file(name); }

  std::shared_ptr<std::int64_t> now = std::make_shared<std::int64_t>(1795590000);  // 2026-11-25

 private:
  test_support::TempFolder folder_;
  std::string database_;
};

// Runs `work` with false and, where Debian's postgresql is installed, with true; elsewhere the test counts as
// skipped.
void on_both(const std::function<void(bool on_server)>& work);

// A certificate with every field filled.
records::CertificateText example_certificate();

// A finished attempt with a small journal, as the desk leaves it.
records::Attempt run_attempt(records::Store& store, const records::Person& person, const std::string& lesson,
                             const std::string& mode, bool passed,
                             const std::string& started_utc = "2026-11-25T07:00:00Z",
                             bool must_missed = false);

// A store with its first manager: Ana, PIN 739182.
struct Managed {
  records::Person ana;
  records::Access manager;
};
Managed make_managed(records::Store& store);

template <class Work>
std::string error_of(Work&& work) {
  try {
    work();
  } catch (const records::StoreError& error) {
    return error.text;
  }
  return {};
}

inline bool says(const std::string& text, const std::string& part) {
  return text.find(part) != std::string::npos;
}

}  // namespace stirbench::records_test
