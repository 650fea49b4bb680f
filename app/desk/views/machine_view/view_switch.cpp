#include "app/desk/views/machine_view/view_switch.h"

#include <algorithm>

#include "app/desk/kit/text/text.h"
#include "app/desk/kit/widgets/button.h"

namespace stirbench::desk::views {

using kit::tr;

float view_switch_width(const kit::Ui& ui) {
  return std::max(button_width(ui, tr("Schematic")), button_width(ui, tr("Solid view")));
}

bool view_switch(kit::Ui& ui, std::string_view id, bool& solid, const kit::Rect& stage) {
  const float width = view_switch_width(ui);
  const float height = ui.theme.control_height();
  const float margin = ui.px(10.0F);
  const kit::Rect rect{stage.right() - width - margin,
                       stage.bottom() - height - (solid ? margin : ui.px(4.0F)), width, height};
  const bool pressed = button_at(ui, id, solid ? tr("Schematic") : tr("Solid view"), rect,
                                 {.hint = solid ? tr("Show the flow and heat as a drawing")
                                                : tr("Show the machine as it stands in the room"),
                                  .value = solid ? "solid" : "schematic"});
  if (pressed) solid = !solid;
  return pressed;
}

}  // namespace stirbench::desk::views
