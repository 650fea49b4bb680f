#pragma once

#include <string>

#include "app/library/library.h"
#include "tests/support/files.h"

// A copy of the shipped content (without lessons) that a test may spoil.
namespace stirbench::library_test {

class Scratch {
 public:
  explicit Scratch(const std::string& purpose);

  std::string dir() const { return folder_.file("content"); }
  std::string own() const { return folder_.file("own"); }
  std::string file(const std::string& name) const { return dir() + "/" + name; }
  void write(const std::string& name, const std::string& text) const;
  std::string read(const std::string& name) const;
  // Replaces the first `from` in a file; fails the test when it is not there.
  void change(const std::string& name, const std::string& from, const std::string& to) const;
  void remove(const std::string& name) const;
  // All problems, one a line; own recipes are looked at too.
  std::string problems() const;

 private:
  test_support::TempFolder folder_;
};

// The shipped content, loaded once.
const library::Library& shipped();
std::string content_dir();
std::string joined(const std::vector<library::Problem>& problems);

// A small lesson that is right: lesson.json's text.
std::string small_lesson();
// Puts it with its page and runs into the folder lessons/small.
void put_small_lesson(const Scratch& scratch);

}  // namespace stirbench::library_test
