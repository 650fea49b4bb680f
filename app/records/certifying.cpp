#include "app/records/certifying.h"

#include <algorithm>

namespace stirbench::records {

namespace {

constexpr std::int64_t day_s = 86400;

SkillStanding cell_of(const training::Demand& demand, const training::Skill& skill,
                      training::SkillVerdict verdict, std::int64_t now_s) {
  SkillStanding cell;
  if (verdict.answer == training::SequentialAnswer::competent) {
    const int days = std::min(demand.valid_days, skill.repeat_days);
    cell.until_s = verdict.shown_s + day_s * days;
    if (cell.until_s <= now_s)
      cell.state = StandingState::lapsed;
    else
      cell.state = cell.until_s <= now_s + day_s * due_days ? StandingState::due : StandingState::valid;
  }
  cell.stuck = verdict.practise_first || (verdict.tests >= 3 && verdict.passed == 0);
  cell.verdict = std::move(verdict);
  return cell;
}

std::vector<training::ObservedTask> seen_by_demand(const std::vector<Observation>& all,
                                                   const std::string& demand) {
  std::vector<training::ObservedTask> out;
  for (const Observation& one : all) {
    if (one.demand == demand) out.push_back({one.uid, one.task, one.passed, utc_seconds(one.at_utc)});
  }
  return out;
}

EvidenceItem evidence_item(const Attempt& a) {
  return {a.uid,    a.lesson,     a.lesson_hash,    a.started_utc,
          a.passed, a.score_norm, a.journal_sha256, a.state_hash};
}

std::string joined(const std::vector<std::string>& lines) {
  std::string out;
  for (const std::string& line : lines) out += "\n  " + line;
  return out;
}

// Skills, the attempts that show them, and what was seen at the machine.
void add_evidence(Store& store, const library::Library& library, const training::Demand& demand,
                  const Standing& standing, CertificateText& text) {
  std::vector<std::int64_t> ids;
  for (const std::string& id : demand.skills) {
    const auto skill = library.skills.find(id);
    text.skills.push_back(skill == library.skills.end() ? id : skill->second.title);
    const auto& evidence = standing.demand.skills.at(id).evidence;
    ids.insert(ids.end(), evidence.begin(), evidence.end());
  }
  std::sort(ids.begin(), ids.end());
  ids.erase(std::unique(ids.begin(), ids.end()), ids.end());
  for (const std::int64_t id : ids) {
    if (const std::optional<Attempt> attempt = store.attempt(id))
      text.evidence.push_back(evidence_item(*attempt));
  }
  for (const Observation& one : store.observations(standing.person.id)) {
    const auto task = standing.demand.seen.find(one.task);
    if (task == standing.demand.seen.end() || task->second != one.uid) continue;
    const std::optional<Person> observer = store.person(one.observer);
    text.seen.push_back({one.task, one.machine, observer ? observer->name : "", one.at_utc, one.uid});
  }
}

}  // namespace

std::map<std::string, training::Demand> demands_in_force(Store& store, const library::Library& library,
                                                         std::string* problems) {
  std::map<std::string, training::Demand> all = library.demands;
  for (const StoredDemand& stored : store.demands()) {
    library::DemandResult read = library::parse_demand(stored.text, "demand " + stored.id, library);
    if (read.problems.empty())
      all[stored.id] = std::move(read.demand);
    else if (problems != nullptr)
      for (const auto& problem : read.problems) *problems += (problems->empty() ? "" : "\n") + problem.text();
  }
  return all;
}

void keep_demand(Store& store, const Access& who, const library::Library& library,
                 const training::Demand& demand) {
  const std::string text = library::demand_text(demand);
  const library::DemandResult read = library::parse_demand(text, "demand " + demand.id, library);
  std::string problems;
  for (const auto& problem : read.problems) problems += (problems.empty() ? "" : "\n") + problem.text();
  if (!problems.empty()) throw StoreError(problems);
  store.put_demand(who, demand.id, text);
}

std::vector<Standing> standings(Store& store, const library::Library& library, const training::Demand& demand,
                                std::optional<std::int64_t> person) {
  const std::int64_t now = store.now_s();
  std::map<std::int64_t, std::vector<training::TestRun>> runs;
  for (const AttemptBrief& one : store.briefs(person)) {
    if (one.whole)
      runs[one.person].push_back(
          {one.id, one.lesson, one.started_s, one.test, one.passed, one.musts_missed, one.marks, one.hinted});
  }
  std::map<std::int64_t, std::vector<Observation>> seen;
  for (const Observation& one : store.observations(person)) seen[one.person].push_back(one);
  std::map<std::int64_t, Certificate> newest;
  for (Certificate& one : store.certificates(person)) {
    if (one.demand == demand.id && one.state == CertificateState::valid) newest[one.person] = std::move(one);
  }
  const training::DemandJudge judge(demand, library.skills, library.lessons);
  std::vector<Standing> rows;
  for (const Person& who : store.people()) {
    if (person && who.id != *person) continue;
    Standing row;
    row.person = who;
    row.demand = judge.judge(runs[who.id], seen_by_demand(seen[who.id], demand.id), now);
    for (const auto& [id, verdict] : row.demand.skills) {
      const auto skill = library.skills.find(id);
      row.cells[id] =
          cell_of(demand, skill == library.skills.end() ? training::Skill{} : skill->second, verdict, now);
    }
    const auto held = newest.find(who.id);
    if (held != newest.end()) {
      row.certificate = held->second;
      row.certified_until_s = utc_seconds(held->second.until_utc);
      row.may_work = row.certified_until_s > now;
    }
    rows.push_back(std::move(row));
  }
  return rows;
}

Certificate issue_certificate(Store& store, const Access& who, const library::Library& library,
                              const training::Demand& demand, std::int64_t person, const std::string& program,
                              const std::string& renews) {
  const std::string denied = why_not(who, Right::certify, person);
  if (!denied.empty()) throw StoreError(denied);
  const std::vector<Standing> found = standings(store, library, demand, person);
  if (found.empty())
    throw StoreError("There is no person " + std::to_string(person) + " in " + store.place() + ".");
  const Standing& standing = found.front();
  if (!standing.demand.met)
    throw StoreError(standing.person.name + " does not meet \"" + demand.title +
                     "\" yet:" + joined(standing.demand.missing));
  const std::optional<Person> issuer = store.person(who.person);
  if (!issuer) throw StoreError("A certificate is issued by a named person. Sign in first.");

  CertificateText text;
  text.serial = random_uuid();
  text.site = store.site();
  text.holder = standing.person.name;
  text.holder_uid = standing.person.uid;
  text.demand_id = demand.id;
  text.demand_title = demand.title;
  text.demand_sha256 = sha256_hex(library::demand_text(demand));
  text.plan = demand.plan;
  text.tests_each = demand.tests_each;
  text.lessons_each = demand.lessons_each;
  text.days_apart = demand.days_apart;
  text.must_pass_all = demand.must_pass_all;
  text.issued_utc = store.now_utc();
  text.until_utc = utc_text(standing.demand.until_s);
  text.issuer = issuer->name;
  text.renews = renews;
  add_evidence(store, library, demand, standing, text);
  text.head = store.head();
  text.program = program;
  text.content_hash = library.content_hash;
  const KeyPair key = site_key(store.data_dir(), true);
  Certificate certificate{text.serial,
                          person,
                          who.person,
                          demand.id,
                          text.issued_utc,
                          text.until_utc,
                          write_certificate(text, key.seed),
                          CertificateState::valid,
                          text.issued_utc,
                          "",
                          renews};
  store.add_certificate(who, certificate);
  return certificate;
}

std::vector<Attempt> evidence_of(Store& store, const SkillStanding& cell) {
  std::vector<Attempt> out;
  for (auto it = cell.verdict.evidence.rbegin(); it != cell.verdict.evidence.rend(); ++it) {
    if (std::optional<Attempt> attempt = store.attempt(*it)) out.push_back(std::move(*attempt));
  }
  return out;
}

}  // namespace stirbench::records
