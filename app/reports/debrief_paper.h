#pragma once

#include <string>

#include "app/library/library.h"
#include "sim_core/training/lesson.h"

// A printed debrief: score and reasons, trend, events, the instructor's marks, the lesson's cautions. Made
// from the journal alone by replaying it, like the debrief on the screen.
namespace stirbench::reports {

struct DebriefHead {
  std::string person;  // empty: not printed
  std::string site;
  std::string when_utc;
};

// PDF bytes. `lesson` may be nullptr (a free run). A journal that does not verify is printed as far as it is
// good, and the page says so. Throws std::invalid_argument when it cannot be run at all (another machine, an
// impossible start).
std::string debrief_pdf(const library::Library& library, const machine::Machine& machine,
                        const training::Lesson* lesson, const std::string& journal_text,
                        const DebriefHead& head);

// One event in plain words; empty for events that readers do not need.
std::string event_text(const machine::Machine& machine, const machine::Event& event);

}  // namespace stirbench::reports
