#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/desk/kit/widgets/button.h"
#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

struct ToggleStyle {
  bool enabled = true;
  std::string reason{};
  std::string detail{};  // a quieter second line
};

// True when changed.
bool checkbox(Ui& ui, std::string_view id, std::string_view label, bool& on, const ToggleStyle& style = {});

// One of several, side by side as connected segments (wraps to lines when narrow). Ids "ID.0", "ID.1", ...
// True when changed.
bool radio_row(Ui& ui, std::string_view id, const std::vector<std::string>& labels, int& chosen);

// One of several, one below the other, with round marks. Ids "ID.0", ... True when changed.
bool radio_list(Ui& ui, std::string_view id, const std::vector<std::string>& labels, int& chosen);

// Label, then a drop-down list. Ids: "ID" opens, "ID.0", ... choose. True when changed.
bool choice(Ui& ui, std::string_view id, std::string_view label, const std::vector<std::string>& labels,
            int& chosen, const ButtonStyle& style = {});

}  // namespace stirbench::desk::kit
