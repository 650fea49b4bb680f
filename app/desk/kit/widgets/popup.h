#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

// A list that drops down from `anchor` while open. Returns the index chosen in this frame, or -1. Items:
// "ID.0", "ID.1", ...
void open_popup(Ui& ui, std::string_view id);
int popup_list(Ui& ui, std::string_view id, const Rect& anchor, const std::vector<std::string>& items,
               int chosen);

}  // namespace stirbench::desk::kit
