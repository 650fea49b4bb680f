#include "app/desk/kit/text/find_words.h"

#include <algorithm>
#include <cctype>
#include <sstream>

namespace stirbench::desk::kit {

namespace {

std::string folded(std::string text) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return static_cast<char>(c < 128 ? std::tolower(c) : c); });
  return text;
}

}  // namespace

bool has_words(const std::string& text, const std::string& query) {
  const std::string in = folded(text);
  std::istringstream words(folded(query));
  for (std::string word; words >> word;) {
    if (in.find(word) == std::string::npos) return false;
  }
  return true;
}

}  // namespace stirbench::desk::kit
