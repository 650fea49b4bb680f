#pragma once

#include "sim_core/control/controller.h"

// Shared by the controller's source files only: the inputs of one scan, and the stages in the order of the
// scan.
namespace stirbench::control {

struct Scan {
  const ScanContext& context;
  ControlState& state;
  const plant::SensorReadings& readings;
  const PanelInputs& panel;
  ScanNotices& notices;
  double heat_share_norm = 1.0;  // part of each heating cycle that the demand is passed on (demand.cpp)

  const Recipe* recipe() const {
    const auto index = static_cast<std::size_t>(state.recipe);
    return state.recipe >= 0 && index < context.recipes.size() ? &context.recipes[index] : nullptr;
  }
  bool ruled(InterlockRule rule) const { return in_force(context.without, rule); }
  void refuse(std::string_view reason, std::int32_t subject = -1) {
    notices.push_back({Notice::refused, subject, reason});
  }
};

// keys.cpp
struct KeyEdges {
  std::array<bool, key_count> pressed{};
  bool stop_released = false;
};
KeyEdges read_keys(Scan& scan);
void obey_stop(Scan& scan, const KeyEdges& edges);
void obey_start_keys(Scan& scan, const KeyEdges& edges);
void obey_display(Scan& scan);

// guards.cpp
bool watch_supply(Scan& scan);  // false: no supply, the scan ends here
void watch_causes(Scan& scan);
bool causes_right(const ControlState& state);
void set_prompt(Scan& scan, AlarmId alarm, bool active);
void stop_everything(Scan& scan);
void restart_by_itself(Scan& scan);  // must never happen: only with a rule left out

// alarms.cpp
void set_alarm(Scan& scan, AlarmId id, bool active, bool latched);  // sets both and reports what changed
void acknowledge_all(Scan& scan);
void clear_latched(Scan& scan);  // resets what is latched and acknowledged
void watch_shelves(Scan& scan);  // shelving ends with its time
void obey_alarm_entries(Scan& scan);

// phases.cpp
void begin_recipe(Scan& scan);
void advance_phase(Scan& scan);
void restart_hold(Scan& scan);  // the hold's clock restarts; no effect unless a hold is running
void abort_recipe(Scan& scan);

// demand.cpp
void update_probe_rate(Scan& scan);
Outputs demand(Scan& scan);

}  // namespace stirbench::control
