#include "app/cli/common.h"

#include <charconv>
#include <cmath>
#include <cstdio>

#include "app/library/reading/paths.h"
#include "app/library/reading/suggest.h"
#include "sim_core/faults/safety.h"

namespace stirbench::cli {

std::string join_problems(const std::vector<library::Problem>& problems) {
  std::string out;
  for (const auto& problem : problems) out += (out.empty() ? "" : "\n") + problem.text();
  return out;
}

library::Library load_library(const CommonOptions& common) {
  const std::string content = common.content_dir.empty() ? library::content_dir() : common.content_dir;
  library::LoadResult loaded = library::load(content, library::data_dir(common.data_dir));
  if (!loaded.problems.empty()) throw Refusal(join_problems(loaded.problems));
  return std::move(loaded.library);
}

machine::Machine machine_or_refuse(const library::Library& library, const std::string& id) {
  if (library.machines.count(id) == 0) {
    throw Refusal("--machine: expected one of " + known_ids(library.machines) + ", found \"" + id + "\"");
  }
  return library.machine(id);
}

std::vector<hands::TimedAction> actions_or_refuse(const std::string& file, const machine::Machine& machine) {
  library::ActionsResult result = library::read_actions(file, machine);
  if (!result.problems.empty()) throw Refusal(join_problems(result.problems));
  return std::move(result.actions);
}

machine::StartSetup::Fault fault_or_refuse(const machine::Machine& machine, const std::string& text) {
  const std::size_t equals = text.find('=');
  machine::StartSetup::Fault fault{text.substr(0, equals), 1.0};
  if (machine.fault_index(fault.id) < 0 && faults::find_safety_fault(fault.id) == nullptr) {
    std::vector<std::string> known;
    for (const auto& one : machine.faults) known.push_back(one.id);
    for (const auto& one : faults::safety_faults()) known.emplace_back(one.id);
    const std::string near = library::nearest(fault.id, known);
    throw Refusal("--fault: expected a fault of content/faults or of the safety parts" +
                  (near.empty() ? std::string() : " (did you mean \"" + near + "\"?)") + ", found \"" +
                  fault.id + "\"");
  }
  if (equals == std::string::npos) return fault;
  const char* const first = text.data() + equals + 1;
  const char* const last = text.data() + text.size();
  const auto read = std::from_chars(first, last, fault.severity);
  if (read.ec != std::errc() || read.ptr != last || !(fault.severity > 0.0 && fault.severity <= 1.0))
    throw Refusal("--fault: expected ID=SEVERITY with a severity above 0, at most 1, found \"" + text + "\"");
  return fault;
}

void print_json(const nlohmann::json& value) { print(value.dump(2)); }

void say(const std::string& line) { std::fprintf(stderr, "%s\n", line.c_str()); }

void print(const std::string& line) { std::fprintf(stdout, "%s\n", line.c_str()); }

std::string fixed(double value, int decimals) {
  if (!std::isfinite(value)) return "nan";
  char buffer[400];
  const auto end = std::to_chars(buffer, buffer + sizeof buffer, value, std::chars_format::fixed, decimals);
  std::string text(buffer, end.ptr);
  // A rounded zero carries no sign.
  if (text.find_first_not_of("-0.") == std::string::npos && text.front() == '-') text.erase(0, 1);
  return text;
}

std::string clock_text(double seconds) {
  const auto whole = static_cast<long long>(std::max(0.0, seconds));
  char buffer[32];
  if (whole >= 3600) {
    std::snprintf(buffer, sizeof buffer, "%lld:%02lld:%02lld", whole / 3600, whole / 60 % 60, whole % 60);
  } else {
    std::snprintf(buffer, sizeof buffer, "%lld:%02lld", whole / 60, whole % 60);
  }
  return buffer;
}

void write_or_refuse(const std::string& file, const std::string& text) {
  const std::string problem = library::write_atomically(file, text);
  if (!problem.empty()) throw Refusal(problem);
}

}  // namespace stirbench::cli
