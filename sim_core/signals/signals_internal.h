#pragma once

#include <vector>

#include "sim_core/signals/signals.h"

namespace stirbench::signals {

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
