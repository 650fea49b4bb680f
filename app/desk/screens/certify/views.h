#pragma once

#include <optional>
#include <string>

#include "app/desk/kit/widgets/widgets.h"
#include "app/desk/work/certify/model.h"

// The two halves of the certify screen.
namespace stirbench::desk::screens {

// The table: whom to show, legend, headings, a row for each person, a mark for each skill. A pressed cell:
// its person and skill.
struct PressedCell {
  std::int64_t person = 0;
  std::string skill;
};
std::optional<PressedCell> draw_standings(kit::Ui& ui, work::CertifyModel& model,
                                          const library::Library& library, const kit::Rect& rect);

// What is wanted after the side was drawn.
struct SideRequests {
  std::optional<records::Attempt> replay;  // look at this run
  std::string sign;                        // task to be signed as seen
  std::string sealed;                      // lesson to start as a sealed test
  bool issue = false;
  bool revoke = false;
  bool save = false;  // the certificate's file and PDF
};
SideRequests draw_side(kit::Ui& ui, const work::CertifyModel& model, const work::Desk& desk,
                       const kit::Rect& rect);

kit::Icon cell_icon(records::StandingState state);
kit::Token cell_colour(records::StandingState state);

}  // namespace stirbench::desk::screens
