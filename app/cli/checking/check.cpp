#include "app/cli/checking/check.h"

#include "app/library/guide/guide.h"
#include "app/library/lessons/prove_conduct.h"
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

struct Found {
  std::vector<library::Problem> problems;
  std::size_t guides = 0;
  std::vector<library::SkillGap> gaps;
  std::vector<library::Unsure> unsure;
  nlohmann::json draws;
  nlohmann::json habits;
  std::vector<std::string> of_draws;  // what draws and habits hold against lessons
};

// The matrix: lessons down, habits across. "-": did not occur, "x": not asked here, "3": occurred so often
// and ended as it should, "!": not.
void check_habits(const library::Library& lib, bool json, Found& found) {
  nlohmann::json list = nlohmann::json::array();
  std::string line, lesson;
  for (const library::HabitCell& cell : library::play_habits(lib)) {
    const bool wrong = library::is_wrong(cell);
    if (wrong)
      found.of_draws.push_back(
          "lessons/" + cell.lesson + ": " +
          (cell.careful ? "fails by the careful habit \"" : "passes with the unsafe habit \"") + cell.habit +
          "\" (" + cell.why + ")");
    list.push_back({{"lesson", cell.lesson},
                    {"habit", cell.habit},
                    {"careful", cell.careful},
                    {"excepted", cell.excepted},
                    {"tried", cell.tried},
                    {"occurred", cell.occurred},
                    {"passed", cell.passed}});
    if (cell.lesson != lesson) {
      if (!line.empty() && !json) print(line);
      lesson = cell.lesson;
      line = "  " + lesson + ":";
    }
    line += "  " + cell.habit + " " +
            (cell.excepted        ? "x"
             : wrong              ? "!"
             : cell.occurred == 0 ? "-"
                                  : std::to_string(cell.occurred));
  }
  if (!line.empty() && !json) print(line);
  found.habits = std::move(list);
}

nlohmann::json found_json(const library::Library& lib, const Found& found) {
  nlohmann::json hangs = nlohmann::json::array();
  for (const library::Unsure& one : found.unsure)
    hangs.push_back(
        {{"lesson", one.lesson}, {"criterion", one.criterion}, {"missed", one.missed}, {"runs", one.runs}});
  nlohmann::json lacking = nlohmann::json::array();
  for (const library::SkillGap& one : found.gaps)
    lacking.push_back({{"where", one.where}, {"skill", one.skill}, {"lacks", one.lacks}});
  nlohmann::json problems = nlohmann::json::array();
  for (const auto& p : found.problems)
    problems.push_back({{"file", p.file}, {"path", p.path}, {"expected", p.expected}, {"found", p.found}});
  nlohmann::json out = {{"good", found.problems.empty() && found.of_draws.empty()},
                        {"problems", problems},
                        {"machines", lib.machines.size()},
                        {"ingredients", lib.ingredients.size()},
                        {"recipes", lib.recipes.size()},
                        {"lessons", lib.lessons.size()},
                        {"circuits", lib.circuits.size()},
                        {"faults", lib.faults.size()},
                        {"skills", lib.skills.size()},
                        {"assessments", lib.demands.size()},
                        {"guides", found.guides},
                        {"unsure", hangs},
                        {"skill_gaps", lacking},
                        {"content_hash", lib.content_hash}};
  if (!found.draws.is_null()) out["draws"] = found.draws;
  if (!found.habits.is_null()) out["habits"] = found.habits;
  return out;
}

void print_found(const library::Library& lib, const Found& found, bool with_spread) {
  for (const auto& p : found.problems) print(p.text());
  for (const std::string& one : found.of_draws) print(one);
  if (found.problems.empty() && found.of_draws.empty())
    print("Good: " + std::to_string(lib.machines.size()) + " machines, " +
          std::to_string(lib.ingredients.size()) + " ingredients, " + std::to_string(lib.recipes.size()) +
          " recipes, " + std::to_string(lib.lessons.size()) + " lessons, " +
          std::to_string(lib.skills.size()) + " skills, " + std::to_string(lib.faults.size()) + " faults, " +
          std::to_string(found.guides) + " fault guides.");
  for (const library::SkillGap& one : found.gaps)
    print(one.where + ": skill \"" + one.skill + "\": " + one.lacks);
  for (const library::Unsure& one : found.unsure) print(unsure_text(one));
  if (found.problems.empty() && with_spread && found.unsure.empty())
    print("No criterion of a right run hangs on what the model does not know.");
}

}  // namespace

int check_content(const CommonOptions& common, const CheckOptions& options) {
  if (options.spread < 0 || options.spread > 1000)
    throw Refusal("--spread: expected 0 .. 1000 runs a lesson, found " + std::to_string(options.spread));
  if (options.draws.draws < 0 || options.draws.draws > most_draws)
    throw Refusal("--draws: expected 0 .. " + std::to_string(most_draws) + " draws a lesson, found " +
                  std::to_string(options.draws.draws));
  const std::string dir = !options.content_dir.empty()  ? options.content_dir
                          : !common.content_dir.empty() ? common.content_dir
                                                        : library::content_dir();
  Found found;
  library::LoadResult loaded = library::load(dir, "");
  const auto& lib = loaded.library;
  found.problems = std::move(loaded.problems);
  for (const std::string& id : options.draws.lessons)
    if (found.problems.empty() && lib.lessons.count(id) == 0)
      throw Refusal("--lesson: expected one of " + known_ids(lib.lessons) + ", found \"" + id + "\"");
  if (found.problems.empty()) found.problems = library::untrained_skills(lib);
  if (found.problems.empty()) found.guides = check_guides(dir, lib, options.trees, found.problems);
  if (found.problems.empty()) found.gaps = library::demand_gaps(lib);
  if (found.problems.empty() && options.with_runs)
    found.problems = library::prove_lessons(dir, lib, &found.gaps);
  if (found.problems.empty() && options.spread > 0)
    found.unsure = library::unsure_criteria(dir, lib, options.spread);
  if (found.problems.empty() && options.draws.draws != 0)
    found.of_draws = check_draws(dir, lib, options.draws, common.json ? &found.draws : nullptr);
  if (found.problems.empty() && options.habits) check_habits(lib, common.json, found);
  if (common.json)
    print_json(found_json(lib, found));
  else
    print_found(lib, found, options.spread > 0);
  return found.problems.empty() && found.of_draws.empty() ? exit_done : exit_bad_input;
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
