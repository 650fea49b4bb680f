#include <algorithm>

#include "app/library/loading.h"
#include "app/library/tables.h"

// Skills: content/skills/*.json, and a house's own under DATA/skills.
namespace stirbench::library {

namespace {

using training::Skill;

Shape<Skill> skill() {
  using S = Skill;
  Object<S> t;
  t.need("id", &S::id, slug(), "Unique among all skills.")
      .need("title", &S::title, text(2, 60), "Name shown to people.")
      .need("summary", &S::summary, text(3, 200), "What a person with it does, one line.")
      .need("area", &S::area,
            choice<std::string>({{"operation", "operation"},
                                 {"safety", "safety"},
                                 {"cleaning", "cleaning"},
                                 {"service", "service"},
                                 {"faults", "faults"}}),
            "Group on the screens.")
      .may("safety", &S::safety, flag(), "Without it nobody works at the machine alone.")
      .may("needs", &S::needs, list(slug(), 0, 20, true), "Ids of skills that come first.")
      .need("repeat_days", &S::repeat_days, whole(1, 3650),
            "Practised again after so many days at the latest; 365 at the most for safety.")
      .may("not_yet_trained", &S::not_yet_trained, flag(), "No lesson trains it yet, and that is known.")
      .check([](Reader& reader, const S& one) {
        if (one.safety && one.repeat_days > 365)
          reader.problem("365 or less for a safety skill", std::to_string(one.repeat_days), "/repeat_days");
      });
  return t.shape();
}

void load_file(Loading& loading, const SourceText& source) {
  SkillFile file;
  read_text(loading, skill_table(), source, file);
  for (std::size_t i = 0; i < file.skills.size(); ++i) {
    Skill& one = file.skills[i];
    if (one.id.empty()) continue;
    if (loading.library.skills.count(one.id) != 0) {
      loading.problem(source.shown, "/skills/" + std::to_string(i) + "/id", "an id that is not used yet",
                      in_quotes(one.id));
      continue;
    }
    loading.names.skills.push_back(one.id);
    loading.library.skills[one.id] = std::move(one);
  }
}

}  // namespace

const Object<SkillFile>& skill_table() {
  static const Object<SkillFile> table = [] {
    Object<SkillFile> t;
    t.format(1).need("skills", &SkillFile::skills, list(skill(), 1, 200), "The skills, in any order.");
    return t;
  }();
  return table;
}

void load_skills(Loading& loading, const std::string& own_dir, std::map<std::string, std::string>& hashed) {
  for (const SourceText& source : json_files(loading, loading.content_dir + "/skills", "skills")) {
    load_file(loading, source);
    hashed[source.shown] = source.bytes;
  }
  if (!own_dir.empty()) {
    for (const SourceText& source : json_files(loading, own_dir + "/skills", own_dir + "/skills"))
      load_file(loading, source);
  }
  // Names are only judged when all files are read: a skill may need one of another file.
  const training::Skills& skills = loading.library.skills;
  for (const auto& [id, one] : skills) {
    for (const std::string& need : one.needs) {
      if (skills.count(need) == 0)
        loading.problem("skills", "/" + id + "/needs",
                        expect_name("a known skill", need, loading.names.skills), in_quotes(need));
    }
  }
  const std::vector<std::string> ring = training::prerequisite_cycle(skills);
  std::string way;
  for (const std::string& id : ring) way += (way.empty() ? "" : " needs ") + id;
  if (!ring.empty()) loading.problem("skills", "/" + ring.front() + "/needs", "skills without a ring", way);
}

std::vector<Problem> untrained_skills(const Library& library) {
  std::vector<Problem> problems;
  for (const auto& [id, one] : library.skills) {
    const bool trained =
        std::any_of(library.lessons.begin(), library.lessons.end(), [&id = id](const auto& entry) {
          const auto& trains = entry.second.skills;
          return std::find(trains.begin(), trains.end(), id) != trains.end();
        });
    if (!trained && !one.not_yet_trained)
      problems.push_back(
          {"skills", "/" + id, "a lesson that trains it, or \"not_yet_trained\": true", "neither"});
  }
  return problems;
}

}  // namespace stirbench::library
