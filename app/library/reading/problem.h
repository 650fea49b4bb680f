#pragma once

#include <string>

namespace stirbench::library {

// What is wrong with a file, where it stands, and what belongs there instead.
struct Problem {
  std::string file;  // as given, relative to the content folder where possible
  std::string path;  // key path "/phases/2/target_degC", or "line 7, column 3" for malformed JSON
  std::string expected;
  std::string found;
  std::string text() const;  // "FILE:PATH: expected …, found …"
};

}  // namespace stirbench::library
