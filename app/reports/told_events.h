#pragma once

#include <vector>

#include "sim_core/machine/event.h"

namespace stirbench::reports {

// A run's events in the order in which people tell them. Within one tick a cause stands before its effect:
// what hands did, then what the machine did, then harm. A key that a finger stayed on is one press: the
// journal renews it as long as it is held, and the renewals are left out. Points into `history`.
std::vector<const machine::Event*> told_events(const std::vector<machine::Event>& history);

}  // namespace stirbench::reports
