#pragma once

#include <string>

#include "app/desk/kit/widgets/ui.h"
#include "sim_core/bench/step.h"

namespace stirbench::desk::work {

// What an instructor did, in plain words and the person's units.
std::string instructor_words(const bench::Event& event, const kit::Ui& ui);

}  // namespace stirbench::desk::work
