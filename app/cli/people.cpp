#include "app/cli/people.h"

#include <map>
#include <optional>

#include "app/library/reading/paths.h"
#include "app/records/roster.h"

namespace stirbench::cli {

int people_list(const CommonOptions& common) {
  records::Store store = open_store(common);
  nlohmann::json list = nlohmann::json::array();
  for (const auto& person : store.people()) {
    const std::string role(records::role_name(person.role));
    list.push_back({{"id", person.id},
                    {"name", person.name},
                    {"uid", person.uid},
                    {"role", role},
                    {"has_pin", person.has_pin}});
    if (!common.json) print(person.name + (role == "learner" ? "" : ", " + role));
  }
  if (common.json) print_json({{"people", list}, {"managed", store.managed()}});
  return exit_done;
}

int people_add(const CommonOptions& common, const SignInOptions& asking, const std::string& name,
               const std::string& number) {
  records::Store store = open_store(common);
  const records::Person person = store.add_person(sign_in(store, asking), name, number);
  if (common.json)
    print_json({{"id", person.id}, {"name", person.name}, {"uid", person.uid}});
  else
    print("Added " + person.name);
  return exit_done;
}

int people_role(const CommonOptions& common, const SignInOptions& asking, const std::string& name,
                const std::string& role) {
  const std::optional<records::Role> wanted = records::role_of(role);
  if (!wanted)
    throw Refusal("ROLE: expected learner, instructor, manager or auditor, found \"" + role + "\"");
  records::Store store = open_store(common);
  const records::Person person = person_or_refuse(store, name, "NAME");
  const bool was_managed = store.managed();
  store.set_role(sign_in(store, asking), person.id, *wanted);
  if (common.json)
    print_json({{"name", person.name}, {"role", role}, {"managed", store.managed()}});
  else
    print(person.name + ": " + role);
  if (!was_managed && store.managed())
    say("From now on roles hold. Make a second manager soon: only another manager can give a manager a new "
        "PIN.");
  return exit_done;
}

int people_pin(const CommonOptions& common, const SignInOptions& asking, const std::string& name,
               const std::string& new_pin_file) {
  records::Store store = open_store(common);
  const records::Person person = person_or_refuse(store, name, "NAME");
  const std::string next = read_pin(new_pin_file, "STIRBENCH_NEW_PIN", "New PIN of " + person.name);
  if (asking.as.empty() || records::Store::same_name(asking.as, name)) {
    const std::string present =
        person.has_pin ? read_pin(asking.pin_file, "STIRBENCH_PIN", "Present PIN of " + person.name) : "";
    store.set_own_pin(person.id, present, next);
  } else {
    store.reset_pin(sign_in(store, asking), person.id, next);
  }
  if (common.json)
    print_json({{"name", person.name}, {"pin", "set"}});
  else
    print("The PIN of " + person.name + " is set.");
  return exit_done;
}

int people_import(const CommonOptions& common, const SignInOptions& asking, const std::string& file,
                  bool apply) {
  std::string text;
  try {
    text = library::read_file(file);
  } catch (const std::runtime_error& error) {
    throw Refusal(error.what());
  }
  records::Store store = open_store(common);
  const records::Access who = sign_in(store, asking);
  const std::string denied = records::why_not(who, records::Right::add_people);
  if (!denied.empty()) throw Refusal(denied);
  const records::RosterPlan plan = records::plan_roster(store, text);
  if (!plan.problem.empty()) throw Refusal(file + ": " + plan.problem);
  nlohmann::json lines = nlohmann::json::array();
  for (const auto& line : plan.lines) {
    const char* step = line.step == records::RosterStep::add     ? "add"
                       : line.step == records::RosterStep::known ? "known"
                                                                 : "wrong";
    lines.push_back({{"line", line.line},
                     {"name", line.name},
                     {"number", line.number},
                     {"step", step},
                     {"why", line.why}});
    if (line.step == records::RosterStep::wrong)
      say(file + ":" + std::to_string(line.line) + ": " + line.why);
    else if (!common.json)
      print(std::string(step) + std::string(6 - std::string(step).size(), ' ') + line.name);
  }
  for (const std::string& column : plan.ignored) say(file + ": column \"" + column + "\" is not used");
  const bool done = apply && plan.good();
  const int added = done ? records::take_roster(store, who, plan) : 0;
  if (common.json) {
    print_json({{"lines", lines},
                {"good", plan.good()},
                {"to_add", plan.to_add()},
                {"added", added},
                {"applied", done}});
  } else if (done) {
    print("Added " + std::to_string(added) + ".");
  } else if (plan.good()) {
    print(std::to_string(plan.to_add()) + " to add. Nothing was changed; with --apply they are added.");
  }
  if (!plan.good()) say("Nothing was changed.");
  return plan.good() ? exit_done : exit_bad_input;
}

int people_remove(const CommonOptions& common, const SignInOptions& asking, const std::string& name) {
  records::Store store = open_store(common);
  const records::Person person = person_or_refuse(store, name, "NAME");
  store.anonymise(sign_in(store, asking), person.id);
  if (common.json)
    print_json({{"removed", person.uid}});
  else
    print("The name, number and PIN are gone; attempts stay under \"Removed person " +
          person.uid.substr(0, 8) + "\".");
  return exit_done;
}

int attempts_list(const CommonOptions& common, const SignInOptions& asking, const std::string& name) {
  records::Store store = open_store(common);
  std::map<std::int64_t, std::string> names;
  for (const auto& person : store.people(true)) names[person.id] = person.name;
  const records::Access who = sign_in(store, asking);
  std::optional<std::int64_t> wanted;
  if (!name.empty()) wanted = person_or_refuse(store, name, "--person").id;
  // Without --person: everyone's, with the right to see them; else one's own.
  if (!wanted && !records::why_not(who, records::Right::see_attempts).empty() && who.person != 0)
    wanted = who.person;
  const std::string denied = records::why_not(who, records::Right::see_attempts, wanted.value_or(0));
  if (!denied.empty()) throw Refusal(denied);
  nlohmann::json list = nlohmann::json::array();
  for (const auto& a : store.attempts(wanted)) {
    list.push_back({{"id", a.id},
                    {"uid", a.uid},
                    {"person", names[a.person]},
                    {"lesson", a.lesson},
                    {"mode", a.mode},
                    {"machine", a.machine},
                    {"started_utc", a.started_utc},
                    {"finished", a.finished},
                    {"passed", a.passed},
                    {"score_norm", a.score_norm},
                    {"simulated_s", a.simulated_s},
                    {"musts_missed", a.musts_missed},
                    {"state_hash", a.state_hash},
                    {"journal", store.journal_path(a)},
                    {"journal_sha256", a.journal_sha256}});
    if (!common.json) {
      print(a.started_utc + "  " + names[a.person] + "  " + a.lesson + " (" + a.mode + ")  " +
            (!a.finished ? "not finished"
                         : std::string(a.passed ? "passed" : "not passed") + " " +
                               fixed(100.0 * a.score_norm, 0) + " %") +
            "  " + store.journal_path(a));
    }
  }
  if (common.json) print_json({{"attempts", list}});
  return exit_done;
}

}  // namespace stirbench::cli
