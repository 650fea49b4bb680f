#include "tests/app/records/server.h"

#include <fcntl.h>
#include <grp.h>
#include <pwd.h>
#include <signal.h>
#include <soci/soci.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <filesystem>

extern "C" const soci::backend_factory* factory_postgresql();

namespace stirbench::records_test {

namespace {

namespace fs = std::filesystem;

fs::path find_binaries() {
  std::error_code error;
  for (fs::directory_iterator it("/usr/lib/postgresql", error), end; !error && it != end;
       it.increment(error)) {
    if (fs::exists(it->path() / "bin/initdb")) return it->path() / "bin";
  }
  return {};
}

int wait_for(pid_t child) {
  int status = -1;
  ::waitpid(child, &status, 0);
  return status;
}

}  // namespace

Server::Server() {
  const fs::path binaries = find_binaries();
  installed_ = !binaries.empty();
  if (!installed_) return;
  std::string folder = (fs::temp_directory_path() / "stirbench-server-XXXXXX").string();
  if (::mkdtemp(folder.data()) == nullptr) return;
  folder_ = folder;
  // The server refuses to run as root; Debian's package brings a user for it.
  if (::geteuid() == 0) {
    const passwd* user = ::getpwnam("postgres");
    if (user == nullptr || ::chown(folder.c_str(), user->pw_uid, user->pw_gid) != 0) return;
    uid_ = user->pw_uid;
    gid_ = user->pw_gid;
  }
  const std::string data = folder + "/data";
  if (wait_for(start({(binaries / "initdb").string(), "-D", data, "-U", "stirbench", "-A", "trust", "-E",
                      "UTF8", "--locale=C.UTF-8", "--no-sync"})) != 0)
    return;
  server_ = start({(binaries / "postgres").string(), "-D", data, "-k", folder, "-c",
                   "listen_addresses=", "-c", "max_connections=40"});
  for (int i = 0; i < 200 && !ready_; ++i) {
    ::usleep(50000);
    try {
      soci::session sql(*factory_postgresql(), address("postgres"));
      ready_ = true;
    } catch (const soci::soci_error&) {
      ready_ = false;
    }
  }
}

Server::~Server() {
  if (server_ > 0) {
    ::kill(server_, SIGINT);
    wait_for(server_);
  }
  std::error_code ignored;
  if (!folder_.empty()) fs::remove_all(folder_, ignored);
}

std::string Server::address(const std::string& database) const {
  return "postgresql://stirbench@/" + database + "?host=" + folder_;
}

std::string Server::new_database() {
  const std::string name = "room_" + std::to_string(::getpid()) + "_" + std::to_string(++count_);
  soci::session sql(*factory_postgresql(), address("postgres"));
  sql << "CREATE DATABASE " + name;
  return name;
}

pid_t Server::start(std::vector<std::string> arguments) const {
  const pid_t child = ::fork();
  if (child != 0) return child;
  if (uid_ != 0 && (::setgroups(0, nullptr) != 0 || ::setgid(gid_) != 0 || ::setuid(uid_) != 0)) ::_exit(9);
  const int nothing = ::open("/dev/null", O_RDWR);
  for (const int fd : {0, 1, 2}) ::dup2(nothing, fd);
  if (::chdir("/") != 0) ::_exit(9);
  std::vector<char*> raw;
  for (std::string& one : arguments) raw.push_back(one.data());
  raw.push_back(nullptr);
  ::execv(raw[0], raw.data());
  ::_exit(9);
}

}  // namespace stirbench::records_test
