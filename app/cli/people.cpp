#include "app/cli/people.h"

#include <map>
#include <optional>

#include "app/library/paths.h"
#include "app/records/store.h"

namespace stirbench::cli {

int people_list(const Common& common) {
  records::Store store(library::data_dir(common.data_dir));
  nlohmann::json list = nlohmann::json::array();
  for (const auto& person : store.people()) {
    list.push_back({{"id", person.id}, {"name", person.name}});
    if (!common.json) print(person.name);
  }
  if (common.json) print_json({{"people", list}});
  return exit_done;
}

int people_add(const Common& common, const std::string& name) {
  records::Store store(library::data_dir(common.data_dir));
  const records::Person person = store.add_person(name);
  if (common.json) print_json({{"id", person.id}, {"name", person.name}});
  else print("Added " + person.name);
  return exit_done;
}

int attempts_list(const Common& common, const std::string& name) {
  records::Store store(library::data_dir(common.data_dir));
  std::map<std::int64_t, std::string> names;
  std::optional<std::int64_t> wanted;
  for (const auto& person : store.people()) {
    names[person.id] = person.name;
    if (person.name == name) wanted = person.id;
  }
  if (!name.empty() && !wanted) throw Refusal("--person: expected a known person, found \"" + name + "\"");
  nlohmann::json list = nlohmann::json::array();
  for (const auto& a : store.attempts(wanted)) {
    list.push_back({{"id", a.id}, {"person", names[a.person]}, {"lesson", a.lesson}, {"mode", a.mode},
                    {"machine", a.machine}, {"started_utc", a.started_utc}, {"finished", a.finished},
                    {"passed", a.passed}, {"score_norm", a.score_norm}, {"simulated_s", a.simulated_s},
                    {"state_hash", a.state_hash}, {"journal", store.journal_path(a)}});
    if (!common.json) {
      print(a.started_utc + "  " + names[a.person] + "  " + a.lesson + " (" + a.mode + ")  " +
            (!a.finished ? "not finished" : std::string(a.passed ? "passed" : "not passed") + " " +
                                               fixed(100.0 * a.score_norm, 0) + " %") +
            "  " + store.journal_path(a));
    }
  }
  if (common.json) print_json({{"attempts", list}});
  return exit_done;
}

}  // namespace stirbench::cli
