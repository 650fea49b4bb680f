// Plays the right run of every lesson and keeps its journal (each input, and a hash of the whole state for
// every simulated second) as FOLDER/LESSON. tests/run compares the journals of two builds byte by byte.
//   write_journals FOLDER
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <string>
#include <string_view>

#include "app/library/library.h"
#include "sim_core/training/lesson_run.h"

using namespace stirbench;
namespace fs = std::filesystem;

namespace {

int complain(const std::string& what) {
  std::fprintf(stderr, "%s\n", what.c_str());
  return 2;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return complain("write_journals FOLDER");
  const fs::path content = fs::path(STIRBENCH_SOURCE_DIR) / "content";
  const library::LoadResult loaded = library::load(content.string(), "");
  if (!loaded.problems.empty()) return complain(loaded.problems.front().text());
  for (const auto& [id, lesson] : loaded.library.lessons) {
    const machine::Machine machine = loaded.library.machine(lesson.machine);
    library::ActionsResult actions =
        library::read_actions((content / "lessons" / id / "right.jsonl").string(), machine);
    if (!actions.problems.empty()) return complain(actions.problems.front().text());
    std::ofstream file(fs::path(argv[1]) / id, std::ios::binary);
    training::LessonRun run(machine, lesson, "guided", "test", lesson.start.seed,
                            [&file](std::string_view record) { file << record; });
    training::play_to_end(run, std::move(actions.actions));
    file.close();
    if (!file) return complain("cannot write " + (fs::path(argv[1]) / id).string());
  }
  return 0;
}
