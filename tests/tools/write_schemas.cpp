// Writes the JSON schemas of the content anew from the reader's field tables, after a change to a table.
//   write_schemas [FOLDER]   FOLDER: content/schema of this tree unless given.
#include <cstdio>
#include <string>

#include "app/library/schema.h"

int main(int argc, char** argv) {
  const std::string folder = argc > 1 ? argv[1] : std::string(STIRBENCH_SOURCE_DIR) + "/content/schema";
  const std::string problem = stirbench::library::write_schemas(folder);
  if (problem.empty()) return 0;
  std::fprintf(stderr, "%s\n", problem.c_str());
  return 2;
}
