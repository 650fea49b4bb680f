#pragma once

#include <string>

#include "app/desk/kit/widgets/ui.h"
#include "app/desk/screens/fault/fault_aids.h"
#include "app/desk/work/fault/fault_search.h"
#include "app/library/library.h"

// The three panels of the fault-finding screen.
namespace stirbench::desk {

// What you see (search, chips) and the way so far.
void draw_fault_way(Ui& ui, FaultSearch& search, std::string& query, const Rect& rect);

// The next check with its caution, how, expected reading and answers; or the repair.
void draw_fault_check(Ui& ui, FaultSearch& search, const library::Library& library, FaultAids& aids, const Rect& rect);

// Ranked causes with probability and why.
void draw_fault_causes(Ui& ui, FaultSearch& search, const Rect& rect, bool& asks_how_sure);

}  // namespace stirbench::desk
