#include <doctest/doctest.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cstdlib>
#include <filesystem>

#include "app/library/reading/paths.h"
#include "tests/support/files.h"

namespace fs = std::filesystem;
using namespace stirbench;
using test_support::TempFolder;

namespace {

// Sets a variable of the environment for one test.
class Variable {
 public:
  Variable(const char* name, const char* value) : name_(name) {
    if (const char* old = std::getenv(name)) old_ = old;
    if (value == nullptr)
      unsetenv(name);
    else
      setenv(name, value, 1);
  }
  ~Variable() {
    if (old_.empty())
      unsetenv(name_);
    else
      setenv(name_, old_.c_str(), 1);
  }
  Variable(const Variable&) = delete;
  Variable& operator=(const Variable&) = delete;

 private:
  const char* name_;
  std::string old_;
};

}  // namespace

TEST_CASE("content is found from any working directory, and a chosen folder is not second-guessed") {
  Variable none("STIRBENCH_CONTENT", nullptr);
  const fs::path before = fs::current_path();
  fs::current_path("/");
  CHECK(fs::exists(fs::path(library::content_dir()) / "machines"));
  fs::current_path(before);
  Variable chosen("STIRBENCH_CONTENT", "/nonexistent/content");
  CHECK_THROWS_WITH(library::content_dir(),
                    "the folder \"content\" was not found; looked at: /nonexistent/content. Set "
                    "STIRBENCH_CONTENT to where it is.");
}

TEST_CASE("the user's folder: chosen, else the variables in their order") {
  Variable home("HOME", "/home/somebody");
  Variable data("STIRBENCH_DATA", nullptr);
  {
    Variable shared("XDG_DATA_HOME", nullptr);
    CHECK(library::data_dir("") == "/home/somebody/.local/share/stirbench");
  }
  {
    Variable shared("XDG_DATA_HOME", "relative/is/ignored");
    CHECK(library::data_dir("") == "/home/somebody/.local/share/stirbench");
  }
  Variable shared("XDG_DATA_HOME", "/data");
  CHECK(library::data_dir("") == "/data/stirbench");
  Variable own("STIRBENCH_DATA", "/mine");
  CHECK(library::data_dir("") == "/mine");
  CHECK(library::data_dir("/chosen") == "/chosen");
}

TEST_CASE("make_writable makes the folder, or names it with the way out") {
  TempFolder folder("writable");
  CHECK(library::make_writable(folder.file("a/b")) == "");
  CHECK(fs::is_directory(folder.file("a/b")));
  CHECK(fs::is_empty(folder.file("a/b")));
  test_support::write_file(folder.file("file"), "x");
  CHECK(library::make_writable(folder.file("file")) ==
        "cannot make the folder " + folder.file("file") +
            ": Not a directory. Choose another folder with --data FOLDER or STIRBENCH_DATA.");
  CHECK(library::make_writable(folder.file("file") + "/below")
            .find("cannot make the folder " + folder.file("file") + "/below") == 0);
  CHECK(library::make_writable("/proc/self") ==
        "cannot write in the folder /proc/self: No such file or directory. Choose another folder with --data "
        "FOLDER or STIRBENCH_DATA.");
}

TEST_CASE("write_atomically leaves the old file or the new one, and nothing beside it") {
  TempFolder folder("atomic");
  const std::string file = folder.file("a.json");
  CHECK(library::write_atomically(file, "one") == "");
  CHECK(test_support::read_file(file) == "one");
  chmod(file.c_str(), 0600);
  CHECK(library::write_atomically(file, std::string(1 << 20, 'x')) == "");
  CHECK(fs::file_size(file) == 1U << 20U);
  CHECK((fs::status(file).permissions() & fs::perms::all) ==
        (fs::perms::owner_read | fs::perms::owner_write));
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()) == 1);

  // The target is a folder: the rename fails, and nothing is left behind.
  fs::create_directories(folder.file("d/full"));
  CHECK(library::write_atomically(folder.file("d"), "x").find("cannot write " + folder.file("d")) == 0);
  CHECK(std::distance(fs::directory_iterator(folder.path()), fs::directory_iterator()) == 2);
  CHECK(library::write_atomically("/nonexistent/a", "x") ==
        "cannot write /nonexistent/a: No such file or directory");
  // A full disk, as Linux plays it.
  if (fs::exists("/dev/full"))
    CHECK(library::write_atomically("/dev/full/x", "x") == "cannot write /dev/full/x: Not a directory");
}

TEST_CASE("read_file names what it could not read") {
  CHECK_THROWS_WITH(library::read_file("/nonexistent/a"),
                    "cannot read /nonexistent/a: No such file or directory");
  CHECK_THROWS_WITH(library::read_file("/"), "cannot read /: Is a directory");
  TempFolder folder("read");
  test_support::write_file(folder.file("bytes"), std::string("a\0b", 3));
  CHECK(library::read_file(folder.file("bytes")) == std::string("a\0b", 3));
}
