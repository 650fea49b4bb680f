#pragma once

#include <nlohmann/json.hpp>
#include <stdexcept>
#include <string>
#include <vector>

#include "app/cli/cli.h"
#include "app/library/library.h"
#include "sim_core/bench/step.h"

// What all verbs share: loading, refusing, printing.
namespace stirbench::cli {

// Bad input: printed to stderr as it is, one line a problem, exit code 2.
struct Refusal : std::runtime_error {
  using std::runtime_error::runtime_error;
};

// Options that every verb takes.
struct CommonOptions {
  std::string content_dir;
  std::string data_dir;
  bool json = false;
};

// The whole content, strict: throws Refusal with all problems when there is any. Own recipes are included
// when their folder can be read; a broken own recipe is reported on stderr and left out of nothing shipped.
library::Library load_library(const CommonOptions& common);

// One machine's model; unknown id: Refusal that lists the known ones.
machine::Machine machine_or_refuse(const library::Library& library, const std::string& id);

std::vector<hands::TimedAction> actions_or_refuse(const std::string& file, const machine::Machine& machine);

// "ID" or "ID=SEVERITY", severity above 0, at most 1 (default 1).
machine::StartSetup::Fault fault_or_refuse(const machine::Machine& machine, const std::string& text);

std::string join_problems(const std::vector<library::Problem>& problems);

void print_json(const nlohmann::json& value);
void say(const std::string& line);    // stderr
void print(const std::string& line);  // stdout

// Writes a result file whole or not at all; Refusal names the file and the reason.
void write_or_refuse(const std::string& file, const std::string& text);

std::string fixed(double value, int decimals);  // locale-independent
std::string clock_text(double seconds);         // m:ss or h:mm:ss of simulated time

template <typename Map>
std::string known_ids(const Map& map) {
  std::string out;
  for (const auto& [id, unused] : map) {
    (void)unused;
    out += (out.empty() ? "" : ", ") + id;
  }
  return out;
}

}  // namespace stirbench::cli
