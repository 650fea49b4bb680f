#pragma once

#include <string>
#include <vector>

#include "app/desk/views/machine_view/machine_view.h"
#include "app/desk/work/run/live_run.h"

// What hands can do to a part of the solid body, as the buttons beside it; the same actions as in the lists.
namespace stirbench::desk::screens {

std::vector<views::PartChoice> body_choices(const std::string& part, const work::LiveRun& run);

}  // namespace stirbench::desk::screens
