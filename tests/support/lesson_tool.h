#pragma once

#include <algorithm>
#include <cstdint>
#include <string>
#include <vector>

// The words after a tool that plays lessons: [--content DIR] [COUNT N] [--seed S] [--show] [LESSON ...].
namespace stirbench::test_support {

struct LessonTool {
  std::string content = STIRBENCH_SOURCE_DIR "/content";
  std::uint64_t count = 20;
  std::uint64_t seed = 1;
  bool show = false;
  std::vector<std::string> lessons;  // empty: all

  bool asks_for(const std::string& lesson) const {
    return lessons.empty() || std::find(lessons.begin(), lessons.end(), lesson) != lessons.end();
  }
};

// `count_word`: what the tool calls its number, "--draws".
inline LessonTool lesson_tool(int argc, char** argv, const std::string& count_word) {
  LessonTool out;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    const bool more = i + 1 < argc;
    if (word == "--content" && more)
      out.content = argv[++i];
    else if (word == count_word && more)
      out.count = std::stoull(argv[++i]);
    else if (word == "--seed" && more)
      out.seed = std::stoull(argv[++i]);
    else if (word == "--show")
      out.show = true;
    else
      out.lessons.push_back(word);
  }
  return out;
}

}  // namespace stirbench::test_support
