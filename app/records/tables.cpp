#include "app/records/tables.h"

#include <deque>

#include "app/records/hash.h"
#include "app/records/marks.h"
#include "app/records/names.h"
#include "app/records/store.h"

namespace stirbench::records {

namespace {

constexpr auto text = ColumnKind::text;
constexpr auto integer = ColumnKind::integer;
constexpr auto real = ColumnKind::real;
constexpr auto person = ColumnKind::person;
constexpr std::size_t attempt_card = 10;  // the place of card_json among the columns of attempt

// Where one column's value goes while a statement runs.
struct Holder {
  std::string words;
  long long whole = 0;
  double number = 0.0;
  soci::indicator indicator = soci::i_ok;
};

std::string select_of(const Table& table, bool one) {
  std::string columns;
  for (const Column& column : table.columns) {
    columns += columns.empty() ? "" : ", ";
    columns += column.kind == ColumnKind::person
                   ? "(SELECT p.uid FROM person p WHERE p.id = t." + column.name + ")"
                   : "t." + column.name;
  }
  return "SELECT " + columns + " FROM " + table.name + " t" +
         (one ? " WHERE t." + table.columns[0].name + " = :key" : "") + " ORDER BY t." +
         (table.numbered ? std::string("id") : table.columns[0].name);
}

}  // namespace

const std::vector<Table>& tables() {
  static const std::vector<Table> all = {
      {"person",
       {{"uid", text},
        {"name", text},
        {"number", text},
        {"role", text},
        {"pin", text},
        {"salt", text},
        {"gone", integer}}},
      {"attempt",
       {{"uid", text},
        {"person", person},
        {"lesson", text},
        {"lesson_hash", text},
        {"mode", text},
        {"machine", text},
        {"started_utc", text},
        {"simulated_s", real},
        {"passed", integer},
        {"score_norm", real},
        {"card_json", text},
        {"journal_file", text},
        {"state_hash", text},
        {"finished", integer},
        {"journal_sha256", text},
        {"musts_missed", integer}}},
      {"observation",
       {{"uid", text},
        {"person", person},
        {"observer", person},
        {"demand", text},
        {"task", text},
        {"machine", text},
        {"passed", integer},
        {"note", text},
        {"at_utc", text}}},
      {"demand", {{"id", text}, {"text", text}, {"changed_utc", text}}, false},
      {"certificate",
       {{"uid", text},
        {"person", person},
        {"issuer", person},
        {"demand", text},
        {"issued_utc", text},
        {"until_utc", text},
        {"file", text},
        {"state", text},
        {"changed_utc", text},
        {"reason", text},
        {"renews", text}}},
  };
  return all;
}

const Table& table_named(const std::string& name) {
  for (const Table& table : tables()) {
    if (table.name == name) return table;
  }
  throw StoreError("There is no table " + name + ".");
}

std::string row_digest(const Row& row) {
  return sha256_hex(row.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace));
}

void read_rows(soci::session& sql, const Table& table, const std::string& key,
               const std::function<void(const Row&)>& each) {
  std::deque<Holder> holders(table.columns.size());
  soci::statement statement(sql);
  for (std::size_t i = 0; i < holders.size(); ++i) {
    Holder& holder = holders[i];
    switch (table.columns[i].kind) {
      case ColumnKind::text:
      case ColumnKind::person: statement.exchange(soci::into(holder.words, holder.indicator)); break;
      case ColumnKind::integer: statement.exchange(soci::into(holder.whole, holder.indicator)); break;
      case ColumnKind::real: statement.exchange(soci::into(holder.number, holder.indicator)); break;
    }
  }
  if (!key.empty()) statement.exchange(soci::use(key));
  statement.alloc();
  statement.prepare(select_of(table, !key.empty()));
  statement.define_and_bind();
  statement.execute();
  while (statement.fetch()) {
    Row row = Row::array();
    for (std::size_t i = 0; i < holders.size(); ++i) {
      const Holder& holder = holders[i];
      if (holder.indicator == soci::i_null)
        row.push_back(nullptr);
      else if (table.columns[i].kind == ColumnKind::integer)
        row.push_back(holder.whole);
      else if (table.columns[i].kind == ColumnKind::real)
        row.push_back(holder.number);
      else
        row.push_back(holder.words);
    }
    each(row);
  }
}

long long next_number(soci::session& sql, const std::string& table) {
  long long last = 0;
  sql << "SELECT coalesce(max(id), 0) FROM " + table, soci::into(last);
  return last + 1;
}

void insert_row(soci::session& sql, const Table& table, const Row& row,
                const std::function<long long(const std::string&)>& person_id) {
  std::string columns = table.numbered ? "id" : "";
  std::string values = table.numbered ? ":id" : "";
  std::deque<Holder> holders(table.columns.size() + 2);
  soci::statement statement(sql);
  const auto derived = [&](const char* column, std::string value) {
    Holder& holder = holders[table.columns.size()];
    holder.words = std::move(value);
    columns += std::string(", ") + column;
    values += std::string(", :") + column;
    statement.exchange(soci::use(holder.words));
  };
  if (table.numbered) {
    holders.back().whole = next_number(sql, table.name);
    statement.exchange(soci::use(holders.back().whole));
  }
  for (std::size_t i = 0; i < table.columns.size(); ++i) {
    const Column& column = table.columns[i];
    Holder& holder = holders[i];
    columns += (columns.empty() ? "" : ", ") + column.name;
    values += (values.empty() ? ":" : ", :") + column.name;
    if (row[i].is_null())
      holder.indicator = soci::i_null;
    else if (column.kind == ColumnKind::text)
      holder.words = row[i].get<std::string>();
    else if (column.kind == ColumnKind::person)
      holder.whole = person_id(row[i].get<std::string>());
    else if (column.kind == ColumnKind::integer)
      holder.whole = row[i].get<long long>();
    else
      holder.number = row[i].get<double>();
    if (column.kind == ColumnKind::text)
      statement.exchange(soci::use(holder.words, holder.indicator));
    else if (column.kind == ColumnKind::real)
      statement.exchange(soci::use(holder.number, holder.indicator));
    else
      statement.exchange(soci::use(holder.whole, holder.indicator));
  }
  if (table.name == "person") derived("name_key", name_key(row[1].get<std::string>()));
  if (table.name == "attempt") derived("marks", marks_of_card(row[attempt_card].get<std::string>()));
  statement.alloc();
  statement.prepare("INSERT INTO " + table.name + "(" + columns + ") VALUES (" + values + ")");
  statement.define_and_bind();
  statement.execute(true);
}

}  // namespace stirbench::records
