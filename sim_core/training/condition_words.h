#pragma once

#include <string>

#include "sim_core/training/condition.h"

namespace stirbench::training {

// A condition in short, for authors and messages: "lid_open is no", "mass_kg at least 21.9 and mode is
// running".
std::string words_of(const Condition& condition);

}  // namespace stirbench::training
