#pragma once

#include <string>

#include "app/desk/kit/text/units.h"
#include "sim_core/machine/event.h"

namespace stirbench::desk::work {

// What an instructor did, in plain words and the person's units.
std::string instructor_words(const machine::Event& event, const kit::UnitChoice& units);

}  // namespace stirbench::desk::work
