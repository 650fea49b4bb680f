#include "app/cli/asking.h"

#include <termios.h>
#include <unistd.h>

#include <cstdio>
#include <cstdlib>
#include <iostream>

#include "app/library/reading/paths.h"

namespace stirbench::cli {

namespace {

std::string first_line(std::string text) {
  const std::size_t end = text.find_first_of("\r\n");
  if (end != std::string::npos) text.resize(end);
  return text;
}

// From the terminal, without showing it.
std::string ask(const std::string& prompt) {
  std::fprintf(stderr, "%s: ", prompt.c_str());
  termios before{};
  const bool quiet = ::tcgetattr(STDIN_FILENO, &before) == 0;
  termios hidden = before;
  hidden.c_lflag &= ~static_cast<tcflag_t>(ECHO);
  if (quiet) ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &hidden);
  std::string line;
  std::getline(std::cin, line);
  if (quiet) ::tcsetattr(STDIN_FILENO, TCSAFLUSH, &before);
  std::fprintf(stderr, "\n");
  return line;
}

}  // namespace

void add_common(CLI::App& app, CommonOptions& common) {
  app.add_option("--content", common.content_dir,
                 "Content folder (default: the one that came with the program)");
  app.add_option("--data", common.data_dir, "Your own folder for recipes, attempts and settings");
  app.add_flag("--json", common.json, "Print one JSON object on stdout");
}

void add_sign_in_options(CLI::App& app, SignInOptions& asking) {
  app.add_option("--as", asking.as, "Who you are; your PIN is asked for");
  app.add_option("--pin-file", asking.pin_file,
                 "Read the PIN from this file's first line (else $STIRBENCH_PIN, else the terminal)");
}

std::string read_pin(const std::string& file, const char* variable, const std::string& prompt) {
  if (!file.empty()) {
    try {
      return first_line(library::read_file(file));
    } catch (const std::runtime_error& error) {
      throw Refusal(error.what());
    }
  }
  if (const char* value = std::getenv(variable)) return value;
  if (::isatty(STDIN_FILENO) != 0) return ask(prompt);
  throw Refusal(prompt + ": expected a PIN in a file, in $" + std::string(variable) +
                " or on a terminal, found none");
}

records::Person person_or_refuse(records::Store& store, const std::string& name, const std::string& option) {
  const std::optional<records::Person> found = store.person_named(name);
  if (!found) throw Refusal(option + ": expected a known person, found \"" + name + "\"");
  return *found;
}

records::Store open_store(const CommonOptions& common) {
  return records::Store(library::data_dir(common.data_dir));
}

records::Access sign_in(records::Store& store, const SignInOptions& asking) {
  if (asking.as.empty()) return store.nobody();
  const records::Person who = person_or_refuse(store, asking.as, "--as");
  if (!who.has_pin && !store.managed()) return {who.id, who.uid, who.role, true};
  if (!who.has_pin)
    throw Refusal(who.name + " has no PIN. A manager gives one: stirbench people pin \"" + who.name +
                  "\" --as MANAGER");
  return store.sign_in(who.id, read_pin(asking.pin_file, "STIRBENCH_PIN", "PIN of " + who.name));
}

}  // namespace stirbench::cli
