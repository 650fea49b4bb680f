#include <doctest/doctest.h>

#include <limits>
#include <set>

#include "sim_core/faults/safety.h"
#include "sim_core/machine/fields.h"

using namespace stirbench;

namespace {

// Counts the fields that differ between two sets of parts.
int changed(const plant::SafetyParts& a, const plant::SafetyParts& b) {
  const auto words = [](const plant::SafetyParts& parts) {
    struct Visitor {
      std::vector<double> seen;
      void operator()(const char*, double value, std::size_t = 0) { seen.push_back(value); }
      void operator()(const char*, plant::KeyContact value, std::size_t = 0) {
        seen.push_back(static_cast<double>(value));
      }
      void enter(const char*, std::size_t) {}
      void leave() {}
    } visitor;
    machine::visit(visitor, parts);
    return visitor.seen;
  };
  const auto x = words(a), y = words(b);
  int count = 0;
  for (std::size_t i = 0; i < x.size(); ++i) count += x[i] != y[i] ? 1 : 0;
  return count;
}

}  // namespace

TEST_CASE("each fault of a safety part has its own id and words, and changes one part") {
  std::set<std::string_view> ids;
  for (const faults::SafetyFault& fault : faults::safety_faults()) {
    CAPTURE(fault.id);
    CHECK(ids.insert(fault.id).second);
    CHECK(fault.title.size() > 10);
    CHECK(fault.wiring.size() > 20);
    CHECK(faults::find_safety_fault(fault.id) == &fault);
    plant::PlantState state;
    CHECK(faults::inject_safety_fault(state, fault.id, 1.0) == "");
    CHECK(changed(plant::SafetyParts{}, state.safety) == 1);
  }
  CHECK(ids.size() >= 15);
}

TEST_CASE("an unknown fault or a severity out of range is refused and changes nothing") {
  plant::PlantState state;
  CHECK(faults::inject_safety_fault(state, "gremlin", 1.0) == "there is no fault \"gremlin\"");
  for (const double severity : {0.0, -1.0, 1.5, std::numeric_limits<double>::quiet_NaN()}) {
    CHECK(faults::inject_safety_fault(state, "lid_reed_stuck", severity).find("severity") !=
          std::string::npos);
  }
  CHECK(changed(plant::SafetyParts{}, state.safety) == 0);
}
