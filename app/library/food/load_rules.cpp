#include <algorithm>
#include <filesystem>

#include "app/library/loading.h"
#include "app/library/tables.h"

// content/rules and the site's own DATA/rules: files named heat_treatment*.json, cooling*.json,
// organisms*.json. All are combined; a site adds a rule of its own by adding a file.
namespace stirbench::library {

namespace {

// Moves entries into a list; an id that is there already is a problem at its place in the file.
template <class T>
void take(Loading& loading, const SourceText& source, const std::string& key, std::vector<T>& from,
          std::vector<T>& into) {
  for (std::size_t i = 0; i < from.size(); ++i) {
    const std::string& id = from[i].id;
    const bool there = std::any_of(into.begin(), into.end(), [&id](const T& one) { return one.id == id; });
    if (there)
      loading.problem(source.shown, "/" + key + "/" + std::to_string(i) + "/id", "an id that is not used yet",
                      in_quotes(id));
    else
      into.push_back(std::move(from[i]));
  }
}

void load_file(Loading& loading, const SourceText& source) {
  product::Rules& rules = loading.library.rules;
  if (source.stem.starts_with("heat_treatment")) {
    HeatRuleFile file;
    read_text(loading, heat_rule_table(), source, file);
    for (product::HeatRule& row : file.rows) {
      if (row.temperature_degF != 0.0) row.temperature_degC = (row.temperature_degF - 32.0) / 1.8;
    }
    take(loading, source, "rows", file.rows, rules.rows);
  } else if (source.stem.starts_with("cooling")) {
    CoolingFile file;
    read_text(loading, cooling_table(), source, file);
    take(loading, source, "cooling", file.cooling, rules.cooling);
    take(loading, source, "storage", file.storage, rules.storage);
    take(loading, source, "ageing", file.ageing, rules.ageing);
  } else if (source.stem.starts_with("organisms")) {
    OrganismFile file;
    read_text(loading, organism_table(), source, file);
    take(loading, source, "inactivation", file.inactivation, rules.inactivation);
    take(loading, source, "growth", file.growth, rules.growth);
  } else {
    loading.problem(source.shown, "", "a name that begins with heat_treatment, cooling or organisms",
                    in_quotes(source.stem));
  }
}

}  // namespace

void load_rules(Loading& loading, const std::string& own_dir, std::map<std::string, std::string>& hashed) {
  for (const SourceText& source : json_files(loading, loading.content_dir + "/rules", "rules")) {
    load_file(loading, source);
    hashed[source.shown] = source.bytes;
  }
  if (!own_dir.empty()) {
    for (const SourceText& source : json_files(loading, own_dir + "/rules", own_dir + "/rules"))
      load_file(loading, source);
  }
  product::Rules& rules = loading.library.rules;
  if (rules.rows.empty())
    loading.problem("rules", "", "at least one heat-treatment row (rules/heat_treatment.json)", "none");
  product::sort_heat_rules(rules.rows);
  for (const auto& one : rules.rows) loading.names.rows.push_back(one.id);
  for (const auto& one : rules.cooling) loading.names.cooling.push_back(one.id);
}

}  // namespace stirbench::library
