#pragma once

#include <string>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/screens/fault/fault_aids.h"
#include "app/desk/work/fault/fault_search.h"
#include "app/library/library.h"

// The three panels of the fault-finding screen.
namespace stirbench::desk::screens {

std::string minutes_words(double minutes);

// What you see (search, chips, a log) and the way so far.
void draw_fault_way(kit::Ui& ui, work::FaultSearch& search, std::string& query, bool& asks_for_log,
                    const kit::Rect& rect);

// The next check with its caution, how, expected reading and answers; or the repair.
void draw_fault_check(kit::Ui& ui, work::FaultSearch& search, const library::Library& library,
                      FaultAids& aids, const kit::Rect& rect);

// Ranked causes with probability and why.
void draw_fault_causes(kit::Ui& ui, work::FaultSearch& search, const kit::Rect& rect, bool& asks_how_sure);

}  // namespace stirbench::desk::screens
