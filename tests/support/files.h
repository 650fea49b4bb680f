#pragma once

#include <filesystem>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace stirbench::test_support {

// A fresh folder under the build's tests folder, removed with everything in it when the object goes.
class TempFolder {
 public:
  // `purpose` becomes part of the folder's name. Throws std::runtime_error when the folder cannot be made.
  explicit TempFolder(const std::string& purpose);
  ~TempFolder();
  TempFolder(const TempFolder&) = delete;
  TempFolder& operator=(const TempFolder&) = delete;

  const std::filesystem::path& path() const { return path_; }
  // Path of `name` inside, as text.
  std::string file(std::string_view name) const;

 private:
  std::filesystem::path path_;
};

// The root of the source tree under test.
std::filesystem::path source_root();

// Whole file as bytes. Throws std::runtime_error naming the file when it cannot be read.
std::string read_file(const std::filesystem::path& file);

// Writes (replaces) a file, making its folders. Throws std::runtime_error naming the file.
void write_file(const std::filesystem::path& file, std::string_view text);

// What a program left behind.
struct ProgramResult {
  int exit_code = -1;  // -signal when a signal ended it
  std::string out;
  std::string err;
};

// Runs a program without a shell and waits. `environment` entries are set ("NAME", "value"), or removed when
// the value is "\x01unset". Throws std::runtime_error when it cannot be started.
ProgramResult run_program(const std::vector<std::string>& arguments,
                          const std::vector<std::pair<std::string, std::string>>& environment = {},
                          const std::string& working_folder = "");
inline constexpr const char* unset_variable = "\x01unset";

}  // namespace stirbench::test_support
