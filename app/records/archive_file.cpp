#include "app/records/archive_file.h"

#include <filesystem>
#include <sstream>

#include "app/library/reading/paths.h"
#include "app/records/archive.h"

namespace stirbench::records {

namespace {

using Json = nlohmann::json;

[[noreturn]] void damaged(const std::string& place, const std::string& what) {
  throw StoreError(place + ": " + what, true);
}

std::string bytes_of(const std::string& file) {
  try {
    return library::read_file(file);
  } catch (const std::runtime_error& error) {
    throw StoreError(error.what(), true);
  }
}

// No way out of the folder, whatever the manifest or a row says.
bool is_inside(const std::string& name) {
  return !name.empty() && name.front() != '/' && name.find("..") == std::string::npos &&
         name.find('\\') == std::string::npos && name.find('\0') == std::string::npos;
}

Json read_manifest(const std::string& folder) {
  const std::string file = folder + "/manifest.json";
  const std::string text = bytes_of(file);
  Json manifest = Json::parse(text, nullptr, false);
  if (!manifest.is_object() || manifest.dump(2) + "\n" != text)
    damaged(file, "expected the manifest as the program wrote it");
  Json rest = manifest;
  rest.erase("sha256");
  if (!manifest.contains("sha256") || manifest["sha256"] != sha256_hex(rest.dump(2)))
    damaged(file, "the manifest was changed after it was written");
  if (manifest.value("kind", "") != "stirbench archive" || manifest.value("format", 0) != 1 ||
      !manifest.contains("files") || !manifest["files"].is_object() || !manifest.contains("head") ||
      !manifest["head"].is_object())
    damaged(file, "expected a Stirbench archive of format 1");
  for (const auto& item : manifest["files"].items()) {
    if (!is_inside(item.key()) || !item.value().is_string())
      damaged(file, "\"" + item.key() + "\" is no file of an archive");
    const std::string place = folder + "/" + item.key();
    const std::string found = sha256_of_file(place);
    if (found.empty()) damaged(place, "the file is not there");
    if (found != item.value().get<std::string>()) damaged(place, "the file is not the one that was written");
  }
  return manifest;
}

// Keys become names of files and parts of messages: uids and ids of demands hold nothing else.
bool is_plain_key(const Json& key) {
  if (!key.is_string()) return false;
  const auto& text = key.get_ref<const std::string&>();
  return !text.empty() && text.size() <= 64 &&
         text.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
}

bool is_row_of(const Json& row) {
  if (!row.is_array() || row.size() != 2 || !row[0].is_string() || !row[1].is_array()) return false;
  for (const Table& table : tables()) {
    if (table.name != row[0].get<std::string>()) continue;
    if (row[1].size() != table.columns.size() || !is_plain_key(row[1][0])) return false;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
      const ColumnKind kind = table.columns[i].kind;
      const Json& value = row[1][i];
      const bool number = kind == ColumnKind::integer || kind == ColumnKind::real;
      if (number ? !value.is_number() : !(value.is_string() || (value.is_null() && i > 0))) return false;
    }
    return true;
  }
  return false;
}

bool is_entry(const Json& e) {
  return e.is_array() && e.size() == 4 && e[0].is_string() && e[1].is_number_integer() && e[2].is_string() &&
         e[3].is_string();
}

}  // namespace

ArchiveFile read_archive(const std::string& folder) {
  const Json manifest = read_manifest(folder);
  ArchiveFile archive{folder, manifest.value("room", ""), manifest.value("site", ""), {}, {}};
  const std::string file = folder + "/records.jsonl";
  if (!manifest["files"].contains("records.jsonl"))
    damaged(folder + "/manifest.json", "records.jsonl is not listed");
  std::istringstream lines(bytes_of(file));
  ChainCheck chain(archive.room);
  int number = 0;
  for (std::string line; std::getline(lines, line);) {
    ++number;
    const std::string place = file + ":" + std::to_string(number);
    const Json json = Json::parse(line, nullptr, false);
    if (json.is_object() && json.contains("audit") && is_entry(json["audit"])) {
      const Json& e = json["audit"];
      archive.entries.push_back({e[0].get<std::string>(), e[1].get<std::int64_t>(), e[2].get<std::string>(),
                                 e[3].get<std::string>()});
      const ArchiveEntry& one = archive.entries.back();
      const std::string wrong = chain.see(one.room, one.seq, one.entry, one.hash);
      if (!wrong.empty()) damaged(place, wrong);
    } else if (json.is_object() && json.contains("row") && is_row_of(json["row"])) {
      const Row row = json["row"][1];
      const std::string table = json["row"][0].get<std::string>();
      const std::string wrong = chain.judge_row(table + "/" + row[0].get<std::string>(), row_digest(row));
      if (!wrong.empty()) damaged(place, wrong);
      if (table == "attempt" && row[11].is_string()) {
        const std::string name = row[11].get<std::string>();
        if (!is_inside(name) || name.find('/') != std::string::npos)
          damaged(place, "\"" + name + "\" is no name of a journal");
      }
      archive.rows.emplace_back(table, row);
    } else {
      damaged(place, "expected an entry of the chain or a row");
    }
  }
  if (!chain.unseen().empty())
    damaged(file, "the chain has " + chain.unseen().begin()->first + ", the rows have not");
  const Json& head = manifest["head"];
  if (chain.hash_at(archive.room, head.value("count", std::int64_t{0})) != head.value("hash", "none") ||
      chain.heads().at(archive.room).count != head.value("count", std::int64_t{0}))
    damaged(folder + "/manifest.json", "the head is not that of the chain");
  if (archive.site != chain.site())
    damaged(folder + "/manifest.json", "the site's name is not the one in the chain");
  return archive;
}

void verify_archive(const std::string& folder) { (void)read_archive(folder); }

}  // namespace stirbench::records
