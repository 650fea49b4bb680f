#pragma once

#include <soci/soci.h>
#include <soci/sqlite3/soci-sqlite3.h>

#include <nlohmann/json.hpp>
#include <string>

#include "app/records/audit.h"
#include "app/records/database_schema.h"
#include "app/records/store.h"
#include "app/records/tables.h"

// What the store's parts share. Not for others.
namespace stirbench::records {

// SQLite's result codes as sentences with a way out.
std::string in_words(int result, const std::string& file, const std::string& detail);
bool means_damage(int result);
std::string server_in_words(const soci::soci_error& error, const std::string& place);

struct Store::Impl {
  std::string data_dir;
  std::string file;  // of SQLite, or the server's address without its password
  std::string journals;
  Engine engine = Engine::sqlite;
  PinCost pin_cost;
  std::function<std::int64_t()> now_s;
  std::string room;  // identity of this set of records
  soci::session sql;

  // Runs `work` and turns the database's errors into StoreErrors.
  template <class Work>
  auto guarded(Work&& work) {
    try {
      return work();
    } catch (const soci::sqlite3_soci_error& error) {
      throw StoreError(in_words(error.result(), file, error.get_error_message()),
                       means_damage(error.result()));
    } catch (const soci::soci_error& error) {
      throw StoreError(server_in_words(error, file));
    }
  }

  // The same inside one transaction.
  template <class Work>
  auto changed(Work&& work) {
    return guarded([&] {
      Transaction transaction(sql, engine);
      if constexpr (std::is_void_v<decltype(work())>) {
        work();
        transaction.commit();
      } else {
        auto result = work();
        transaction.commit();
        return result;
      }
    });
  }

  // An entry about a row as it is, inside the transaction that changed it.
  void log(const Access& who, const std::string& event, const std::string& table, const std::string& key,
           nlohmann::json more = nlohmann::json::object());
  void log_event(const Access& who, const std::string& event, nlohmann::json more = nlohmann::json::object());

  long long person_number(const std::string& uid);  // StoreError when unknown
  std::string free_journal_name(std::int64_t id, const std::string& lesson) const;
};

// Throws StoreError with the reason when `who` may not.
void require(const Access& who, Right right, std::int64_t about = 0);

}  // namespace stirbench::records
