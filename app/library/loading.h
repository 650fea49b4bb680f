#pragma once

#include <map>
#include <string>
#include <vector>

#include "app/library/library.h"
#include "app/library/reading/shape.h"

// Shared by the loader's source files only.
namespace stirbench::library {

// One content file: its name in messages, and its bytes.
struct SourceText {
  std::string shown;  // "recipes/white-base-high.json"
  std::string stem;   // "white-base-high"
  std::string bytes;
};

struct Loading {
  std::string content_dir;
  Library library;
  std::vector<Problem> problems;
  Names names;

  void problem(const std::string& file, const std::string& path, const std::string& expected,
               const std::string& found) {
    problems.push_back({file, path, expected, found});
  }
};

// Files DIR/*.json sorted by name; hidden ones (an editor's) are left out. Unreadable or over 4 MB: a problem
// and not in the list.
std::vector<SourceText> json_files(Loading& loading, const std::string& dir, const std::string& shown_dir);

// Reads a whole content file into `out` by its table. Returns whether it was without problem.
template <class T>
bool read_text(Loading& loading, const Object<T>& table, const SourceText& source, T& out) {
  const std::size_t before = loading.problems.size();
  const std::optional<Json> json = parse_json(source.bytes, source.shown, loading.problems);
  if (!json) return false;
  Reader reader(source.shown, loading.problems, loading.names);
  table.read(reader, *json, out);
  return loading.problems.size() == before;
}

// OWN_DIR/machines into loading.library.machines and all that goes with a machine; the shipped ones and their
// hashes must be there.
void load_own_machines(Loading& loading, const std::string& own_dir);

// The fault guides of loading.library's machines into loading.library.grounds; a guide with a problem is left
// out, `stirbench check` names it.
void load_grounds(Loading& loading);

// content/rules and OWN_DIR/rules into loading.library.rules; the shipped files into `hashed`.
void load_rules(Loading& loading, const std::string& own_dir, std::map<std::string, std::string>& hashed);

// content/skills and OWN_DIR/skills into loading.library.skills: all files *.json; the shipped ones into
// `hashed`.
void load_skills(Loading& loading, const std::string& own_dir, std::map<std::string, std::string>& hashed);

// content/assessments into loading.library.demands; skills must be known by now.
void load_demands(Loading& loading, std::map<std::string, std::string>& hashed);

// content/diagrams into loading.library.diagrams; the machines' circuits must be known by now.
void load_diagrams(Loading& loading);

// content/ways into loading.library.ways: all files *.json, in the order of their names; none is none.
void load_ways(Loading& loading, std::map<std::string, std::string>& hashed);

// content/conduct into loading.library.conduct: all files *.json, in the order of their names; none is none.
void load_conduct(Loading& loading, std::map<std::string, std::string>& hashed);

// content/lessons/*/ into loading.library.lessons; all names must be known by now.
void load_lessons(Loading& loading);

}  // namespace stirbench::library
