#pragma once

#include <soci/soci.h>

#include <functional>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

// The rows that the audit chain protects, that archives hold and that merges copy: one list of columns for
// all.
namespace stirbench::records {

enum class ColumnKind : unsigned char {
  text,
  integer,
  real,
  person
};  // person: a local number here, a uid in a row

struct Column {
  std::string name;
  ColumnKind kind = ColumnKind::text;
};

// The first column is the key that holds across files.
struct Table {
  std::string name;
  std::vector<Column> columns;
  bool numbered = true;  // has a local number "id"
};
// person first: the others refer to it.
const std::vector<Table>& tables();
const Table& table_named(const std::string& name);

// A JSON array in the order of the columns.
using Row = nlohmann::json;

// What the chain keeps of a row: SHA-256 of its text. People's rows hold a random salt, so that a name cannot
// be guessed from it.
std::string row_digest(const Row& row);

// All rows (key empty) or the one with this key.
void read_rows(soci::session& sql, const Table& table, const std::string& key,
               const std::function<void(const Row&)>& each);

// Adds a row with the next local number. `person_id`: uid -> local number, for the columns that refer to
// people.
void insert_row(soci::session& sql, const Table& table, const Row& row,
                const std::function<long long(const std::string&)>& person_id);

// The next local number of a numbered table; inside a transaction only.
long long next_number(soci::session& sql, const std::string& table);

}  // namespace stirbench::records
