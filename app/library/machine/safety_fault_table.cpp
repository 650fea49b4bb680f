#include "app/library/tables.h"
#include "sim_core/explore/invariants.h"
#include "sim_core/faults/safety.h"

// The table of safety parts that fail, as `stirbench explore --table` writes it.
namespace stirbench::library {

namespace {

std::vector<std::string> invariant_ids() {
  std::vector<std::string> ids;
  for (std::size_t i = 0; i < explore::invariant_count; ++i)
    ids.emplace_back(explore::invariant_id(static_cast<explore::Invariant>(i)));
  return ids;
}

std::vector<std::string> fault_ids() {
  std::vector<std::string> ids;
  for (const faults::SafetyFault& fault : faults::safety_faults()) ids.emplace_back(fault.id);
  return ids;
}

// A word out of a list that the program knows.
Shape<std::string> one_of(std::vector<std::string> known, const std::string& what) {
  Json schema{{"type", "string"}, {"enum", known}};
  return {[known = std::move(known), what](Reader& reader, const Json& json, std::string& out) {
            if (!json.is_string()) return reader.problem(what, found_text(json));
            out = json.get<std::string>();
            if (std::find(known.begin(), known.end(), out) == known.end())
              reader.problem(expect_name(what, out, known), in_quotes(out));
          },
          std::move(schema), what};
}

}  // namespace

const Object<SafetyFaultFile>& safety_fault_table() {
  static const Object<SafetyFaultFile> table = [] {
    using R = SafetyFaultRow;
    Object<R> row;
    row.need("fault", &R::fault, one_of(fault_ids(), "a fault of a safety part"), "Id of the fault.")
        .need("title", &R::title, text(1, 120), "What it is called.")
        .need("wiring", &R::wiring, text(1, 400), "What it does, as it is wired.")
        .need("defeat", &R::defeat, flag(), "Done by somebody, on purpose.")
        .need("fall", &R::fall,
              list(one_of(invariant_ids(), "a known invariant"), 0, explore::invariant_count, true),
              "What no longer holds with it.");
    Object<SafetyFaultFile> t;
    t.format(1).need("faults", &SafetyFaultFile::faults, list(row.shape(), 1, 100),
                     "One entry for each fault.");
    return t;
  }();
  return table;
}

}  // namespace stirbench::library
