#include <algorithm>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>
#include <vector>

#include "tests/support/replay/fuzz_target.h"

namespace {

// One saved input through the target. A crash ends the program, so the name is printed first.
bool replay(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  const std::vector<char> bytes((std::istreambuf_iterator<char>(in)), std::istreambuf_iterator<char>());
  std::fprintf(stderr, "replaying %s (%zu bytes)\n", file.c_str(), bytes.size());
  if (!in.good() && !in.eof()) return false;
  std::vector<std::uint8_t> copy(bytes.begin(),
                                 bytes.end());  // exact size, so that a read past the end is caught
  try {
    return LLVMFuzzerTestOneInput(copy.data(), copy.size()) == 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "escaped: %s\n", error.what());
    return false;
  }
}

}  // namespace

// Runs every file of the folders given, in name order, and closes with a line in the form the unit tests
// print.
int main(int argc, char** argv) {
  std::vector<std::filesystem::path> files;
  for (int i = 1; i < argc; ++i) {
    if (!std::filesystem::is_directory(argv[i])) continue;
    for (const auto& entry : std::filesystem::directory_iterator(argv[i]))
      if (entry.is_regular_file()) files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());

  std::size_t passed = 0;
  for (const auto& file : files) {
    if (replay(file))
      ++passed;
    else
      std::printf("FAILED: %s\n", file.c_str());
  }
  std::printf("[replay] test cases: %zu | %zu passed | %zu failed | 0 skipped\n", files.size(), passed,
              files.size() - passed);
  return passed == files.size() && !files.empty() ? 0 : 1;
}
