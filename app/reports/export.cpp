#include "app/reports/export.h"

#include <algorithm>
#include <charconv>
#include <map>

#include "app/records/csv.h"

namespace stirbench::reports {

namespace {

using records::csv_cell;
using records::csv_line;

// Numbers are written plain, by our own hand: no text in them.
std::string number(double value) {
  char buffer[64];
  return {buffer, std::to_chars(buffer, buffer + sizeof buffer, value).ptr};
}

std::map<std::int64_t, records::Person> people_of(records::Store& store) {
  std::map<std::int64_t, records::Person> all;
  for (const records::Person& one : store.people(true)) all[one.id] = one;
  return all;
}

const char* state_word(records::CertificateState state) {
  switch (state) {
    case records::CertificateState::valid: return "valid";
    case records::CertificateState::revoked: return "revoked";
    case records::CertificateState::renewed: return "renewed";
  }
  return "valid";
}

}  // namespace

const char* cell_word(records::StandingState state) {
  switch (state) {
    case records::StandingState::valid: return "valid";
    case records::StandingState::due: return "due";
    case records::StandingState::lapsed: return "lapsed";
    case records::StandingState::not_yet: return "not yet";
  }
  return "not yet";
}

std::string day_text(std::int64_t seconds) {
  return seconds == 0 ? "" : records::utc_text(seconds).substr(0, 10);
}

std::string attempts_csv(records::Store& store, const library::Library& library) {
  const auto people = people_of(store);
  std::string out = csv_line({"attempt", "person", "number", "lesson", "title", "mode", "machine",
                              "started_utc", "finished", "passed", "score_norm", "must_pass_missed",
                              "simulated_s", "lesson_hash", "state_hash", "journal_sha256"});
  std::vector<records::Attempt> all = store.attempts(std::nullopt);
  std::reverse(all.begin(), all.end());
  for (const records::Attempt& a : all) {
    const auto person = people.find(a.person);
    const auto lesson = library.lessons.find(a.lesson);
    out += csv_line({csv_cell(a.uid), csv_cell(person == people.end() ? "" : person->second.name),
                     csv_cell(person == people.end() ? "" : person->second.number), csv_cell(a.lesson),
                     csv_cell(lesson == library.lessons.end() ? a.lesson : lesson->second.title),
                     csv_cell(a.mode), csv_cell(a.machine), csv_cell(a.started_utc),
                     a.finished ? "yes" : "no", a.passed ? "yes" : "no", number(a.score_norm),
                     std::to_string(a.musts_missed), number(a.simulated_s), csv_cell(a.lesson_hash),
                     csv_cell(a.state_hash), csv_cell(a.journal_sha256)});
  }
  return out;
}

std::string standings_csv(const std::vector<records::Standing>& rows, const library::Library& library,
                          const training::Demand& demand) {
  std::vector<std::string> head = {"person", "number", "may_work", "certified_until"};
  for (const std::string& id : demand.skills) {
    const auto skill = library.skills.find(id);
    const std::string title = skill == library.skills.end() ? id : skill->second.title;
    head.push_back(csv_cell(title));
    head.push_back(csv_cell(title + " until"));
  }
  head.emplace_back("missing");
  std::string out = csv_line(head);
  for (const records::Standing& row : rows) {
    std::vector<std::string> cells = {csv_cell(row.person.name), csv_cell(row.person.number),
                                      row.may_work ? "yes" : "no", day_text(row.certified_until_s)};
    for (const std::string& id : demand.skills) {
      const records::SkillStanding& cell = row.cells.at(id);
      cells.emplace_back(cell_word(cell.state));
      cells.push_back(day_text(cell.until_s));
    }
    std::string missing;
    for (const std::string& line : row.demand.missing) missing += (missing.empty() ? "" : "; ") + line;
    cells.push_back(csv_cell(missing));
    out += csv_line(cells);
  }
  return out;
}

std::string certificates_csv(records::Store& store) {
  const auto people = people_of(store);
  const auto name = [&people](std::int64_t id) {
    const auto found = people.find(id);
    return csv_cell(found == people.end() ? "" : found->second.name);
  };
  std::string out = csv_line({"serial", "person", "demand", "issued_utc", "until_utc", "issuer", "state",
                              "changed_utc", "reason", "renews"});
  for (const records::Certificate& c : store.certificates())
    out += csv_line({csv_cell(c.uid), name(c.person), csv_cell(c.demand), csv_cell(c.issued_utc),
                     csv_cell(c.until_utc), name(c.issuer), state_word(c.state), csv_cell(c.changed_utc),
                     csv_cell(c.reason), csv_cell(c.renews)});
  return out;
}

}  // namespace stirbench::reports
