#pragma once

#include <vector>

#include "sim_core/signals/signals.h"

namespace stirbench::signals {

// A row of the table in short.
using M = const Machine&;
using S = const State&;

inline Signal number(std::string_view name, std::string_view meaning, double (*value)(M, S),
                     bool in_trace = false) {
  return {name, SignalKind::number, meaning, value, nullptr, in_trace};
}
inline Signal flag(std::string_view name, std::string_view meaning, double (*value)(M, S),
                   bool in_trace = false) {
  return {name, SignalKind::flag, meaning, value, nullptr, in_trace};
}
inline Signal text(std::string_view name, std::string_view meaning, std::string_view (*value)(M, S),
                   bool in_trace = false) {
  return {name, SignalKind::text, meaning, nullptr, value, in_trace};
}
inline double as_number(bool value) { return value ? 1.0 : 0.0; }

// signals_plant.cpp: temperatures, masses, wear, fittings, trips.
void add_plant_signals(std::vector<Signal>& list);

// signals_freezer.cpp: the batch freezer and its tub.
void add_freezer_signals(std::vector<Signal>& list);

// signals_safe_work.cpp: lock-out, protective equipment, floor and bucket.
void add_safe_work_signals(std::vector<Signal>& list);
// signals_safety.cpp: emergency stop, contactors, alarm states.
void add_safety_signals(std::vector<Signal>& list);

// signals_assembly.cpp: what can be taken apart.
void add_assembly_signals(std::vector<Signal>& list);
// signals_service.cpp: hose, washing, wear service.
void add_service_signals(std::vector<Signal>& list);

// signals_fault_work.cpp: instruments, causes, repairs.
void add_fault_work_signals(std::vector<Signal>& list);

}  // namespace stirbench::signals
