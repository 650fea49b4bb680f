#include "app/library/machine/mesh_file.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <map>
#include <set>
#include <sstream>
#include <string_view>
#include <utility>

namespace stirbench::library {

namespace {

constexpr std::size_t most_items = 200000;

std::vector<std::string_view> words_of(std::string_view line) {
  std::vector<std::string_view> out;
  std::size_t at = 0;
  while (at < line.size()) {
    const std::size_t from = line.find_first_not_of(" \t\r", at);
    if (from == std::string_view::npos) break;
    const std::size_t to = std::min(line.find_first_of(" \t\r", from), line.size());
    out.push_back(line.substr(from, to - from));
    at = to;
  }
  return out;
}

template <class T>
bool whole_word(std::string_view word, T& out) {
  const auto result = std::from_chars(word.data(), word.data() + word.size(), out);
  return result.ec == std::errc() && result.ptr == word.data() + word.size();
}

struct MeshText {
  const std::string& file;
  BodyShape& out;
  std::vector<Problem>& problems;
  int line = 0;

  bool problem(const std::string& expected, std::string_view found) {
    problems.push_back({file, "line " + std::to_string(line), expected, "\"" + std::string(found) + "\""});
    return false;
  }

  bool corner(const std::vector<std::string_view>& words) {
    Vec3 point{};
    if (words.size() < 4) return problem("v with three numbers", words.back());
    for (std::size_t i = 0; i < 3; ++i)
      if (!whole_word(words[i + 1], point[i]) || !std::isfinite(point[i]) || std::abs(point[i]) > 20.0)
        return problem("a number in -20 .. 20 m", words[i + 1]);
    out.corners.push_back(point);
    return out.corners.size() <= most_items || problem("at most 200000 corners", words[0]);
  }

  bool face(const std::vector<std::string_view>& words) {
    std::vector<std::uint32_t> ring;
    for (std::size_t i = 1; i < words.size(); ++i) {
      std::uint32_t number = 0;
      if (!whole_word(words[i].substr(0, words[i].find('/')), number) || number < 1 ||
          number > out.corners.size())
        return problem("the number of a corner given before", words[i]);
      ring.push_back(number - 1);
    }
    if (ring.size() < 3) return problem("f with three corners or more", words.back());
    for (std::size_t i = 1; i + 1 < ring.size(); ++i)
      out.triangles.push_back({ring[0], ring[i], ring[i + 1]});
    return out.triangles.size() <= most_items || problem("at most 200000 triangles", words[0]);
  }

  bool read(const std::vector<std::string_view>& words) {
    static const std::set<std::string_view> passed_over = {"vn", "vt", "o", "g", "s", "usemtl", "mtllib"};
    if (words.empty() || words[0].front() == '#' || passed_over.contains(words[0])) return true;
    if (words[0] == "v") return corner(words);
    if (words[0] == "f") return face(words);
    return problem("v, f, or a line that is passed over (vn, vt, o, g, s, usemtl, mtllib, #)", words[0]);
  }
};

bool closed(const BodyShape& shape) {
  std::map<std::pair<std::uint32_t, std::uint32_t>, int> seen;
  for (const auto& t : shape.triangles)
    for (std::size_t i = 0; i < 3; ++i) ++seen[{t[i], t[(i + 1) % 3]}];
  for (const auto& [edge, times] : seen) {
    const auto back = seen.find({edge.second, edge.first});
    if (times != 1 || back == seen.end() || back->second != 1) return false;
  }
  return !seen.empty();
}

}  // namespace

void parse_mesh(const std::string& text, const std::string& file, BodyShape& out,
                std::vector<Problem>& problems) {
  out.corners.clear();
  out.triangles.clear();
  MeshText reader{file, out, problems};
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    ++reader.line;
    if (!reader.read(words_of(line))) return;
  }
  if (!closed(out))
    problems.push_back({file, "line " + std::to_string(reader.line),
                        "a closed surface: each edge once each way",
                        out.triangles.empty() ? "no faces" : "an open or doubled edge"});
}

}  // namespace stirbench::library
