#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <cstring>
#include <filesystem>

#include "app/records/store.h"

namespace stirbench::records {

namespace {

constexpr std::int64_t sync_every_ms = 1000;

std::int64_t now_ms() {
  return std::chrono::duration_cast<std::chrono::milliseconds>(
             std::chrono::steady_clock::now().time_since_epoch())
      .count();
}

// A new file is only safe once its folder's entry is on the disk too.
void sync_folder_of(const std::string& path) {
  std::string dir = std::filesystem::path(path).parent_path().string();
  if (dir.empty()) dir = ".";
  const int fd = ::open(dir.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
  if (fd < 0) return;
  ::fsync(fd);
  ::close(fd);
}

bool is_kind(std::string_view record, std::string_view kind) {
  const std::string key = "\"kind\":\"" + std::string(kind) + "\"";
  return record.find(key) != std::string_view::npos;
}

std::string in_words(const std::string& path, int error_number) {
  if (error_number == ENOSPC || error_number == EDQUOT)
    return "The disk is full: " + path + " ends with the last whole record. Make room.";
  return path + " cannot be written: " + std::strerror(error_number) + ".";
}

}  // namespace

JournalFile::JournalFile(const std::string& path) : path_(path) {
  fd_ = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_APPEND | O_CLOEXEC, 0600);
  if (fd_ < 0) {
    if (errno == EEXIST)
      throw StoreError(path +
                       " exists already and is not overwritten. Choose another name, or move it away.");
    throw StoreError("The journal " + path + " cannot be made: " + std::strerror(errno) +
                     ". Choose a folder that can be written.");
  }
  sync_folder_of(path);
}

JournalFile::~JournalFile() {
  if (fd_ < 0) return;
  ::fdatasync(fd_);
  ::close(fd_);
}

void JournalFile::sync() {
  if (::fdatasync(fd_) != 0 && errno != EINVAL && errno != EROFS) throw StoreError(in_words(path_, errno));
  synced_ms_ = now_ms();
}

void JournalFile::write(std::string_view record) {
  std::size_t done = 0;
  while (done < record.size()) {
    const ssize_t written = ::write(fd_, record.data() + done, record.size() - done);
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) {
      const int error_number = written < 0 ? errno : EIO;
      // Half a record would read like a damaged journal; a pipe or device cannot be cut and need not be.
      if (::ftruncate(fd_, length_) != 0) errno = error_number;
      throw StoreError(in_words(path_, error_number));
    }
    done += static_cast<std::size_t>(written);
  }
  length_ += static_cast<std::int64_t>(record.size());
  const bool at_once = is_kind(record, "header") || is_kind(record, "end");
  if (at_once || (is_kind(record, "hash") && now_ms() - synced_ms_ >= sync_every_ms)) sync();
}

}  // namespace stirbench::records
