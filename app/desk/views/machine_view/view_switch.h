#pragma once

#include <string_view>

#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::views {

// The switch between schematic and body, in the lower right corner of the stage. `solid`: the body shows.
// True when changed.
bool view_switch(kit::Ui& ui, std::string_view id, bool& solid, const kit::Rect& stage);
float view_switch_width(const kit::Ui& ui);

}  // namespace stirbench::desk::views
