#include "app/cli/certify.h"

#include <map>

#include "app/library/reading/paths.h"
#include "app/records/certifying.h"
#include "app/reports/export.h"
#include "app/reports/papers.h"

namespace stirbench::cli {

namespace {

std::map<std::string, training::Demand> demands_or_say(records::Store& store,
                                                       const library::Library& library) {
  std::string problems;
  auto all = records::demands_in_force(store, library, &problems);
  if (!problems.empty()) say(problems);
  return all;
}

training::Demand demand_or_refuse(records::Store& store, const library::Library& library,
                                  const std::string& id) {
  const auto all = demands_or_say(store, library);
  const auto found = all.find(id.empty() && all.size() == 1 ? all.begin()->first : id);
  if (found == all.end())
    throw Refusal("--demand: expected one of " + known_ids(all) + ", found \"" + id + "\"");
  return found->second;
}

void allow(const records::Access& who, records::Right right, std::int64_t about = 0) {
  const std::string denied = records::why_not(who, right, about);
  if (!denied.empty()) throw Refusal(denied);
}

const char* answer_word(training::SequentialAnswer answer) {
  switch (answer) {
    case training::SequentialAnswer::competent: return "competent";
    case training::SequentialAnswer::not_yet: return "not_yet";
    case training::SequentialAnswer::go_on: return "go_on";
  }
  return "go_on";
}

nlohmann::json standing_json(const records::Standing& row) {
  nlohmann::json skills = nlohmann::json::object();
  for (const auto& [id, cell] : row.cells) {
    skills[id] = {{"state", reports::cell_word(cell.state)},
                  {"until", reports::day_text(cell.until_s)},
                  {"answer", answer_word(cell.verdict.answer)},
                  {"tests", cell.verdict.tests},
                  {"passed", cell.verdict.passed},
                  {"stuck", cell.stuck},
                  {"llr", cell.verdict.path}};
  }
  return {{"person", row.person.name}, {"uid", row.person.uid},
          {"may_work", row.may_work},  {"certified_until", reports::day_text(row.certified_until_s)},
          {"met", row.demand.met},     {"missing", row.demand.missing},
          {"skills", skills}};
}

const records::Certificate& certificate_or_refuse(const std::vector<records::Certificate>& all,
                                                  const std::string& serial) {
  for (const auto& one : all) {
    if (one.uid == serial) return one;
  }
  throw Refusal("SERIAL: expected a certificate's serial, found \"" + serial + "\"");
}

const char* state_word(records::CertificateState state) {
  switch (state) {
    case records::CertificateState::valid: return "valid";
    case records::CertificateState::revoked: return "revoked";
    case records::CertificateState::renewed: return "renewed";
  }
  return "valid";
}

// The file and the paper of a certificate that was just issued.
int hand_out(const CommonOptions& common, const CertifyOptions& o, records::Store& store,
             const records::Certificate& c) {
  if (!o.file.empty()) write_or_refuse(o.file, c.file);
  if (!o.pdf.empty()) {
    const records::CertificateCheck check = records::check_certificate(c.file);
    const std::string line =
        records::short_certificate(check.text, c.file, records::site_key(store.data_dir(), false).seed);
    write_or_refuse(o.pdf, reports::certificate_pdf(check.text, line, check.key_print));
  }
  if (common.json)
    print_json({{"serial", c.uid}, {"until", c.until_utc}, {"file", o.file}, {"pdf", o.pdf}});
  else
    print("Certificate " + c.uid + ", valid until " + c.until_utc.substr(0, 10) + ".");
  return exit_done;
}

}  // namespace

int certify_demands(const CommonOptions& common) {
  const library::Library library = load_library(common);
  records::Store store = open_store(common);
  nlohmann::json list = nlohmann::json::array();
  for (const auto& [id, d] : demands_or_say(store, library)) {
    const training::SequentialBounds b = training::bounds(d.plan);
    list.push_back({{"id", id},
                    {"title", d.title},
                    {"skills", d.skills},
                    {"seen_tasks", d.seen_tasks},
                    {"tests_each", d.tests_each},
                    {"lessons_each", d.lessons_each},
                    {"days_apart", d.days_apart},
                    {"valid_days", d.valid_days},
                    {"alpha", d.plan.alpha},
                    {"beta", d.plan.beta},
                    {"p_not", d.plan.p_not},
                    {"p_competent", d.plan.p_competent},
                    {"most", d.plan.most},
                    {"must_pass_all", d.must_pass_all},
                    {"fewest_tests", b.fewest_to_competent},
                    {"mean_tests_competent", b.mean_tests_competent}});
    if (common.json) continue;
    print(id + "  " + d.title + ": " + std::to_string(d.skills.size()) + " skills, " +
          std::to_string(d.seen_tasks.size()) + " tasks seen at the machine, " +
          std::to_string(d.valid_days) + " days.");
    print("    at least " + std::to_string(std::max(b.fewest_to_competent, d.tests_each)) +
          " passed tests a skill, about " + fixed(b.mean_tests_competent, 0) +
          " for a competent person; wrong " + fixed(100.0 * d.plan.alpha, 1) + " % / " +
          fixed(100.0 * d.plan.beta, 1) + " %");
    print("    passes in " + std::to_string(d.lessons_each) +
          " different lessons, as far as there are, and " + std::to_string(d.days_apart) + " days apart");
  }
  if (common.json) print_json({{"demands", list}});
  return exit_done;
}

int certify_demand_set(const CommonOptions& common, const CertifyOptions& o) {
  const library::Library library = load_library(common);
  std::string text;
  try {
    text = library::read_file(o.file);
  } catch (const std::runtime_error& error) {
    throw Refusal(error.what());
  }
  const library::DemandResult read = library::parse_demand(text, o.file, library);
  if (!read.problems.empty()) throw Refusal(join_problems(read.problems));
  records::Store store = open_store(common);
  records::keep_demand(store, sign_in(store, o.asking), library, read.demand);
  if (common.json)
    print_json({{"id", read.demand.id}});
  else
    print("Kept: " + read.demand.id);
  return exit_done;
}

int certify_table(const CommonOptions& common, const CertifyOptions& o) {
  const library::Library library = load_library(common);
  records::Store store = open_store(common);
  allow(sign_in(store, o.asking), records::Right::see_everybody);
  const training::Demand demand = demand_or_refuse(store, library, o.demand);
  const std::vector<records::Standing> rows = records::standings(store, library, demand);
  nlohmann::json list = nlohmann::json::array();
  for (const auto& row : rows) {
    if (common.json) {
      list.push_back(standing_json(row));
      continue;
    }
    std::string line =
        row.may_work ? "may work until " + reports::day_text(row.certified_until_s) : "may not work alone";
    for (const auto& [id, cell] : row.cells) {
      if (cell.stuck)
        line += "; stuck on " + id;
      else if (cell.state == records::StandingState::due)
        line += "; " + id + " due " + reports::day_text(cell.until_s);
    }
    print(row.person.name + ": " + line);
  }
  if (common.json) print_json({{"demand", demand.id}, {"people", list}});
  return exit_done;
}

int certify_check(const CommonOptions& common, const CertifyOptions& o) {
  const library::Library library = load_library(common);
  records::Store store = open_store(common);
  const records::Person person = person_or_refuse(store, o.name, "NAME");
  allow(sign_in(store, o.asking), records::Right::see_attempts, person.id);
  const training::Demand demand = demand_or_refuse(store, library, o.demand);
  const records::Standing row = records::standings(store, library, demand, person.id).at(0);
  if (common.json) {
    print_json(standing_json(row));
  } else {
    print(person.name + (row.demand.met ? " meets " : " does not meet ") + "\"" + demand.title + "\"");
    for (const std::string& line : row.demand.missing) print("  " + line);
  }
  return row.demand.met ? exit_done : exit_no;
}

int certify_seen(const CommonOptions& common, const CertifyOptions& o) {
  const library::Library library = load_library(common);
  records::Store store = open_store(common);
  const records::Person person = person_or_refuse(store, o.name, "NAME");
  const training::Demand demand = demand_or_refuse(store, library, o.demand);
  records::Observation seen;
  seen.person = person.id;
  seen.demand = demand.id;
  seen.machine = o.machine;
  seen.passed = !o.flag;
  seen.note = o.note;
  // By its number in the demand, or in its own words.
  for (std::size_t i = 0; i < demand.seen_tasks.size(); ++i) {
    if (o.task == std::to_string(i + 1) || o.task == demand.seen_tasks[i]) seen.task = demand.seen_tasks[i];
  }
  if (seen.task.empty()) {
    std::string known;
    for (std::size_t i = 0; i < demand.seen_tasks.size(); ++i)
      known += "\n  " + std::to_string(i + 1) + "  " + demand.seen_tasks[i];
    throw Refusal("--task: expected the number of a task of \"" + demand.id + "\", found \"" + o.task + "\"" +
                  known);
  }
  const records::Observation kept = store.add_observation(sign_in(store, o.asking), seen);
  if (common.json)
    print_json({{"uid", kept.uid}, {"task", kept.task}, {"passed", kept.passed}, {"at", kept.at_utc}});
  else
    print("Kept: " + kept.task + (kept.passed ? "" : " (not yet)"));
  return exit_done;
}

int certify_issue(const CommonOptions& common, const CertifyOptions& o) {
  const library::Library library = load_library(common);
  records::Store store = open_store(common);
  const records::Access who = sign_in(store, o.asking);
  const records::Person person = person_or_refuse(store, o.name, "NAME");
  const training::Demand demand = demand_or_refuse(store, library, o.demand);
  allow(who, records::Right::certify, person.id);
  const records::Standing row = records::standings(store, library, demand, person.id).at(0);
  if (!row.demand.met) {
    say(person.name + " does not meet \"" + demand.title + "\" yet:");
    for (const std::string& line : row.demand.missing) say("  " + line);
    if (common.json) print_json({{"serial", nullptr}, {"missing", row.demand.missing}});
    return exit_no;
  }
  const std::string before = row.certificate ? row.certificate->uid : "";
  return hand_out(
      common, o, store,
      records::issue_certificate(store, who, library, demand, person.id, STIRBENCH_VERSION, before));
}

int certify_renew(const CommonOptions& common, const CertifyOptions& o) {
  const library::Library library = load_library(common);
  records::Store store = open_store(common);
  const records::Access who = sign_in(store, o.asking);
  allow(who, records::Right::see_everybody);
  const std::vector<records::Certificate> all = store.certificates();
  const records::Certificate& old = certificate_or_refuse(all, o.name);
  if (old.state != records::CertificateState::valid)
    throw Refusal("SERIAL: expected a certificate in force, found one that is " +
                  std::string(state_word(old.state)));
  const training::Demand demand = demand_or_refuse(store, library, old.demand);
  const records::Standing row = records::standings(store, library, demand, old.person).at(0);
  if (!row.demand.met) {
    for (const std::string& line : row.demand.missing) say(line);
    return exit_no;
  }
  return hand_out(
      common, o, store,
      records::issue_certificate(store, who, library, demand, old.person, STIRBENCH_VERSION, old.uid));
}

int certify_revoke(const CommonOptions& common, const CertifyOptions& o) {
  records::Store store = open_store(common);
  if (o.note.empty()) throw Refusal("--reason: expected why, found nothing");
  store.set_certificate_state(sign_in(store, o.asking), o.name, records::CertificateState::revoked, o.note);
  if (common.json)
    print_json({{"revoked", o.name}});
  else
    print(
        "Revoked. The file that was handed out still verifies by itself: whoever relies on it must ask these "
        "records.");
  return exit_done;
}

int certify_list(const CommonOptions& common, const CertifyOptions& o) {
  records::Store store = open_store(common);
  std::optional<std::int64_t> about;
  if (!o.name.empty()) about = person_or_refuse(store, o.name, "--person").id;
  const records::Access who = sign_in(store, o.asking);
  allow(who, about && *about == who.person ? records::Right::see_attempts : records::Right::see_everybody,
        about.value_or(0));
  std::map<std::int64_t, std::string> names;
  for (const auto& person : store.people(true)) names[person.id] = person.name;
  nlohmann::json list = nlohmann::json::array();
  for (const auto& c : store.certificates(about)) {
    const bool expired = records::utc_seconds(c.until_utc) <= store.now_s();
    const std::string state =
        c.state == records::CertificateState::valid && expired ? "expired" : state_word(c.state);
    list.push_back({{"serial", c.uid},
                    {"person", names[c.person]},
                    {"demand", c.demand},
                    {"issued", c.issued_utc},
                    {"until", c.until_utc},
                    {"issuer", names[c.issuer]},
                    {"state", state},
                    {"reason", c.reason},
                    {"renews", c.renews}});
    if (!common.json)
      print(c.uid + "  " + names[c.person] + "  " + c.demand + "  until " + c.until_utc.substr(0, 10) + "  " +
            state);
  }
  if (common.json) print_json({{"certificates", list}});
  return exit_done;
}

}  // namespace stirbench::cli
