#pragma once

#include <CLI/CLI.hpp>
#include <functional>
#include <string>

#include "app/cli/common.h"
#include "app/records/store.h"

// Signing in on the command line: --as NAME, with the PIN from --pin-file, $STIRBENCH_PIN, or typed on the
// terminal; never as an argument, which other users of the computer could read.
namespace stirbench::cli {

struct SignInOptions {
  std::string as;
  std::string pin_file;
};

void add_sign_in_options(CLI::App& app, SignInOptions& asking);

// The records of --data, or of the usual folder. Throws StoreError.
records::Store open_store(const CommonOptions& common);

// Without --as: nobody, who may do everything in a store without a manager and nothing in a managed one.
// Throws Refusal or StoreError (unknown name, wrong PIN, wait).
records::Access sign_in(records::Store& store, const SignInOptions& asking);

// A PIN from a file (first line), an environment variable, or the terminal; Refusal when there is none.
std::string read_pin(const std::string& file, const char* variable, const std::string& prompt);

records::Person person_or_refuse(records::Store& store, const std::string& name, const std::string& option);

// people, attempts, records, certify.
void add_records_verbs(CLI::App& app, CommonOptions& common, std::function<int()>& verb);
void add_certify_verbs(CLI::App& app, CommonOptions& common, std::function<int()>& verb);
void add_common(CLI::App& app, CommonOptions& common);

}  // namespace stirbench::cli
