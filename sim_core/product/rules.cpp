#include "sim_core/product/rules.h"

#include <algorithm>
#include <tuple>

namespace stirbench::product {

void sort_heat_rules(std::vector<HeatRule>& rows) {
  std::sort(rows.begin(), rows.end(), [](const HeatRule& a, const HeatRule& b) {
    return std::tie(a.jurisdiction, a.kind, a.temperature_degC, a.id) <
           std::tie(b.jurisdiction, b.kind, b.temperature_degC, b.id);
  });
}

const HeatRule* find_heat_rule(const Rules& rules, const std::string& id) {
  const auto at =
      std::find_if(rules.rows.begin(), rules.rows.end(), [&id](const HeatRule& row) { return row.id == id; });
  return at == rules.rows.end() ? nullptr : &*at;
}

std::vector<std::string> jurisdictions(const Rules& rules) {
  std::vector<std::string> out;
  for (const auto& one : rules.rows) out.push_back(one.jurisdiction);
  for (const auto& one : rules.cooling) out.push_back(one.jurisdiction);
  for (const auto& one : rules.storage) out.push_back(one.jurisdiction);
  std::sort(out.begin(), out.end());
  out.erase(std::unique(out.begin(), out.end()), out.end());
  return out;
}

}  // namespace stirbench::product
