#pragma once

#include <imgui.h>

#include <string>
#include <vector>

#include "app/desk/kit/theme/theme.h"

namespace stirbench::desk::kit {

struct FontFiles {
  std::string regular;
  std::string bold;
  std::string mono;
  std::string fallback;  // may be empty: letters B612 lacks (such as those of Polish or Czech names)
  std::string error;     // not empty: what is missing, where it was looked for, and the way out
  std::vector<std::string> searched;
};

// Looks for B612 (Debian package fonts-b612) in $STIRBENCH_FONTS, then where fontconfig looks.
FontFiles find_fonts();
// The same in these folders and those below them alone.
FontFiles find_fonts(const std::vector<std::string>& folders);

// Builds the atlas for a theme at a scale. The texture is made by the renderer afterwards.
class FontSet {
 public:
  // dpi_scale 0.5..4, text_scale 1..2. Empty = fine, else the message.
  static std::string build(Theme& theme, ImFontAtlas& atlas, const FontFiles& files, float dpi_scale,
                           float text_scale);
};

}  // namespace stirbench::desk::kit
