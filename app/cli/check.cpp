#include "app/cli/check.h"

#include "app/library/guide/guide.h"
#include "app/library/lessons/prove_lessons.h"
#include "app/library/reading/paths.h"
#include "sim_core/hands/hands.h"

namespace stirbench::cli {

namespace {

const char* type_name(hands::Type type) {
  switch (type) {
    case hands::Type::number: return "number";
    case hands::Type::text: return "text";
    case hands::Type::flag: return "true or false";
  }
  return "";
}

std::string range_text(const hands::Parameter& parameter) {
  if (parameter.type != hands::Type::number) return "";
  std::string out = ", " + fixed(parameter.low, 3) + " .. " + fixed(parameter.high, 3);
  if (!parameter.unit.empty()) out += " " + std::string(parameter.unit);
  return out;
}

nlohmann::json parameter_json(const hands::Parameter& p) {
  nlohmann::json item = {{"name", p.name},
                         {"type", type_name(p.type)},
                         {"required", p.required},
                         {"unit", p.unit},
                         {"meaning", p.meaning}};
  if (p.type == hands::Type::number) {
    item["low"] = p.low;
    item["high"] = p.high;
    if (p.otherwise) item["default"] = *p.otherwise;
  }
  if (p.words != nullptr) item["one_of"] = p.words();
  return item;
}

std::string unsure_text(const library::Unsure& one) {
  return "lessons/" + one.lesson + ": \"" + one.criterion +
         "\" hangs on what the model does not know: the right run missed it on " +
         std::to_string(one.missed) + " of " + std::to_string(one.runs) + " drawn machines";
}

// What the shelf of fault guides holds against itself, and with `trees` against its evidence. Returns how
// many guides.
std::size_t check_guides(const std::string& dir, const library::Library& lib, bool trees,
                         std::vector<library::Problem>& problems) {
  library::FaultGuides shelf = library::load_guides(dir, lib);
  problems = std::move(shelf.problems);
  for (const auto& [id, guide] : shelf.guides) {
    const auto evidence = shelf.evidence.find(id);
    if (!trees || !problems.empty() || evidence == shelf.evidence.end()) continue;
    for (library::Problem& one : library::judge_trees(guide, &evidence->second))
      problems.push_back(std::move(one));
  }
  return shelf.guides.size();
}

}  // namespace

int check_content(const CommonOptions& common, const std::string& content_dir, bool trees, bool with_runs,
                  int spread) {
  if (spread < 0 || spread > 1000)
    throw Refusal("--spread: expected 0 .. 1000 runs a lesson, found " + std::to_string(spread));
  const std::string dir = !content_dir.empty()          ? content_dir
                          : !common.content_dir.empty() ? common.content_dir
                                                        : library::content_dir();
  library::LoadResult loaded = library::load(dir, "");
  if (loaded.problems.empty()) loaded.problems = library::untrained_skills(loaded.library);
  const auto& lib = loaded.library;
  std::size_t guides = 0;
  if (loaded.problems.empty()) guides = check_guides(dir, lib, trees, loaded.problems);
  std::vector<library::SkillGap> gaps;
  if (loaded.problems.empty()) gaps = library::demand_gaps(lib);
  if (loaded.problems.empty() && with_runs) loaded.problems = library::prove_lessons(dir, lib, &gaps);
  std::vector<library::Unsure> unsure;
  if (loaded.problems.empty() && spread > 0) unsure = library::unsure_criteria(dir, lib, spread);
  if (common.json) {
    nlohmann::json hangs = nlohmann::json::array();
    for (const library::Unsure& one : unsure)
      hangs.push_back(
          {{"lesson", one.lesson}, {"criterion", one.criterion}, {"missed", one.missed}, {"runs", one.runs}});
    nlohmann::json lacking = nlohmann::json::array();
    for (const library::SkillGap& one : gaps)
      lacking.push_back({{"where", one.where}, {"skill", one.skill}, {"lacks", one.lacks}});
    nlohmann::json problems = nlohmann::json::array();
    for (const auto& p : loaded.problems) {
      problems.push_back({{"file", p.file}, {"path", p.path}, {"expected", p.expected}, {"found", p.found}});
    }
    print_json({{"good", loaded.problems.empty()},
                {"problems", problems},
                {"machines", lib.machines.size()},
                {"ingredients", lib.ingredients.size()},
                {"recipes", lib.recipes.size()},
                {"lessons", lib.lessons.size()},
                {"circuits", lib.circuits.size()},
                {"faults", lib.faults.size()},
                {"skills", lib.skills.size()},
                {"assessments", lib.demands.size()},
                {"guides", guides},
                {"unsure", hangs},
                {"skill_gaps", lacking},
                {"content_hash", lib.content_hash}});
  } else {
    for (const auto& p : loaded.problems) print(p.text());
    if (loaded.problems.empty()) {
      print("Good: " + std::to_string(lib.machines.size()) + " machines, " +
            std::to_string(lib.ingredients.size()) + " ingredients, " + std::to_string(lib.recipes.size()) +
            " recipes, " + std::to_string(lib.lessons.size()) + " lessons, " +
            std::to_string(lib.skills.size()) + " skills, " + std::to_string(lib.faults.size()) +
            " faults, " + std::to_string(guides) + " fault guides.");
    }
    for (const library::SkillGap& one : gaps)
      print(one.where + ": skill \"" + one.skill + "\": " + one.lacks);
    for (const library::Unsure& one : unsure) print(unsure_text(one));
    if (loaded.problems.empty() && spread > 0 && unsure.empty())
      print("No criterion of a right run hangs on what the model does not know.");
  }
  return loaded.problems.empty() ? exit_done : exit_bad_input;
}

int help_actions(const CommonOptions& common) {
  if (common.json) {
    nlohmann::json list = nlohmann::json::array();
    for (const hands::Hand* hand : hands::all()) {
      nlohmann::json parameters = nlohmann::json::array();
      for (const hands::Parameter* p : hand->takes()) parameters.push_back(parameter_json(*p));
      list.push_back({{"name", hand->name}, {"meaning", hand->meaning}, {"parameters", parameters}});
    }
    print_json({{"actions", list}});
    return exit_done;
  }
  print(
      "An actions file is JSON Lines, times ascending. Each line holds \"do\" and either \"at_s\" "
      "(simulated");
  print(
      "seconds) or \"at_phase\" (waits until that phase begins; \"after_s\" more seconds may follow), then "
      "the");
  print("action's own parameters, e.g.");
  print("  {\"at_s\": 12.0, \"do\": \"pour\", \"ingredient\": \"whole_milk\", \"kg\": 20, \"degC\": 5}");
  print("");
  for (const hands::Hand* hand : hands::all()) {
    print(std::string(hand->name) + ": " + std::string(hand->meaning));
    for (const hands::Parameter* p : hand->takes()) {
      print("    " + std::string(p->name) + " (" + type_name(p->type) + range_text(*p) +
            (p->required ? "" : ", may be left out") + "): " + std::string(p->meaning));
    }
  }
  return exit_done;
}

}  // namespace stirbench::cli
