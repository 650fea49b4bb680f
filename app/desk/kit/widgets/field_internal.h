#pragma once

#include <string>
#include <string_view>

#include "app/desk/kit/widgets/dialog.h"
#include "app/desk/kit/widgets/field.h"
#include "app/desk/kit/widgets/item.h"

// Parts that text and number fields share. Screens use field.h.
namespace stirbench::desk::kit {

struct TextEdit {
  bool changed = false;
  bool active = false;  // holds the keyboard for typing
  bool entered = false;
  bool hovered = false;
};

// The framed text input at `rect`; `right_room` pixels at its right stay free (a unit). Moves the cursor
// below.
TextEdit edit_text(Ui& ui, const Rect& rect, const ItemSpec& spec, std::string& words,
                   const FieldStyle& style, float right_room);
void field_label(Ui& ui, std::string_view label, bool above);
void field_error(Ui& ui, const std::string& error);

}  // namespace stirbench::desk::kit
