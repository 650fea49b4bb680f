#include <doctest/doctest.h>

#include <array>
#include <cstdio>
#include <filesystem>
#include <regex>
#include <set>

#include "tests/app/cli/run.h"
#include "tests/support/skip.h"

// The cards are read back with poppler's pdftotext and pdfinfo (package poppler-utils), a reader of PDF that
// is not ours.
namespace {

using stirbench::cli_test::contains;
using stirbench::cli_test::run;
using stirbench::test_support::TempFolder;

std::string output_of(const std::string& command) {
  std::string out;
  FILE* pipe = popen((command + " 2>/dev/null").c_str(), "r");
  if (pipe == nullptr) return out;
  std::array<char, 4096> part{};
  for (std::size_t n = 0; (n = fread(part.data(), 1, part.size(), pipe)) > 0;) out.append(part.data(), n);
  pclose(pipe);
  return out;
}

std::string card(const TempFolder& folder, const char* symptom, const char* paper) {
  const auto result = run({"guide", "--machine", "hm-45", "--symptom", symptom, "--who", "electrician",
                           "--cards", folder.path().string(), "--paper", paper});
  REQUIRE(result.exit_code == 0);
  const std::string file = folder.path().string() + "/hm-45-" + symptom + "-" + paper + ".pdf";
  REQUIRE(std::filesystem::exists(file));
  return file;
}

}  // namespace

TEST_CASE("cards: cautions first, every step leads on to one that is there, sized for A4 and Letter") {
  using stirbench::test_support::program_or_skip;
  if (program_or_skip("pdftotext", "poppler-utils").empty() ||
      program_or_skip("pdfinfo", "poppler-utils").empty())
    return;
  const TempFolder folder("cards");
  // ISO 216: 210 x 297 mm; Letter: 8.5 x 11 in; a point is 1/72 in.
  CHECK(contains(output_of("pdfinfo '" + card(folder, "display-dark", "a4") + "'"), "595.276 x 841.89"));
  const std::string letter = card(folder, "display-dark", "letter");
  CHECK(contains(output_of("pdfinfo '" + letter + "'"), "612 x 792"));
  const std::string words = output_of("pdftotext '" + letter + "' -");
  CHECK(contains(words, "Display dark"));
  CHECK(contains(words, "Own padlock, own tag"));
  CHECK(contains(words, "Local codes, the maker's manual"));
  CHECK(words.find("Own padlock") < words.find("Step 1"));
  std::set<std::string> there;
  std::set<std::string> led_to;
  const std::regex title("(Step|End) ([0-9]+)");
  for (std::sregex_iterator it(words.begin(), words.end(), title), end; it != end; ++it)
    there.insert(((*it)[1] == "Step" ? "step " : "end ") + (*it)[2].str());
  const std::regex lead("→ *(step|end) ([0-9]+)");
  for (std::sregex_iterator it(words.begin(), words.end(), lead), end; it != end; ++it)
    led_to.insert((*it)[1].str() + " " + (*it)[2].str());
  CHECK(there.size() >= 5);
  // All but the first step are reached, and nothing is named that is not there.
  led_to.insert("step 1");
  CHECK(led_to == there);
}

TEST_CASE("cards: what cannot be written is said") {
  const TempFolder folder("cards-bad");
  const auto paper = run({"guide", "--machine", "hm-45", "--symptom", "display-dark", "--cards",
                          folder.path().string(), "--paper", "a5"});
  CHECK(paper.exit_code == 2);
  CHECK(contains(paper.err, "--paper: expected a4 or letter"));
  const auto nowhere =
      run({"guide", "--machine", "hm-45", "--symptom", "display-dark", "--cards", "/proc/none"});
  CHECK(nowhere.exit_code == 2);
  CHECK(contains(nowhere.err, "--cards"));
}
