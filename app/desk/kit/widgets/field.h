#pragma once

#include <string>
#include <string_view>

#include "app/desk/kit/widgets/button.h"
#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

struct FieldStyle {
  std::string hint{};   // shown while empty
  std::string error{};  // not empty: red border, mark and these words under it
  bool enabled = true;
  std::string reason{};
  bool password = false;
  bool multiline = false;
  Place place{};
  bool label_above = true;  // false: the label is only registered
};

// True when the text changed in this frame. `label` stands above the field.
bool text_field(Ui& ui, std::string_view id, std::string_view label, std::string& text,
                const FieldStyle& style = {});
// True in the frame in which Enter was pressed in the text field of this id.
bool entered(Ui& ui, std::string_view id);

struct NumberStyle {
  std::string unit{};  // shown inside the field at the right
  double min = 0.0;
  double max = 100.0;
  double step = 1.0;  // of the stepper buttons ("ID.minus", "ID.plus") and of the arrow keys
  int decimals = 1;
  std::string error{};  // in addition to "between min and max"
  bool enabled = true;
  std::string reason{};
  bool stepper = true;
  bool label_above = true;
  Place place{};
};

// A number people type or step. True when `value` changed; it always stays within min and max. What cannot be
// read as a number, or is out of range, is left in the field with a message until it is put right, and
// `value` keeps the last good one.
bool number_field(Ui& ui, std::string_view id, std::string_view label, double& value,
                  const NumberStyle& style);

struct QuantityStyle {
  double min_si = 0.0;
  double max_si = 0.0;
  double step_shown = 1.0;  // in the person's unit
  int decimals = -1;
  std::string error{};
  bool enabled = true;
  std::string reason{};
  bool stepper = true;
  bool label_above = true;
  Place place{};
};

// number_field in the person's units; `si` is kept in SI (temperature in degC).
bool quantity_field(Ui& ui, std::string_view id, std::string_view label, Quantity quantity, double& si,
                    const QuantityStyle& style);

struct SliderStyle {
  double min = 0.0;
  double max = 1.0;
  double step = 0.0;         // 0 = continuous; arrow keys move by step, or by 1/20 of the range
  std::string value_text{};  // shown at the right of the label; default: the number
  bool enabled = true;
  std::string reason{};
  bool label_above = true;
  Place place{};
};

// True when changed. Dragging, clicking into the track, arrow keys, Home and End.
bool slider(Ui& ui, std::string_view id, std::string_view label, double& value,
            const SliderStyle& style = {});

}  // namespace stirbench::desk::kit
