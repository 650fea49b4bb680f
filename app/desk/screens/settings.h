#pragma once

#include <string>

#include "app/desk/kit/text/units.h"
#include "app/desk/kit/theme/theme.h"

namespace stirbench::desk::screens {

// What a person set up once.
struct Settings {
  kit::UnitChoice units;
  int text_percent = 100;  // 100..200
  kit::ThemeKind theme = kit::ThemeKind::light;
  bool reduced_motion = false;
  std::string language = "en";
  std::string rules_of;     // jurisdiction whose rules the debrief shows; empty: all
  std::string last_person;  // id of the person who used the desk last; may be empty
  bool operator==(const Settings&) const = default;
};

}  // namespace stirbench::desk::screens
