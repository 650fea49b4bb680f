#include "app/library/reading/paths.h"

#include <fcntl.h>
#include <pwd.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <filesystem>
#include <stdexcept>
#include <system_error>
#include <vector>

namespace stirbench::library {

namespace fs = std::filesystem;

namespace {

std::string variable(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? "" : value;
}

// The folder of the running program, "" when /proc does not say.
fs::path program_dir() {
  std::error_code error;
  const fs::path program = fs::read_symlink("/proc/self/exe", error);
  return error ? fs::path() : program.parent_path();
}

std::string shipped_dir(const char* name, const char* override_variable) {
  std::vector<fs::path> tried;
  const std::string chosen = variable(override_variable);
  if (!chosen.empty()) {
    tried.emplace_back(chosen);  // chosen on purpose: no silent fall back to another one
  } else {
    const fs::path program = program_dir();
    if (!program.empty()) {
      tried.push_back(program / name);
      tried.push_back((program / ".." / "share" / "stirbench" / name).lexically_normal());
    }
    tried.push_back(fs::path(STIRBENCH_SOURCE_DIR) / name);
  }
  std::string list;
  for (const fs::path& place : tried) {
    std::error_code error;
    if (fs::is_directory(place, error)) return place.string();
    list += (list.empty() ? "" : ", ") + place.string();
  }
  throw std::runtime_error(std::string("the folder \"") + name + "\" was not found; looked at: " + list +
                           ". Set " + override_variable + " to where it is.");
}

std::string home_dir() {
  std::string home = variable("HOME");
  if (!home.empty()) return home;
  const passwd* entry = getpwuid(getuid());
  return entry != nullptr && entry->pw_dir != nullptr ? entry->pw_dir : "/";
}

std::string reason(int number) { return std::generic_category().message(number); }

// A file descriptor that closes itself.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  int number() const { return number_; }
  // The last chance to hear of a failed write.
  int close() {
    const int result = ::close(number_);
    number_ = -1;
    return result;
  }

 private:
  int number_;
};

// 0 or the error number.
int write_all(int descriptor, const std::string& text) {
  std::size_t done = 0;
  while (done < text.size()) {
    const ssize_t wrote = ::write(descriptor, text.data() + done, text.size() - done);
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote < 0) return errno;
    done += static_cast<std::size_t>(wrote);
  }
  return 0;
}

std::string cannot_write(const std::string& file, int number) {
  return "cannot write " + file + ": " + reason(number);
}

// Writes the temporary file to the disk; 0 or the error number.
int write_synced(const std::string& temporary, const std::string& text, mode_t mode) {
  Descriptor out(::open(temporary.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, mode));
  if (out.number() < 0) return errno;
  int failed = write_all(out.number(), text);
  if (failed == 0 && ::fsync(out.number()) != 0) failed = errno;
  if (out.close() != 0 && failed == 0) failed = errno;
  return failed;
}

}  // namespace

std::string content_dir() { return shipped_dir("content", "STIRBENCH_CONTENT"); }
std::string assets_dir() { return shipped_dir("assets", "STIRBENCH_ASSETS"); }

std::string data_dir(const std::string& chosen) {
  if (!chosen.empty()) return chosen;
  std::string set = variable("STIRBENCH_DATA");
  if (!set.empty()) return set;
  const std::string shared = variable("XDG_DATA_HOME");
  // The XDG base directory specification: relative values are to be ignored.
  if (!shared.empty() && shared.front() == '/') return shared + "/stirbench";
  return home_dir() + "/.local/share/stirbench";
}

std::string make_writable(const std::string& dir) {
  const std::string way_out = " Choose another folder with --data FOLDER or STIRBENCH_DATA.";
  if (dir.empty()) return "no folder was given to keep things in." + way_out;
  std::error_code error;
  fs::create_directories(dir, error);
  if (error || !fs::is_directory(dir, error))
    return "cannot make the folder " + dir + ": " + (error ? error.message() : reason(ENOTDIR)) + "." +
           way_out;
  // Permission bits are not conclusive (root, read-only mounts, quotas): only writing proves it.
  const std::string trial = dir + "/.writable-" + std::to_string(::getpid());
  ::unlink(trial.c_str());
  const int failed = write_synced(trial, "x", 0600);
  ::unlink(trial.c_str());
  return failed == 0 ? "" : "cannot write in the folder " + dir + ": " + reason(failed) + "." + way_out;
}

std::string why_not_writable(const std::string& file) {
  std::error_code none;
  if (fs::is_directory(file, none)) return cannot_write(file, EISDIR);
  fs::path folder = fs::absolute(file, none).parent_path();
  while (!fs::exists(folder, none) && folder.has_relative_path()) folder = folder.parent_path();
  if (!fs::is_directory(folder, none)) return cannot_write(file, ENOTDIR);
  return ::access(folder.c_str(), W_OK | X_OK) == 0 ? "" : cannot_write(file, errno);
}

std::string write_atomically(const std::string& file, const std::string& text) {
  const fs::path target(file);
  const std::string folder = target.has_parent_path() ? target.parent_path().string() : ".";
  const std::string temporary =
      folder + "/." + target.filename().string() + "." + std::to_string(::getpid()) + ".new";
  ::unlink(temporary.c_str());  // left over from a program of the same number that was killed
  struct stat before {};
  const mode_t mode = ::stat(file.c_str(), &before) == 0 ? before.st_mode & 0777U : 0644U;
  int failed = write_synced(temporary, text, mode);
  if (failed == 0 && ::rename(temporary.c_str(), file.c_str()) != 0) failed = errno;
  if (failed != 0) {
    ::unlink(temporary.c_str());
    return cannot_write(file, failed);
  }
  // Without this the rename itself could be lost when the power fails.
  Descriptor parent(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (parent.number() >= 0 && ::fsync(parent.number()) != 0 && errno != EINVAL)
    return cannot_write(folder, errno);
  return "";
}

std::string read_file(const std::string& file) {
  Descriptor in(::open(file.c_str(), O_RDONLY | O_CLOEXEC));
  if (in.number() < 0) throw std::runtime_error("cannot read " + file + ": " + reason(errno));
  struct stat info {};
  if (::fstat(in.number(), &info) == 0 && S_ISDIR(info.st_mode))
    throw std::runtime_error("cannot read " + file + ": " + reason(EISDIR));
  std::string out;
  if (info.st_size > 0) out.reserve(static_cast<std::size_t>(info.st_size));
  char buffer[16384];
  for (;;) {
    const ssize_t got = ::read(in.number(), buffer, sizeof buffer);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) throw std::runtime_error("cannot read " + file + ": " + reason(errno));
    if (got == 0) return out;
    out.append(buffer, static_cast<std::size_t>(got));
  }
}

}  // namespace stirbench::library
