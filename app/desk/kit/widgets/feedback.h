#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "app/desk/kit/signs/signs.h"
#include "app/desk/kit/theme/status.h"
#include "app/desk/kit/widgets/icon.h"
#include "app/desk/kit/widgets/ui.h"

namespace stirbench::desk::kit {

Icon status_icon(Status state);  // ring, info, check (filled dot), half ring, cross, ring
Token status_colour(Status state);

// Shape and words on one line.
void status_mark(Ui& ui, Status state, std::string_view words, const char* id = nullptr);

// A bar 0..1 over the region's width, words under it.
void progress_bar(Ui& ui, double share, std::string_view words = {}, Token colour = Token::act,
                  const char* id = nullptr);

// Phases as beads on a line: done ones filled, the current one a ring in bold, later ones open. `within` 0..1
// is the progress from the current bead to the next. Registers "ID" with value "2/5".
void beads(Ui& ui, std::string_view id, const std::vector<std::string>& labels, int current, const Rect& rect,
           double within = 0.0);

// Hazard, consequence, what to do: amber ground, warning sign, ink text. At the cursor over the region's
// width.
void caution_box(Ui& ui, std::string_view id, std::string_view words, SignId which = SignId::w001);

// One line or paragraph that reports something: shape, words, ground by state.
void notice(Ui& ui, std::string_view id, Status state, std::string_view words);

// Progress of work that runs elsewhere: words, bar or (share < 0) three moving dots, Cancel ("ID.cancel").
// True when Cancel is pressed.
bool busy(Ui& ui, std::string_view id, std::string_view words, double share);

}  // namespace stirbench::desk::kit
