#include "app/cli/service.h"

#include <algorithm>

#include "app/cli/common.h"
#include "sim_core/plant/upkeep/service.h"

namespace stirbench::cli {

nlohmann::json service_json(const machine::Machine& machine, const machine::State& state) {
  nlohmann::json lines = nlohmann::json::array();
  for (const plant::ServiceLine& line : plant::service_forecast(machine.plant, state.plant)) {
    lines.push_back({{"part", std::string(line.key)},
                     {"now", line.now},
                     {"limit", line.limit},
                     {"per_h", line.per_h},
                     {"hours_left", line.hours_left},
                     {"due", line.due()}});
  }
  return lines;
}

void print_service(const machine::Machine& machine, const machine::State& state) {
  for (const plant::ServiceLine& line : plant::service_forecast(machine.plant, state.plant)) {
    std::string title(line.title);
    title.resize(std::max<std::size_t>(title.size() + 1, 20), ' ');
    print(title + (line.due() ? "due now" : "lasts about " + fixed(line.hours_left, 0) + " h of use"));
  }
}

}  // namespace stirbench::cli
