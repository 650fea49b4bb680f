#include "app/desk/work/desk.h"

#include <ctime>
#include <stdexcept>

#include "app/desk/kit/text/text.h"
#include "app/library/reading/paths.h"

namespace stirbench::desk::work {

void Desk::reload() {
  library::LoadResult loaded = library::load(content_dir, data_dir);
  content_problem.clear();
  for (const auto& problem : loaded.problems)
    content_problem += (content_problem.empty() ? "" : "\n") + problem.text();
  if (loaded.problems.empty()) library = std::move(loaded.library);
}

namespace {

// Shipped content must be good; a broken recipe of one's own must not keep the desk shut.
void load_content(Desk& desk) {
  desk.reload();
  if (desk.content_problem.empty()) return;
  const std::string own_problem = desk.content_problem;
  library::LoadResult shipped = library::load(desk.content_dir, "");
  if (!shipped.problems.empty()) {
    std::string all;
    for (const auto& problem : shipped.problems) all += (all.empty() ? "" : "\n") + problem.text();
    throw std::runtime_error(all);
  }
  desk.library = std::move(shipped.library);
  desk.content_problem = own_problem;
}

}  // namespace

void open_records(Desk& desk) {
  try {
    desk.store = std::make_unique<records::Store>(desk.data_dir);
  } catch (const records::StoreError& error) {
    desk.store_problem = error.text;
  }
}

int grasp_in(const Desk& desk, const training::Lesson& lesson) {
  if (!desk.store || desk.person.id == 0) return 0;
  try {
    std::vector<training::ShownRun> runs;
    for (records::AttemptBrief& one : desk.store->briefs(desk.person.id))
      runs.push_back({std::move(one.marks), one.hinted || !one.whole});
    return training::grasp_of(training::judged_skills(lesson), runs);
  } catch (const records::StoreError&) {
    return 0;  // then all help is shown
  }
}

records::Access who_is_here(const Desk& desk) {
  if (!desk.store) return {};
  if (desk.person.id != 0 && desk.access.person == desk.person.id) {
    records::Access access = desk.access;
    access.open = !desk.store->managed();
    return access;
  }
  records::Access access = desk.store->nobody();
  // Nobody has to show a PIN in records without a manager; the name is still known.
  if (access.open && desk.person.id != 0) {
    access.person = desk.person.id;
    access.uid = desk.person.uid;
  }
  return access;
}

std::unique_ptr<Desk> open_desk(const DeskOptions& options) {
  auto desk = std::make_unique<Desk>();
  desk->content_dir = options.content_dir.empty() ? library::content_dir() : options.content_dir;
  desk->data_dir = library::data_dir(options.data_dir);
  load_content(*desk);
  if (!options.open_journal.empty()) {
    desk->debrief = DebriefRequest{library::read_file(options.open_journal), options.open_journal};
  }
  return desk;
}

DebriefRequest debrief_of(const LiveRun& run) {
  const auto& kept = run.attempt();
  return {run.journal_text(), run.lesson() != nullptr ? kit::tr(run.lesson()->title) : kit::tr("Free run"),
          kept ? kept->uid : "", kept ? kept->person : 0, kept ? kept->started_utc : ""};
}

std::string utc_now() {
  const std::time_t now = std::time(nullptr);
  std::tm utc{};
  gmtime_r(&now, &utc);
  char buffer[32];
  std::strftime(buffer, sizeof buffer, "%Y-%m-%dT%H:%M:%SZ", &utc);
  return buffer;
}

}  // namespace stirbench::desk::work
