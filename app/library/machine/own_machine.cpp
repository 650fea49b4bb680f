#include "app/library/machine/own_machine.h"

#include <filesystem>
#include <utility>

#include "app/library/loading.h"
#include "app/library/reading/content_hash.h"
#include "app/library/reading/json.h"
#include "app/library/reading/paths.h"
#include "app/library/tables.h"

namespace stirbench::library {

namespace {

namespace fs = std::filesystem;

// The numbers by their key, with where they are in a machine.
struct Value {
  const char* key;
  double OwnMachine::*own;
  double& (*in)(plant::MachineSpec&);
  double low;
  double high;
  const char* unit;
  const char* doc;
};
constexpr Value values[] = {
    {"element_W_each", &OwnMachine::element_W_each,
     [](plant::MachineSpec& m) -> double& { return m.elements.rated_W_each; }, 50.0, 20000.0, "W",
     "Power of one element at its rated voltage."},
    {"vat_loss_W_per_K", &OwnMachine::vat_loss_W_per_K,
     [](plant::MachineSpec& m) -> double& { return m.vat.loss_W_per_K; }, 0.0, 100.0, "W/K",
     "Vat through the insulation to the room."},
    {"well_loss_W_per_K", &OwnMachine::well_loss_W_per_K,
     [](plant::MachineSpec& m) -> double& { return m.well.loss_W_per_K; }, 0.0, 100.0, "W/K",
     "Well through the insulation to the room."},
    {"compressor_swept_m3_per_h", &OwnMachine::compressor_swept_m3_per_h,
     [](plant::MachineSpec& m) -> double& { return m.chiller.swept_m3_per_h; }, 0.1, 200.0, "m3/h",
     "Displacement of the compressor."},
    {"condenser_W_per_K", &OwnMachine::condenser_W_per_K,
     [](plant::MachineSpec& m) -> double& { return m.chiller.condenser_W_per_K; }, 1.0, 20000.0, "W/K",
     "Refrigerant to the room's air."},
    {"probe_tau_s", &OwnMachine::probe_tau_s, [](plant::MachineSpec& m) -> double& { return m.probe.tau_s; },
     0.1, 600.0, "s", "Lag of the probe."}};

Object<OwnMachine> make_table() {
  Object<OwnMachine> t;
  t.format(1);
  t.need("id", &OwnMachine::id, slug(), "The file's name without .json.");
  t.need("title", &OwnMachine::title, text(1, 80), "Name shown to people.");
  t.need("of", &OwnMachine::of, slug(), "The shipped machine that it is made of.");
  t.may("note", &OwnMachine::note, text(0, 2000), "From which log, when, how sure.");
  for (const Value& one : values) t.may(one.key, one.own, number(one.low, one.high, one.unit), one.doc);
  return t;
}

void set_elements(electrics::Diagram& diagram, double each_W) {
  for (electrics::CircuitPart& part : diagram.parts)
    if (part.kind == electrics::CircuitPartKind::element) part.rated_W = each_W;
}

void put_into(Library& library, const OwnMachine& own, const std::string& bytes, const std::string& shown) {
  plant::MachineSpec spec = made_of(own, library.machines.at(own.of));
  electrics::Diagram diagram = library.circuits.at(own.of);
  set_elements(diagram, spec.elements.rated_W_each);
  spec.circuit = electrics::make_network(diagram, spec.supply_V, spec.supply_Hz);
  library.circuits[own.id] = std::move(diagram);
  library.machines[own.id] = std::move(spec);
  library.controls[own.id] = library.controls.at(own.of);
  if (const auto body = library.bodies.find(own.of); body != library.bodies.end()) {
    MachineBody copy = body->second;
    library.bodies[own.id] = std::move(copy);
  }
  if (const auto sheets = library.diagrams.find(own.of); sheets != library.diagrams.end()) {
    std::vector<DiagramSheet> copy = sheets->second;
    library.diagrams[own.id] = std::move(copy);
  }
  library.own_machines[own.id] = own.of;
  library.machine_hashes[own.id] = hash_files({{"of", library.machine_hashes[own.of]}, {shown, bytes}});
}

}  // namespace

const Object<OwnMachine>& own_machine_table() {
  static const Object<OwnMachine> table = make_table();
  return table;
}

plant::MachineSpec made_of(const OwnMachine& own, const plant::MachineSpec& shipped) {
  plant::MachineSpec out = shipped;
  out.id = own.id;
  out.title = own.title;
  for (const Value& one : values)
    if (own.*one.own >= 0.0) one.in(out) = own.*one.own;
  return out;
}

OwnMachine difference(const plant::MachineSpec& fitted, const plant::MachineSpec& shipped) {
  OwnMachine out;
  out.of = shipped.id;
  plant::MachineSpec now = fitted;
  plant::MachineSpec before = shipped;
  for (const Value& one : values)
    if (one.in(now) != one.in(before)) out.*one.own = one.in(now);
  return out;
}

std::string own_machine_text(const OwnMachine& own) {
  Json out{{"format", 1}, {"id", own.id}, {"title", own.title}, {"of", own.of}, {"note", own.note}};
  for (const Value& one : values)
    if (own.*one.own >= 0.0) out[one.key] = own.*one.own;
  return pretty(out);
}

std::string why_not_kept(const Library& library, const std::string& id, const std::string& file) {
  if (!is_slug(id)) return "A machine's id has 2 to 40 characters a-z, 0-9, -; found " + in_quotes(id) + ".";
  if (fs::path(file).filename() != id + ".json")
    return file + ": expected the file's name to be the id with .json (" + id + ".json).";
  if (library.machines.count(id) > 0 && library.own_machines.count(id) == 0)
    return "The id " + in_quotes(id) + " belongs to a shipped machine. Give yours another.";
  return why_not_writable(file);
}

std::string save_own_machine(const Library& library, const OwnMachine& own, const std::string& file) {
  std::string refused = why_not_kept(library, own.id, file);
  if (!refused.empty()) return refused;
  const std::string text = own_machine_text(own);
  std::vector<Problem> problems;
  Names names;
  const std::optional<Json> json = parse_json(text, file, problems);
  OwnMachine back;
  Reader reader(file, problems, names);
  if (json) own_machine_table().read(reader, *json, back);
  if (!problems.empty()) return problems.front().text();
  const fs::path folder = fs::path(file).parent_path();
  if (!folder.empty()) {
    std::string problem = make_writable(folder.string());
    if (!problem.empty()) return problem;
  }
  return write_atomically(file, text);
}

void load_own_machines(Loading& loading, const std::string& own_dir) {
  const std::string dir = own_dir + "/machines";
  const std::vector<std::string> shipped = loading.names.machines;
  for (const SourceText& source : json_files(loading, dir, dir)) {
    OwnMachine own;
    if (!read_text(loading, own_machine_table(), source, own)) continue;
    if (own.id != source.stem) {
      loading.problem(source.shown, "/id", "the file's name (" + in_quotes(source.stem) + ")",
                      in_quotes(own.id));
    } else if (loading.library.machines.count(own.id) > 0) {
      loading.problem(source.shown, "/id", "an id that no shipped machine has", in_quotes(own.id));
    } else if (loading.library.circuits.count(own.of) == 0 || loading.library.machines.count(own.of) == 0 ||
               loading.library.own_machines.count(own.of) > 0) {
      loading.problem(source.shown, "/of", expect_name("a shipped machine's id", own.of, shipped),
                      in_quotes(own.of));
    } else {
      put_into(loading.library, own, source.bytes, source.shown);
    }
  }
}

}  // namespace stirbench::library
