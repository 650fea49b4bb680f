#include "tests/support/files.h"

#include <stdlib.h>

#include <fstream>
#include <iterator>
#include <stdexcept>
#include <system_error>

namespace stirbench::test_support {

TempFolder::TempFolder(const std::string& purpose) {
  const std::filesystem::path parent = std::filesystem::path(STIRBENCH_TEST_DIR) / "scratch";
  std::filesystem::create_directories(parent);
  std::string pattern = (parent / (purpose + "-XXXXXX")).string();
  if (mkdtemp(pattern.data()) == nullptr) throw std::runtime_error("cannot make a folder like " + pattern);
  path_ = pattern;
}

TempFolder::~TempFolder() {
  // A test may have taken the write permission away; give it back so that the folder can go.
  std::error_code ignored;
  std::filesystem::permissions(path_, std::filesystem::perms::owner_all, std::filesystem::perm_options::add,
                               ignored);
  for (std::filesystem::recursive_directory_iterator it(path_, ignored), end; it != end;
       it.increment(ignored)) {
    if (it->is_directory(ignored) && !it->is_symlink(ignored))
      std::filesystem::permissions(it->path(), std::filesystem::perms::owner_all,
                                   std::filesystem::perm_options::add, ignored);
  }
  std::filesystem::remove_all(path_, ignored);
}

std::string TempFolder::file(std::string_view name) const { return (path_ / name).string(); }

std::filesystem::path source_root() { return STIRBENCH_SOURCE_DIR; }

std::string read_file(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  if (!in) throw std::runtime_error("cannot read " + file.string());
  return {std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
}

void write_file(const std::filesystem::path& file, std::string_view text) {
  if (file.has_parent_path()) std::filesystem::create_directories(file.parent_path());
  std::ofstream out(file, std::ios::binary | std::ios::trunc);
  out << text;
  out.close();
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

}  // namespace stirbench::test_support
