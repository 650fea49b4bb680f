#include <clocale>

#include "app/cli/cli.h"
#include "app/desk/shell/run_desk.h"

// Decides between the command line and the desk. Numbers are read and written in the "C" locale whatever the
// desktop's is.
int main(int argc, char** argv) {
  std::setlocale(LC_ALL, "C");
  const stirbench::cli::CommandResult outcome = stirbench::cli::run(argc, argv);
  if (!outcome.desk) return outcome.exit_code;
  stirbench::desk::work::DeskOptions options;
  options.content_dir = outcome.desk->content_dir;
  options.data_dir = outcome.desk->data_dir;
  options.open_journal = outcome.desk->journal;
  return stirbench::desk::shell::run_desk(options, outcome.desk->screen);
}
