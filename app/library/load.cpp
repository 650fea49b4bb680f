#include <algorithm>
#include <cmath>
#include <filesystem>

#include "app/library/food/recipe_check.h"
#include "app/library/guide/guide.h"
#include "app/library/library.h"
#include "app/library/loading.h"
#include "app/library/machine/mesh_file.h"
#include "app/library/reading/content_hash.h"
#include "app/library/reading/paths.h"
#include "app/library/tables.h"

// The order of loading: what is referred to comes before what refers to it.
namespace stirbench::library {

namespace fs = std::filesystem;

namespace {

void must_match_file(Loading& loading, const SourceText& source, const std::string& id) {
  if (!id.empty() && id != source.stem)
    loading.problem(source.shown, "/id", "the file's name (" + in_quotes(source.stem) + ")", in_quotes(id));
}

void load_cautions(Loading& loading, std::map<std::string, std::string>& hashed) {
  const std::string shown = "text/cautions.json";
  const fs::path file = fs::path(loading.content_dir) / shown;
  SourceText source{shown, "cautions", {}};
  try {
    source.bytes = read_file(file.string());
  } catch (const std::exception&) {
    loading.problem(shown, "", "the caution texts", "no such file");
    return;
  }
  CautionFile out;
  read_text(loading, caution_table(), source, out);
  loading.library.cautions = out.cautions;
  for (const auto& [key, words] : out.cautions) loading.names.cautions.push_back(key);
  hashed[shown] = source.bytes;
}

void load_alarms(Loading& loading, std::map<std::string, std::string>& hashed) {
  const std::string shown = "text/alarms.json";
  SourceText source{shown, "alarms", {}};
  try {
    source.bytes = read_file((fs::path(loading.content_dir) / shown).string());
  } catch (const std::exception&) {
    loading.problem(shown, "", "the alarm texts", "no such file");
    return;
  }
  AlarmFile out;
  read_text(loading, alarm_table(), source, out);
  loading.library.alarms = out.alarms;
  hashed[shown] = source.bytes;
}

void load_safety_faults(Loading& loading, std::map<std::string, std::string>& hashed) {
  const std::string shown = "guides/safety-faults.json";
  SourceText source{shown, "guides", {}};
  try {
    source.bytes = read_file((fs::path(loading.content_dir) / shown).string());
  } catch (const std::exception&) {
    return;  // it is written by `explore --table`: content that is still being made may have none
  }
  SafetyFaultFile out;
  read_text(loading, safety_fault_table(), source, out);
  loading.library.safety_faults = out.faults;
  hashed[shown] = source.bytes;
}

void load_ingredients(Loading& loading, std::map<std::string, std::string>& hashed) {
  for (const SourceText& source : json_files(loading, loading.content_dir + "/ingredients", "ingredients")) {
    product::Ingredient one;
    read_text(loading, ingredient_table(), source, one);
    must_match_file(loading, source, one.id);
    hashed[source.shown] = source.bytes;
    // Known by its file's name even when something in it is wrong: one fault shall not cause a hundred
    // others.
    loading.names.ingredients.push_back(source.stem);
    loading.library.ingredients[source.stem] = std::move(one);
  }
}

void load_chemicals(Loading& loading, std::map<std::string, std::string>& hashed) {
  for (const SourceText& source : json_files(loading, loading.content_dir + "/chemicals", "chemicals")) {
    machine::Chemical one;
    read_text(loading, chemical_table(), source, one);
    must_match_file(loading, source, one.id);
    hashed[source.shown] = source.bytes;
    loading.library.chemicals[source.stem] = std::move(one);
  }
}

void load_recipes(Loading& loading, const std::string& dir, const std::string& shown_dir, bool own,
                  std::map<std::string, std::string>& hashed) {
  for (const SourceText& source : json_files(loading, dir, shown_dir)) {
    control::Recipe one;
    read_text(loading, recipe_table(), source, one);
    must_match_file(loading, source, one.id);
    if (own && loading.library.recipes.count(source.stem) != 0) {
      loading.problem(source.shown, "/id", "an id that no shipped recipe has", in_quotes(source.stem));
      continue;
    }
    if (!own)
      hashed[source.shown] = source.bytes;
    else
      loading.library.own_recipes.insert(source.stem);
    loading.names.recipes.push_back(source.stem);
    loading.library.recipe_files[source.stem] =
        own ? source.shown : (fs::path(loading.content_dir) / source.shown).string();
    for (const control::Phase& phase : one.phases) {
      auto& phases = loading.names.phases;
      if (std::find(phases.begin(), phases.end(), phase.id) == phases.end()) phases.push_back(phase.id);
    }
    loading.library.recipes[source.stem] = std::move(one);
  }
}

void load_machines(Loading& loading, std::map<std::string, std::string>& hashed) {
  for (const SourceText& source : json_files(loading, loading.content_dir + "/machines", "machines")) {
    MachineFile one;
    read_text(loading, machine_table(), source, one);
    must_match_file(loading, source, one.plant.id);
    hashed[source.shown] = source.bytes;
    loading.names.machines.push_back(source.stem);
    loading.library.machines[source.stem] = std::move(one.plant);
    loading.library.controls[source.stem] = one.control;
  }
  if (loading.names.machines.empty()) loading.problem("machines", "", "at least one machine file", "none");
}

void load_mesh(Loading& loading, BodyShape& shape) {
  const std::string shown = "bodies/" + shape.file;
  try {
    parse_mesh(read_file((fs::path(loading.content_dir) / shown).string()), shown, shape, loading.problems);
  } catch (const std::exception& failure) {
    loading.problem(shown, "", "a file that can be read", failure.what());
  }
}

// What machines look like. A body changes nothing in a run, so it enters no hash.
void load_bodies(Loading& loading) {
  for (const SourceText& source : json_files(loading, loading.content_dir + "/bodies", "bodies")) {
    MachineBody one;
    if (!read_text(loading, body_table(), source, one)) continue;
    must_match_file(loading, source, one.id);
    for (BodyPart& part : one.parts)
      for (BodyShape& shape : part.shapes)
        if (shape.kind == ShapeKind::mesh) load_mesh(loading, shape);
    for (const BodyPart& part : one.parts) {
      auto& known = loading.names.parts;
      if (std::find(known.begin(), known.end(), part.id) == known.end()) known.push_back(part.id);
    }
    loading.library.bodies[source.stem] = std::move(one);
  }
}

// Bodies are read before lessons, whose pointings they name; so their own naming of lessons is judged
// afterwards.
void judge_uses(Loading& loading) {
  std::vector<std::string> lessons;
  for (const auto& [id, lesson] : loading.library.lessons) lessons.push_back(id);
  for (const auto& [id, body] : loading.library.bodies) {
    for (std::size_t i = 0; i < body.parts.size(); ++i) {
      for (std::size_t k = 0; k < body.parts[i].uses.size(); ++k) {
        const std::string& named = body.parts[i].uses[k].lesson;
        if (loading.library.lessons.count(named) > 0) continue;
        loading.problem("bodies/" + id + ".json",
                        "/parts/" + std::to_string(i) + "/uses/" + std::to_string(k) + "/lesson",
                        expect_name("a lesson's id", named, lessons), in_quotes(named));
      }
    }
  }
}

// The heating elements are described twice, as heat in the machine and as resistors in the circuit: they have
// to be the same.
void judge_elements(Loading& loading, const SourceText& source, const CircuitFile& circuit) {
  const plant::ElementSpec& want = loading.library.machines.at(source.stem).elements;
  int count = 0;
  for (std::size_t i = 0; i < circuit.parts.size(); ++i) {
    const electrics::CircuitPart& part = circuit.parts[i];
    if (part.kind != electrics::CircuitPartKind::element) continue;
    ++count;
    const std::string here = "/parts/" + std::to_string(i);
    if (part.rated_W != want.rated_W_each)
      loading.problem(source.shown, here + "/rated_W",
                      "the machine's rated_W_each (" + number_text(want.rated_W_each) + ")",
                      number_text(part.rated_W));
    if (part.rated_V != want.rated_V)
      loading.problem(source.shown, here + "/rated_V",
                      "the machine's rated_V (" + number_text(want.rated_V) + ")", number_text(part.rated_V));
  }
  if (count != want.count && !circuit.parts.empty())
    loading.problem(source.shown, "/parts",
                    "as many elements as the machine has (" + std::to_string(want.count) + ")",
                    std::to_string(count));
}

// The circuits of the machines; each machine needs one.
void load_circuits(Loading& loading, std::map<std::string, std::string>& hashed) {
  const auto& machines = loading.names.machines;
  for (const SourceText& source : json_files(loading, loading.content_dir + "/circuits", "circuits")) {
    CircuitFile one;
    read_text(loading, circuit_table(), source, one);
    must_match_file(loading, source, one.id);
    hashed[source.shown] = source.bytes;
    const bool known = std::find(machines.begin(), machines.end(), source.stem) != machines.end();
    if (!known && !machines.empty())
      loading.problem(source.shown, "/id", expect_name("a machine's id", source.stem, machines),
                      in_quotes(source.stem));
    // Comparing with a half-read machine would only repeat what was said already.
    if (known && loading.problems.empty()) judge_elements(loading, source, one);
    const electrics::Diagram& diagram =
        loading.library.circuits[source.stem] = {one.note, std::move(one.parts), std::move(one.wires)};
    if (!known || !electrics::diagram_problems(diagram).empty()) continue;
    plant::MachineSpec& machine = loading.library.machines.at(source.stem);
    machine.circuit = electrics::make_network(diagram, machine.supply_V, machine.supply_Hz);
  }
  for (const std::string& id : machines) {
    if (loading.library.circuits.count(id) == 0)
      loading.problem("circuits/" + id + ".json", "", "the circuit of the machine", "no such file");
  }
}

// Faults fit every machine: the places that they name are in each circuit.
void load_faults(Loading& loading, std::map<std::string, std::string>& hashed) {
  const bool sound = loading.problems.empty();
  for (const SourceText& source : json_files(loading, loading.content_dir + "/faults", "faults")) {
    faults::Fault one;
    // With cautions or circuits that could not be read, every fault would only say so again.
    const bool good = sound && read_text(loading, fault_table(), source, one);
    if (sound) must_match_file(loading, source, one.id);
    hashed[source.shown] = source.bytes;
    for (const auto& [id, machine] : loading.library.machines) {
      const auto problems = good ? faults::fault_problems(machine, one) : std::vector<faults::FaultProblem>{};
      for (const auto& problem : problems)
        loading.problem(source.shown, problem.where, problem.expected, problem.found);
      if (!problems.empty()) break;
    }
    loading.names.faults.push_back(source.stem);
    loading.library.faults[source.stem] = std::move(one);
  }
}

// How far a batch is from the middle of what a machine takes, as a share of its working volume.
double distance_norm(const plant::MachineSpec& machine, double hot_L) {
  return std::abs(hot_L - 0.5 * (machine.vat.working_L + machine.vat.minimum_L)) / machine.vat.working_L;
}

// A recipe is good when it can be run on one machine at least. Else the problems are those on the machine
// that it comes nearest to: with the fewest of them, then by its volume.
void judge_recipes(Loading& loading) {
  for (const auto& [id, recipe] : loading.library.recipes) {
    const std::string& full = loading.library.recipe_files.at(id);
    const std::string shown = loading.library.own_recipes.count(id) != 0 ? full : "recipes/" + id + ".json";
    const double hot_L = product::figures(whole_product(loading.library, recipe)).volume_hot_L;
    std::vector<Problem> least;
    double nearest_norm = 0.0;
    bool first = true;
    for (const auto& [machine_id, machine] : loading.library.machines) {
      std::vector<Problem> found =
          recipe_problems(loading.library, machine, loading.library.controls.at(machine_id), recipe, shown);
      const double norm = distance_norm(machine, hot_L);
      if (first || found.size() < least.size() || (found.size() == least.size() && norm < nearest_norm)) {
        least = std::move(found);
        nearest_norm = norm;
      }
      first = false;
    }
    loading.problems.insert(loading.problems.end(), least.begin(), least.end());
  }
}

bool is_content(Loading& loading, const std::string& content_dir) {
  loading.content_dir = content_dir;
  std::error_code error;
  if (fs::is_directory(content_dir, error)) return true;
  loading.problem(content_dir, "", "a content folder (machines, ingredients, recipes, lessons, text)",
                  "no such folder");
  return false;
}

std::map<std::string, std::string> joined(std::map<std::string, std::string> a,
                                          const std::map<std::string, std::string>& b) {
  a.insert(b.begin(), b.end());
  return a;
}

}  // namespace

std::vector<SourceText> json_files(Loading& loading, const std::string& dir, const std::string& shown_dir) {
  constexpr std::uintmax_t most_bytes = 4U << 20U;
  std::vector<SourceText> out;
  std::error_code error;
  std::vector<fs::path> files;
  for (fs::directory_iterator it(dir, error), end; !error && it != end; it.increment(error)) {
    const std::string name = it->path().filename().string();
    if (name.front() != '.' && it->path().extension() == ".json") files.push_back(it->path());
  }
  std::sort(files.begin(), files.end());
  for (const fs::path& file : files) {
    const std::string shown = shown_dir + "/" + file.filename().string();
    std::error_code size_error;
    const std::uintmax_t size = fs::file_size(file, size_error);
    if (!size_error && size > most_bytes) {
      loading.problem(shown, "", "a file of at most 4 MB", std::to_string(size) + " bytes");
      continue;
    }
    try {
      out.push_back({shown, file.stem().string(), read_file(file.string())});
    } catch (const std::exception& failure) {
      loading.problem(shown, "", "a file that can be read", failure.what());
    }
  }
  return out;
}

LoadResult load_for_guide(const std::string& content_dir) {
  Loading loading;
  if (!is_content(loading, content_dir)) return {std::move(loading.library), std::move(loading.problems)};
  std::map<std::string, std::string> hashed;
  load_cautions(loading, hashed);
  load_ingredients(loading, hashed);
  load_machines(loading, hashed);
  load_circuits(loading, hashed);
  load_faults(loading, hashed);
  return {std::move(loading.library), std::move(loading.problems)};
}

LoadResult load(const std::string& content_dir, const std::string& own_dir) {
  Loading loading;
  if (!is_content(loading, content_dir)) return {std::move(loading.library), std::move(loading.problems)};
  std::map<std::string, std::string> machines;
  std::map<std::string, std::string> circuits;
  std::map<std::string, std::string> food;
  std::map<std::string, std::string> texts;
  load_cautions(loading, texts);
  load_alarms(loading, texts);
  load_safety_faults(loading, texts);
  load_rules(loading, own_dir, food);
  load_ingredients(loading, food);
  load_chemicals(loading, food);
  load_recipes(loading, content_dir + "/recipes", "recipes", false, food);
  if (!own_dir.empty()) load_recipes(loading, own_dir + "/recipes", own_dir + "/recipes", true, food);
  load_machines(loading, machines);
  load_bodies(loading);
  load_circuits(loading, circuits);
  load_diagrams(loading);
  load_faults(loading, food);
  // Judging a half-read recipe or on a half-read machine would only repeat what was said already.
  if (loading.problems.empty()) judge_recipes(loading);
  load_skills(loading, own_dir, texts);
  load_demands(loading, texts);
  load_ways(loading, texts);
  load_conduct(loading, texts);
  load_grounds(loading);
  load_lessons(loading);
  judge_uses(loading);

  Library& library = loading.library;
  for (const auto& [shown, bytes] : machines) {
    const std::string id = fs::path(shown).stem().string();
    std::map<std::string, std::string> own = {{shown, bytes}};
    const auto circuit = circuits.find("circuits/" + id + ".json");
    if (circuit != circuits.end()) own.insert(*circuit);
    library.machine_hashes[id] = hash_files(joined(own, food));
  }
  // With content that could not be read an own machine would only say so again.
  if (!own_dir.empty() && loading.problems.empty()) load_own_machines(loading, own_dir);
  std::map<std::string, std::string> all = joined(joined(joined(machines, circuits), food), texts);
  for (const auto& [id, lesson] : library.lessons) all["lessons/" + id] = lesson.hash;
  library.content_hash = hash_files(all);
  library.names = std::make_shared<const Names>(loading.names);
  return {std::move(library), std::move(loading.problems)};
}

}  // namespace stirbench::library
