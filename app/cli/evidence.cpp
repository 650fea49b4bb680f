#include <chrono>
#include <filesystem>

#include "app/cli/diagnosis.h"
#include "app/cli/diagnosis_internal.h"
#include "app/library/guide/likelihood_simulation.h"
#include "app/library/reading/paths.h"

namespace stirbench::cli {

namespace {

// A line a tenth of the work: enough to see that it moves, few enough for a log.
library::ReportProgress progress_lines() {
  const auto began = std::chrono::steady_clock::now();
  auto told = std::make_shared<std::size_t>(0);
  return [began, told](const library::LikelihoodProgress& p) {
    const std::size_t tenth = p.all == 0 ? 10 : 10 * p.done / p.all;
    if (tenth <= *told) return;
    *told = tenth;
    const double elapsed_s = std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
    say(std::to_string(p.done) + " of " + std::to_string(p.all) + " rows, " + fixed(elapsed_s, 0) + " s" +
        (p.taken_over > 0 ? " (" + std::to_string(p.taken_over) + " kept from a stopped run)" : ""));
  };
}

// What every question reads on the good machine and under each cause, for setting thresholds.
void print_raw(const library::Library& library, const library::FaultGuides& shelf, const std::string& id) {
  const library::FaultGuide& guide = shelf.guides.at(id);
  const diagnosis::Model model = library::guide_model(guide, nullptr).model;
  const diagnosis::FaultyMachines machines(library.machine(id), model, guide.protocols);
  std::string head = "cause\tseverity";
  for (std::size_t q = 0; q < model.question_count(); ++q)
    head += "\t" + (model.is_symptom(q) ? model.symptoms[q].id : model.check(q).id);
  print(head);
  const auto row = [&](const std::string& name, std::size_t cause, double severity) {
    diagnosis::RandomMachine draw;
    draw.cause = cause;
    draw.severity = severity;
    std::string line = name + "\t" + fixed(severity, 2);
    for (const double one : machines.read_all(draw)) line += "\t" + fixed(one, 3);
    print(line);
  };
  row("good", diagnosis::Model::npos, 0.0);
  for (std::size_t c = 0; c < guide.causes.size(); ++c) {
    for (const library::ProfilePlan& profile : library::profile_plan(guide.causes[c]))
      row(guide.causes[c].id, c, 0.5 * (profile.low + profile.high));
  }
}

}  // namespace

int evidence(const CommonOptions& common, const EvidenceOptions& options) {
  const library::Library library = load_library(common);
  machine_or_refuse(library, options.machine);
  // Evidence that cannot be read does not matter here: it is about to be made again.
  const library::FaultGuides shelf = guides_or_refuse(common, library, options.verify);
  if (shelf.guides.count(options.machine) == 0)
    throw Refusal("--machine: expected one with a fault guide (" + known_ids(shelf.guides) + "), found \"" +
                  options.machine + "\"");
  if (options.machines_each < 1 || options.machines_each > 100000)
    throw Refusal("--machines: expected 1 .. 100000, found " + std::to_string(options.machines_each));
  if (options.raw) {
    print_raw(library, shelf, options.machine);
    return exit_done;
  }
  const auto began = std::chrono::steady_clock::now();
  const auto elapsed_s = [&began] {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count();
  };
  if (options.verify) {
    const std::vector<std::string> wrong =
        library::verify_likelihoods(library, shelf, options.machine, options.threads, progress_lines());
    if (common.json)
      print_json({{"machine", options.machine},
                  {"fresh", wrong.empty()},
                  {"problems", wrong},
                  {"elapsed_s", elapsed_s()}});
    else {
      for (const std::string& one : wrong) print(one);
      if (wrong.empty()) print("The evidence is what this program makes of this content.");
    }
    return wrong.empty() ? exit_done : exit_not_verified;
  }
  const std::string content = common.content_dir.empty() ? library::content_dir() : common.content_dir;
  const std::string file =
      options.output.empty() ? content + "/evidence/" + options.machine + ".json" : options.output;
  std::error_code error;
  std::filesystem::create_directories(std::filesystem::path(file).parent_path(), error);
  library::LikelihoodPlan plan;
  plan.machines_each = options.machines_each;
  plan.threads = options.threads;
  plan.kept_file = file + ".part";
  const library::LikelihoodTable made =
      library::simulate_likelihoods(library, shelf, options.machine, plan, progress_lines());
  const std::string failed = library::write_atomically(file, library::likelihood_text(made));
  if (!failed.empty()) throw Refusal(failed);
  std::filesystem::remove(plan.kept_file, error);
  const double machines = static_cast<double>(made.rows.size()) * made.machines_each;
  if (common.json) {
    print_json({{"machine", options.machine},
                {"file", file},
                {"rows", made.rows.size()},
                {"machines", machines},
                {"basis", made.basis},
                {"elapsed_s", elapsed_s()}});
  } else
    print(fixed(machines, 0) + " machines simulated in " + fixed(elapsed_s(), 0) + " s: " + file);
  return exit_done;
}

}  // namespace stirbench::cli
