#include <algorithm>
#include <filesystem>

#include "app/library/lessons/variations.h"
#include "app/library/loading.h"
#include "app/library/reading/paths.h"
#include "app/library/tables.h"
#include "sim_core/bytes/hash64.h"
#include "sim_core/training/grounds_guide.h"

// A lesson is a folder: lesson.json, page.md, right.jsonl (the run that scores full points), wrong-*.jsonl
// (runs that must not).
namespace stirbench::library {

namespace fs = std::filesystem;

namespace {

// Bytes of a file of the lesson, or a problem and "".
std::string part(Loading& loading, const std::string& id, const std::string& name,
                 const std::string& expected) {
  const std::string shown = "lessons/" + id + "/" + name;
  try {
    std::string bytes = read_file((fs::path(loading.content_dir) / shown).string());
    if (bytes.find_first_not_of(" \t\r\n") == std::string::npos)
      loading.problem(shown, "", expected, "an empty file");
    return bytes;
  } catch (const std::exception&) {
    loading.problem(shown, "", expected, "no such file");
    return {};
  }
}

void check_actions(Loading& loading, const machine::Machine& machine, const std::string& shown,
                   const std::string& bytes) {
  ActionsResult result = parse_actions(bytes, shown, machine);
  loading.problems.insert(loading.problems.end(), result.problems.begin(), result.problems.end());
}

void check_runs(Loading& loading, const training::Lesson& lesson, const std::vector<std::string>& files) {
  if (loading.library.machines.count(lesson.machine) == 0) return;  // has been reported
  const machine::Machine machine = loading.library.machine(lesson.machine);
  const std::string folder = "lessons/" + lesson.id + "/";
  const std::string right = part(loading, lesson.id, "right.jsonl", "the actions that pass the lesson");
  if (!right.empty()) check_actions(loading, machine, folder + "right.jsonl", right);
  bool any_wrong = false;
  for (const std::string& name : files) {
    if (!name.starts_with("wrong-") || !name.ends_with(".jsonl")) continue;
    any_wrong = true;
    const std::string bytes = part(loading, lesson.id, name, "the actions of a wrong run");
    if (!bytes.empty()) check_actions(loading, machine, folder + name, bytes);
  }
  if (!any_wrong) loading.problem(folder, "", "at least one wrong-*.jsonl", "none");
}

// Names of ingredients, parts, terminals ... in the hands that the guide advises.
void check_hands(Loading& loading, const training::Lesson& lesson, const std::string& shown) {
  if (loading.library.machines.count(lesson.machine) == 0) return;
  const machine::Machine machine = loading.library.machine(lesson.machine);
  const auto check = [&](const std::optional<hands::Action>& hand, const std::string& place) {
    if (!hand) return;
    const std::string name = unknown_name_in(machine, *hand);
    if (!name.empty())
      loading.problem(shown, place, "a name that " + lesson.machine + " knows", in_quotes(name));
  };
  for (std::size_t i = 0; i < lesson.steps.size(); ++i)
    check(lesson.steps[i].means.hand, "/steps/" + std::to_string(i) + "/hand");
  for (std::size_t i = 0; i < lesson.ways.size(); ++i)
    check(lesson.ways[i].means.hand, "/ways/" + std::to_string(i) + "/hand");
}

void check_load(Loading& loading, const training::Lesson& lesson, const std::string& shown) {
  double kg = 0.0;
  for (const auto& one : lesson.start.loaded) kg += one.kg;
  const auto machine = loading.library.machines.find(lesson.machine);
  // Nothing that is poured is denser than 1.6 kg/L, so this is over the brim for certain. The exact check is
  // the start of the session.
  if (machine != loading.library.machines.end() && kg > 1.6 * machine->second.vat.brim_L)
    loading.problem(shown, "/start/loaded",
                    "no more than the machine holds (" + number_text(machine->second.vat.brim_L) + " L)",
                    number_text(kg) + " kg");
}

using Values = std::map<std::string, Json>;

// Takes `varies` out of the file.
std::vector<Variation> take_variations(Reader& reader, Json& json) {
  std::vector<Variation> out;
  if (!json.is_object() || !json.contains("varies")) return out;
  reader.below("/varies", [&] { variations_shape().read(reader, json["varies"], out); });
  json.erase("varies");
  return out;
}

// The file with one run's values put in, into `out`.
void read_with(Reader& reader, const std::vector<Variation>& variations, const Values& values, Json json,
               training::Lesson& out) {
  put_in(reader, values, json);
  lesson_table().read(reader, json, out);
  out.page = put_in_text(values, out.page);
  for (const Variation& one : variations)
    if (!one.says.empty()) out.drawn.push_back(put_in_text(values, one.says));
}

// The lesson with its usual values. What its extreme values would bring about is found now, not when somebody
// meets them.
bool read_lesson(Loading& loading, const SourceText& source, training::Lesson& out) {
  std::optional<Json> json = parse_json(source.bytes, source.shown, loading.problems);
  if (!json) return false;
  Reader reader(source.shown, loading.problems, loading.names);
  const std::size_t before = reader.count();
  const std::vector<Variation> variations = take_variations(reader, *json);
  if (reader.count() == before) read_with(reader, variations, usual_values(variations), *json, out);
  if (variations.empty()) return false;
  for (const Values& values : extreme_values(variations)) {
    if (reader.count() != before) break;
    training::Lesson tried;
    read_with(reader, variations, values, *json, tried);
  }
  return true;
}

bool asks_grounds(const training::Condition& c) {
  return c.op == training::Op::grounds || std::any_of(c.parts.begin(), c.parts.end(), asks_grounds);
}

// A lesson that asks for grounds needs the machine's fault guide, and reports symptoms that are in it.
void attach_guide(Loading& loading, training::Lesson& lesson, const std::string& shown) {
  const bool asks = std::any_of(lesson.criteria.begin(), lesson.criteria.end(), [](const auto& one) {
    return asks_grounds(one.monitor.what) || asks_grounds(one.monitor.when);
  });
  const bool led = std::any_of(lesson.steps.begin(), lesson.steps.end(),
                               [](const auto& one) { return one.fault_work != training::FaultPhase::none; });
  if (!asks && !led && lesson.reported.empty()) return;
  const auto found = loading.library.grounds.find(lesson.machine);
  if (found == loading.library.grounds.end()) {
    // With other problems the guide was not read.
    if (loading.problems.empty())
      loading.problem(shown, "/criteria", "a machine with a fault guide and evidence",
                      in_quotes(lesson.machine));
    return;
  }
  lesson.guide = found->second;
  const diagnosis::Model& model = found->second->model();
  std::vector<std::string> known;
  for (const diagnosis::Symptom& one : model.symptoms) known.push_back(one.id);
  for (std::size_t i = 0; i < lesson.reported.size(); ++i) {
    if (model.symptom_index(lesson.reported[i]) != diagnosis::Model::npos) continue;
    loading.problem(shown, "/reported/" + std::to_string(i),
                    expect_name("a symptom of the fault guide", lesson.reported[i], known),
                    in_quotes(lesson.reported[i]));
  }
}

// What every lesson asks comes after its own; an id of a lesson's own would hide it.
void add_conduct(Loading& loading, training::Lesson& lesson, const std::string& shown) {
  const std::size_t own = lesson.criteria.size();
  for (const Conduct& one : loading.library.conduct) {
    const bool excepted = std::any_of(one.except.begin(), one.except.end(),
                                      [&lesson](const auto& except) { return except.lesson == lesson.id; });
    if (excepted) continue;
    for (std::size_t i = 0; i < own; ++i)
      if (lesson.criteria[i].id == one.criterion.id)
        loading.problem(shown, "/criteria/" + std::to_string(i) + "/id",
                        "an id that content/conduct does not use", in_quotes(one.criterion.id));
    lesson.criteria.push_back(one.criterion);
  }
}

void load_lesson(Loading& loading, const std::string& id, const std::vector<std::string>& files) {
  const SourceText source{"lessons/" + id + "/lesson.json", id,
                          part(loading, id, "lesson.json", "the lesson's file")};
  training::Lesson lesson;
  const std::string page = part(loading, id, "page.md", "the lesson's page");
  lesson.page = page;
  if (!source.bytes.empty() && read_lesson(loading, source, lesson))
    loading.library.varied_lessons[id] = {source.bytes, page};
  if (!lesson.id.empty() && lesson.id != id)
    loading.problem(source.shown, "/id", "the folder's name (" + in_quotes(id) + ")", in_quotes(lesson.id));
  lesson.id = id;
  if (const std::size_t star = lesson.page.find('*'); star != std::string::npos) {
    const auto line =
        1 + std::count(lesson.page.begin(), lesson.page.begin() + static_cast<std::ptrdiff_t>(star), '\n');
    loading.problem("lessons/" + id + "/page.md", "line " + std::to_string(line),
                    "plain words (names of buttons stand in quotes)", "an asterisk");
  }
  attach_guide(loading, lesson, source.shown);
  lesson.hash = bytes::hex64(bytes::fnv1a(source.bytes));
  check_load(loading, lesson, source.shown);
  check_hands(loading, lesson, source.shown);
  check_runs(loading, lesson, files);
  add_conduct(loading, lesson, source.shown);
  lesson.shared_ways = loading.library.ways;
  loading.library.lessons[id] = std::move(lesson);
}

}  // namespace

std::optional<training::Lesson> Library::lesson(const std::string& id, std::uint64_t seed) const {
  const auto found = lessons.find(id);
  if (found == lessons.end()) return std::nullopt;
  training::Lesson out = found->second;
  const auto varied = varied_lessons.find(id);
  if (varied != varied_lessons.end() && seed != out.start.seed) {
    std::vector<Problem> none;
    Json json = *parse_json(varied->second.json, id, none);
    Reader reader(id, none, *names);
    const std::vector<Variation> variations = take_variations(reader, json);
    training::Lesson drawn;
    drawn.page = varied->second.page;
    read_with(reader, variations, draw(variations, seed), std::move(json), drawn);
    drawn.hash = out.hash;
    drawn.shared_ways = out.shared_ways;
    drawn.guide = out.guide;
    for (const training::Criterion& one : out.criteria)
      if (one.everywhere) drawn.criteria.push_back(one);
    out = std::move(drawn);
  }
  out.start.seed = seed;
  return out;
}

void load_lessons(Loading& loading) {
  std::error_code error;
  std::vector<fs::path> folders;
  for (fs::directory_iterator it(fs::path(loading.content_dir) / "lessons", error), end; !error && it != end;
       it.increment(error)) {
    std::error_code ignored;
    if (it->is_directory(ignored) && it->path().filename().string().front() != '.')
      folders.push_back(it->path());
  }
  std::sort(folders.begin(), folders.end());
  for (const fs::path& folder : folders) {
    std::vector<std::string> files;
    for (fs::directory_iterator it(folder, error), end; !error && it != end; it.increment(error))
      files.push_back(it->path().filename().string());
    std::sort(files.begin(), files.end());
    load_lesson(loading, folder.filename().string(), files);
  }
  for (const Conduct& one : loading.library.conduct)
    for (const Conduct::Exception& except : one.except)
      if (loading.library.lessons.count(except.lesson) == 0)
        loading.problem("conduct", one.criterion.id + "/except", "the id of a lesson",
                        in_quotes(except.lesson));
}

}  // namespace stirbench::library
