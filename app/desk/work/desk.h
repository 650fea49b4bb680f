#pragma once

#include <memory>
#include <optional>
#include <string>

#include "app/desk/work/run/live_run.h"
#include "app/library/library.h"
#include "app/records/store.h"

// What all screens share: the content, the records, who is here, and the run under way. Screens get a
// reference; they own none of it.
namespace stirbench::desk::work {

struct DeskOptions {
  std::string content_dir;   // empty: found by library::content_dir()
  std::string data_dir;      // empty: found by library::data_dir("")
  std::string open_journal;  // not empty: debrief of this file
};

// What the debrief screen is to show.
struct DebriefRequest {
  std::string journal_text;
  std::string title;
  std::string attempt_uid{};  // of the kept attempt, empty when none is
  std::int64_t person = 0;    // whose run it is; 0: nobody's
  std::string when_utc{};
};
// Of a run that has just ended.
DebriefRequest debrief_of(const LiveRun& run);

struct Desk {
  std::string content_dir;
  std::string data_dir;
  library::Library library;
  std::string content_problem;            // own recipes that could not be read ...
  std::unique_ptr<records::Store> store;  // null: nothing can be kept
  std::string store_problem;              // why
  records::Person person;                 // id 0: nobody chosen
  records::Access access;                 // as the PIN showed it; of `person`
  std::string machine_id = "hm-45";       // the machine that free run and recipe bench look at
  bool solid_view = false;       // the training screen shows the machine's body instead of the schematic
  bool usual_draws = false;      // runs meet each lesson's usual values: for windows that are tested
  std::unique_ptr<LiveRun> run;  // the run on the training screen
  std::optional<DebriefRequest> debrief;

  // Loads content and own recipes again (after a recipe was saved); problems go to content_problem and the
  // former library stays.
  void reload();
};

// Opens the content; writes nothing. Throws std::runtime_error with a located message when the shipped
// content does not load.
std::unique_ptr<Desk> open_desk(const DeskOptions& options);

// Opens the records, creating the person's folder when it is absent. Trouble goes to store_problem; the desk
// works without.
void open_records(Desk& desk);

// The lesson as a new run meets it: drawn afresh, so that nobody can practise the very run to come. With a
// seed that none of the person's runs of this lesson has had, and as far as its draws are many, with none of
// their draws either (fresh_draw.cpp). Nothing when there is no such lesson.
std::optional<training::Lesson> lesson_to_run(const Desk& desk, const std::string& id);

// What the person who is here has shown of the lesson's skills before (guidance/ladder.h); 0 when nobody is
// chosen or nothing can be read.
int grasp_in(const Desk& desk, const training::Lesson& lesson);

// Who is here, with the rights they have now: nobody's when nobody is chosen, everybody's while the records
// have no manager.
records::Access who_is_here(const Desk& desk);

// Now, as records keep it: "2026-01-31T07:05:09Z".
std::string utc_now();

}  // namespace stirbench::desk::work
