#include "tests/app/records/rooms.h"

#include <doctest/doctest.h>
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

// A PostgreSQL server in a folder of its own, without network, for as long as the tests run.
class Server {
 public:
  Server() {
    const fs::path binaries = find_binaries();
    if (binaries.empty()) return;
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
    if (wait_for(start({(binaries / "initdb").string(), "-D", data, "-U", "stirbench", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8",
                        "--no-sync"})) != 0)
      return;
    server_ = start({(binaries / "postgres").string(), "-D", data, "-k", folder, "-c", "listen_addresses=", "-c", "max_connections=40"});
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

  ~Server() {
    if (server_ > 0) {
      ::kill(server_, SIGINT);
      wait_for(server_);
    }
    std::error_code ignored;
    if (!folder_.empty()) fs::remove_all(folder_, ignored);
  }

  bool ready() const { return ready_; }
  std::string address(const std::string& database) const {
    return "postgresql://stirbench@/" + database + "?host=" + folder_;
  }
  std::string new_database() {
    const std::string name = "room_" + std::to_string(::getpid()) + "_" + std::to_string(++count_);
    soci::session sql(*factory_postgresql(), address("postgres"));
    sql << "CREATE DATABASE " + name;
    return name;
  }

 private:
  static fs::path find_binaries() {
    std::error_code error;
    for (fs::directory_iterator it("/usr/lib/postgresql", error), end; !error && it != end; it.increment(error)) {
      if (fs::exists(it->path() / "bin/initdb")) return it->path() / "bin";
    }
    return {};
  }

  pid_t start(std::vector<std::string> arguments) const {
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

  static int wait_for(pid_t child) {
    int status = -1;
    ::waitpid(child, &status, 0);
    return status;
  }

  std::string folder_;
  uid_t uid_ = 0;
  gid_t gid_ = 0;
  pid_t server_ = -1;
  bool ready_ = false;
  int count_ = 0;
};

Server& server() {
  static Server one;
  return one;
}

}  // namespace

std::string server_address(const std::string& database) { return server().ready() ? server().address(database) : ""; }

Room::Room(const std::string& purpose, bool on_server) : folder_(purpose) {
  if (on_server) database_ = server().address(server().new_database());
}

records::StoreOptions Room::options() const {
  return {dir(), database_, cheap_pins(), [clock = now] { return *clock; }};
}

void on_both(const std::function<void(bool on_server)>& work) {
  work(false);
  if (server().ready()) work(true);
  else MESSAGE("no PostgreSQL server here: tried on SQLite only");
}

records::Attempt run_attempt(records::Store& store, const records::Person& person, const std::string& lesson, const std::string& mode,
                             bool passed, const std::string& started_utc, bool must_missed) {
  records::Attempt a;
  a.person = person.id;
  a.lesson = lesson;
  a.lesson_hash = "0123456789abcdef";
  a.mode = mode;
  a.machine = "hm-45";
  a.started_utc = started_utc;
  a = store.begin_attempt(a);
  {
    records::JournalFile journal(store.journal_path(a));
    journal.write("{\"r\":0,\"kind\":\"header\",\"of\":\"" + a.uid + "\"}\n");
    journal.write("{\"r\":1,\"kind\":\"end\"}\n");
  }
  a.passed = passed;
  a.score_norm = passed ? 0.9 : 0.4;
  a.simulated_s = 300.5;
  a.card_json = must_missed ? R"([{"id":"x","must_pass":true,"met":false}])" : R"([{"id":"x","must_pass":true,"met":true}])";
  a.state_hash = "fedcba9876543210";
  store.finish_attempt(a);
  return *store.attempt(a.id);
}

Managed make_managed(records::Store& store) {
  Managed out;
  out.ana = store.add_person("Ana Manager");
  store.set_own_pin(out.ana.id, "", "739182");
  store.set_role(store.nobody(), out.ana.id, records::Role::manager);
  out.manager = store.sign_in(out.ana.id, "739182");
  return out;
}

}  // namespace stirbench::records_test
