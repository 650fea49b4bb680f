#include <fcntl.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <stdexcept>

#include "tests/support/files.h"

namespace stirbench::test_support {

namespace {

// Only calls that are safe between fork and exec in a program of one thread; ends in exec or _exit.
[[noreturn]] void become(const std::vector<std::string>& arguments,
                         const std::vector<std::pair<std::string, std::string>>& environment,
                         const std::string& working_folder, const std::string& out, const std::string& err) {
  const int null_fd = open("/dev/null", O_RDONLY);
  const int out_fd = open(out.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  const int err_fd = open(err.c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
  if (null_fd < 0 || out_fd < 0 || err_fd < 0) _exit(126);
  dup2(null_fd, 0);
  dup2(out_fd, 1);
  dup2(err_fd, 2);
  if (!working_folder.empty() && chdir(working_folder.c_str()) != 0) _exit(126);
  for (const auto& [name, value] : environment) {
    if (value == unset_variable)
      unsetenv(name.c_str());
    else
      setenv(name.c_str(), value.c_str(), 1);
  }
  std::vector<char*> argv;
  for (const auto& argument : arguments) argv.push_back(const_cast<char*>(argument.c_str()));
  argv.push_back(nullptr);
  execv(argv[0], argv.data());
  _exit(127);
}

}  // namespace

ProgramResult run_program(const std::vector<std::string>& arguments,
                          const std::vector<std::pair<std::string, std::string>>& environment,
                          const std::string& working_folder) {
  if (arguments.empty() || access(arguments[0].c_str(), X_OK) != 0)
    throw std::runtime_error("cannot start " + (arguments.empty() ? std::string("nothing") : arguments[0]));
  // Files, not pipes: a program that prints much to both streams cannot block.
  const TempFolder folder("program");
  const std::string out = folder.file("out");
  const std::string err = folder.file("err");
  const pid_t child = fork();
  if (child < 0) throw std::runtime_error(std::string("cannot fork: ") + std::strerror(errno));
  if (child == 0) become(arguments, environment, working_folder, out, err);

  int status = 0;
  while (waitpid(child, &status, 0) < 0)
    if (errno != EINTR) throw std::runtime_error(std::string("cannot wait: ") + std::strerror(errno));
  ProgramResult result;
  result.exit_code = WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
  if (result.exit_code == 126 || result.exit_code == 127)
    throw std::runtime_error("cannot start " + arguments[0]);
  result.out = read_file(out);
  result.err = read_file(err);
  return result;
}

}  // namespace stirbench::test_support
