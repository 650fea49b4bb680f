#include "app/cli/fit/fit.h"

#include <algorithm>
#include <filesystem>

#include "app/fitting/log_file.h"
#include "app/fitting/picture.h"
#include "app/fitting/request.h"
#include "app/library/machine/own_machine.h"
#include "app/library/reading/paths.h"
#include "sim_core/identification/causes.h"
#include "sim_core/identification/words.h"

namespace stirbench::cli {

namespace {

using namespace identification;

constexpr std::size_t shown_causes = 6;

void check(const FitOptions& o) {
  const auto within = [](const char* option, const char* unit, double low, double high, double value) {
    if (value >= low && value <= high) return;
    throw Refusal(std::string(option) + ": expected " + fixed(low, 1) + " .. " + fixed(high, 1) + unit +
                  ", found " + fixed(value, 3));
  };
  if (o.mass_kg != 0.0) within("--mass", " kg", 0.5, 1000.0, o.mass_kg);
  if (o.fill_kg != 0.0) within("--fill", " kg", 0.5, 1000.0, o.fill_kg);
  if (o.power_W != 0.0) within("--power", " W", 50.0, 200000.0, o.power_W);
  if (o.ambient_degC != -100.0) within("--ambient", " degC", -20.0, 60.0, o.ambient_degC);
  if (o.mass_kg != 0.0 && o.fill_kg != 0.0)
    throw Refusal("--mass and --fill: expected one of them; --mass is weighed, --fill is taken");
  if (o.until_s >= 0.0 && o.until_s <= std::max(0.0, o.from_s))
    throw Refusal("--until: expected more than --from, found " + fixed(o.until_s, 1));
  if (!o.actions.empty() && (o.mass_kg != 0.0 || o.fill_kg != 0.0))
    throw Refusal("--actions: the file says what is poured; expected no --mass and no --fill beside it");
  if (!o.actions.empty() && o.from_s > 0.0)
    throw Refusal("--from: expected without --actions, whose times count from the log's first row");
}

BatchLog log_or_refuse(const FitOptions& options) {
  fitting::LogResult read = fitting::read_log(options.log);
  if (!read.problems.empty()) throw Refusal(join_problems(read.problems));
  for (const std::string& notice : read.notices) say(options.log + ": " + notice);
  if (options.from_s >= 0.0 || options.until_s >= 0.0) {
    fitting::cut(read.log, options.from_s, options.until_s);
    if (read.log.samples.size() < least_samples)
      throw Refusal(options.log + ": expected at least " + std::to_string(least_samples) +
                    " samples between --from and --until, found " + std::to_string(read.log.samples.size()));
  }
  return std::move(read.log);
}

FitRequest request_or_refuse(const FitOptions& options, const machine::Machine& machine, BatchLog log) {
  fitting::BatchWords words{options.ingredient,   options.mass_kg,      options.fill_kg,
                            options.power_W,      options.ambient_degC, {},
                            options.clock_unknown};
  if (!options.actions.empty()) words.actions = actions_or_refuse(options.actions, machine);
  fitting::Request made = fitting::request_of(machine, std::move(log), words);
  if (!made.problem.empty()) throw Refusal("--product: " + made.problem);
  return std::move(made.fit);
}

std::string own_id(const FitOptions& options) {
  return options.id.empty() ? std::filesystem::path(options.write).stem().string() : options.id;
}

// The machine of the site's own, written as --write says.
void write_machine(const library::Library& library, const FitOptions& options, const Fit& fitted) {
  library::OwnMachine out = fitting::own_machine_of(library, options.machine, fitted, options.log);
  out.id = own_id(options);
  out.title = options.title.empty() ? library.machines.at(out.of).title + " of this site" : options.title;
  const std::string problem = library::save_own_machine(library, out, options.write);
  if (!problem.empty()) throw Refusal(problem);
  say("Written: " + options.write +
      ". In the folder machines of your data folder it is a machine: --machine " + out.id + ".");
}

nlohmann::json found_json(const Fit& fitted) {
  nlohmann::json list = nlohmann::json::array();
  for (const Found& found : fitted.found) {
    const QuantityEntry& one = entry(found.quantity);
    list.push_back({{"id", std::string(one.id)},
                    {"unit", std::string(one.unit)},
                    {"before", found.before},
                    {"value", found.value},
                    {"low", found.low},
                    {"high", found.high},
                    {"by_profile", found.profiled},
                    {"plausible", found.plausible}});
  }
  return list;
}

nlohmann::json causes_json(const Explanations& causes) {
  nlohmann::json list = nlohmann::json::array();
  for (const Explanation& one : causes.ranked)
    list.push_back({{"id", one.id},
                    {"title", one.title},
                    {"severity", one.severity},
                    {"rms_K", one.rms_K},
                    {"bic", one.bic},
                    {"weight", one.weight}});
  return list;
}

nlohmann::json fit_json(const FitRequest& request, const Fit& fitted, const Explanations& causes) {
  const ResidualReport& r = fitted.residuals;
  nlohmann::json objections = nlohmann::json::array();
  for (const Objection& one : fitted.objections) objections.push_back(one.words);
  nlohmann::json tied = nlohmann::json::array();
  for (const Tied& one : fitted.tied)
    tied.push_back({{"one", std::string(entry(one.one).id)},
                    {"other", std::string(entry(one.other).id)},
                    {"correlation", one.correlation}});
  return {{"machine", request.machine.plant.id},
          {"fits", fitted.objections.empty()},
          {"found", found_json(fitted)},
          {"tied", tied},
          {"cannot_be_told", identifiability_words(request, fitted)},
          {"switchings_from", spells_words(fitted.spells.from)},
          {"objections", objections},
          {"residuals",
           {{"rms_K", r.rms_K},
            {"most_K", r.most_K},
            {"most_at_s", r.most_at_s},
            {"noise_K", r.noise_K},
            {"structure_K", r.structure_K},
            {"rho", r.rho},
            {"runs_z", r.runs_z},
            {"worst_switching_s", r.worst_switching_s},
            {"worst_mean_K", r.worst_mean_K}}},
          {"causes", causes_json(causes)},
          {"runs", fitted.evaluations}};
}

void print_found(const Fit& fitted) {
  for (const Found& found : fitted.found) {
    const QuantityEntry& one = entry(found.quantity);
    std::string line(one.title);
    line.resize(std::max<std::size_t>(line.size() + 1, 34), ' ');
    line += fixed(found.value, one.decimals) + " " + std::string(one.unit) +
            "  (95 %: " + fixed(found.low, one.decimals) + " .. " + fixed(found.high, one.decimals) +
            (found.profiled ? ", by profile" : "") + ")";
    if (one.compared) line += "  before: " + fixed(found.before, one.decimals);
    print(line);
  }
}

void print_residuals(const ResidualReport& r) {
  print("residuals        " + fixed(r.rms_K, 2) + " K rms, at most " + fixed(std::abs(r.most_K), 2) +
        " K at " + clock_text(r.most_at_s) + "; noise of the log " + fixed(r.noise_K, 2) + " K, so " +
        fixed(r.structure_K, 2) + " K that noise does not explain");
  if (r.rho > 0.0)
    print("                 neighbours are alike (lag-one correlation " + fixed(r.rho, 2) +
          "): the intervals are widened for it");
  if (r.worst_switching_s >= 0.0 && std::abs(r.worst_mean_K) > 0.5 * model_error_K)
    print("                 they lean most after the switching at " + clock_text(r.worst_switching_s) + ": " +
          fixed(r.worst_mean_K, 2) + " K on average");
}

void print_causes(const Explanations& causes) {
  if (causes.ranked.empty()) return;
  print(
      "what would explain the log, the likeliest first (from this log alone, not from how often it comes):");
  for (std::size_t i = 0; i < std::min(shown_causes, causes.ranked.size()); ++i) {
    const Explanation& one = causes.ranked[i];
    print("  " + fixed(100.0 * one.weight, 0) + " %  " + one.title + " (" + one.id + "), " +
          fixed(one.rms_K, 2) + " K rms");
  }
}

void print_fit(const FitRequest& request, const Fit& fitted, const Explanations& causes) {
  print("machine          " + request.machine.plant.title + ", " + fixed(mass_kg(request.course), 1) +
        " kg, " + std::to_string(fitted.log.samples.size()) + " samples; switchings from " +
        spells_words(fitted.spells.from));
  print_found(fitted);
  print_residuals(fitted.residuals);
  for (const std::string& words : identifiability_words(request, fitted)) print("note             " + words);
  for (const Objection& one : fitted.objections) print("does not fit     " + one.words);
  if (fitted.objections.empty())
    print("fits             the log is one of this machine, within noise and model");
  print_causes(causes);
}

}  // namespace

FitRequest fit_request_or_refuse(const FitOptions& options, const machine::Machine& machine) {
  check(options);
  return request_or_refuse(options, machine, log_or_refuse(options));
}

int fit(const CommonOptions& common, const FitOptions& options) {
  check(options);
  const library::Library library = load_library(common);
  const machine::Machine machine = machine_or_refuse(library, options.machine);
  // Before some seconds of work: what could not be written would be lost.
  if (!options.write.empty()) {
    const std::string trouble = library::why_not_kept(library, own_id(options), options.write);
    if (!trouble.empty()) throw Refusal("--write: " + trouble);
  }
  if (!options.svg.empty()) {
    const std::string trouble = library::why_not_writable(options.svg);
    if (!trouble.empty()) throw Refusal("--svg: " + trouble);
  }
  const FitRequest request = fit_request_or_refuse(options, machine);
  const Fit fitted = identification::fit(request);
  if (!fitted.done) throw Refusal(options.log + ": nothing could be fitted: " + fitted.trouble);
  const bool fits = fitted.objections.empty();
  const Explanations causes =
      !fits || options.causes ? fitting::explanations_of(library, request) : Explanations{};
  if (fits && !options.write.empty()) write_machine(library, options, fitted);
  if (!options.svg.empty()) {
    const std::string title =
        machine.plant.title + " and " + std::filesystem::path(options.log).filename().string();
    const std::string problem = library::write_atomically(options.svg, fitting::picture_of(fitted, title));
    if (!problem.empty()) throw Refusal(problem);
  }
  if (common.json) {
    print_json(fit_json(request, fitted, causes));
  } else {
    print_fit(request, fitted, causes);
  }
  if (!fits && !options.write.empty()) say("Nothing written: the log does not fit this machine.");
  return fits ? exit_done : exit_no;
}

}  // namespace stirbench::cli
