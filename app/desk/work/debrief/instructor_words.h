#pragma once

#include <string>

#include "app/desk/kit/text/units.h"
#include "sim_core/bench/event.h"

namespace stirbench::desk::work {

// What an instructor did, in plain words and the person's units.
std::string instructor_words(const bench::Event& event, const kit::UnitChoice& units);

}  // namespace stirbench::desk::work
