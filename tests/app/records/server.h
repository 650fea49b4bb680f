#pragma once

#include <sys/types.h>

#include <string>
#include <vector>

namespace stirbench::records_test {

// A PostgreSQL server in a folder of its own, without network, for as long as the object lives. Debian's
// package brings the programs.
class Server {
 public:
  Server();
  ~Server();
  Server(const Server&) = delete;
  Server& operator=(const Server&) = delete;

  bool installed() const { return installed_; }
  bool ready() const { return ready_; }  // false: not installed, or it did not come up
  std::string address(const std::string& database) const;
  std::string new_database();

 private:
  pid_t start(std::vector<std::string> arguments) const;

  std::string folder_;
  uid_t uid_ = 0;
  gid_t gid_ = 0;
  pid_t server_ = -1;
  bool installed_ = false;
  bool ready_ = false;
  int count_ = 0;
};

}  // namespace stirbench::records_test
