#pragma once

#include <optional>
#include <string>

// The command line: `stirbench VERB ...`. Exit codes: 0 done; 1 done, and the answer is no; 2 bad input,
// nothing written; 3 a journal or record does not verify; 4 cannot open a window.
namespace stirbench::cli {

inline constexpr int exit_done = 0;
inline constexpr int exit_no = 1;
inline constexpr int exit_bad_input = 2;
inline constexpr int exit_not_verified = 3;
inline constexpr int exit_no_window = 4;

// What the desk is to open with, when no verb was given.
struct DeskRequest {
  std::string data_dir;     // --data
  std::string content_dir;  // --content
  std::string screen;       // --screen NAME
  std::string journal;      // --open JOURNAL: debrief of a kept journal
};

struct CommandResult {
  int exit_code = exit_done;
  std::optional<DeskRequest> desk;  // set: open the desk; exit_code is not meant then
};

// Parses and carries out. Output of verbs goes to stdout (one JSON object with --json), messages to stderr.
CommandResult run(int argc, const char* const* argv);

}  // namespace stirbench::cli
