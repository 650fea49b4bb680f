#pragma once

#include <string>
#include <vector>

#include "app/desk/views/body/body_view.h"
#include "app/library/body.h"

// How a learner points at a part that a lesson asks for: in the solid view or in a plain list.
namespace stirbench::desk::screens {

// Shows in the picture what was newly chosen in the list; a choice made in the picture takes the list's back,
// so that nothing is named by it. `listed`: the list's choice a frame ago.
void show_listed(views::BodyView& view, std::string& chosen, std::string& listed);

// The choice on the chosen part's card.
views::PartChoice pointing_choice(const std::string& part);

// The plain list: every part of the body by name; `chosen` is the part that the picture shows. Searched by
// typing.
void draw_point_group(kit::Ui& ui, std::string& query, std::string& chosen,
                      const std::vector<library::BodyPart>& parts, std::vector<hands::Action>& out);

// What it was that somebody pointed at, said under the question until the next pointing.
struct Pointed {
  std::string title;  // of the part; empty: nothing was pointed at yet
  std::string purpose;
  bool right = false;
};
Pointed pointed_at(const std::vector<library::BodyPart>& parts, const std::string& part_id, bool right);
void draw_pointed(kit::Ui& ui, const Pointed& pointed);

}  // namespace stirbench::desk::screens
