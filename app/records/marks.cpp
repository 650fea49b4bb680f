#include "app/records/marks.h"

#include <charconv>
#include <nlohmann/json.hpp>
#include <sstream>

namespace stirbench::records {

std::string marks_of_card(const std::string& card_json) {
  const nlohmann::json card = nlohmann::json::parse(card_json, nullptr, false);
  if (!card.is_object() || !card.contains("skills") || !card["skills"].is_array()) return {};
  const nlohmann::json hints = card.value("hints", nlohmann::json());
  const bool continued = card.contains("rewound") && card["rewound"] == true;
  std::string out = continued || (hints.is_number_integer() && hints.get<int>() > 0) ? "hinted" : "";
  for (const nlohmann::json& one : card["skills"]) {
    if (!one.is_object()) continue;
    const nlohmann::json skill = one.value("skill", nlohmann::json());
    const nlohmann::json passed = one.value("passed", nlohmann::json());
    const nlohmann::json missed = one.value("musts_missed", nlohmann::json());
    if (!skill.is_string() || !passed.is_boolean() || !missed.is_number_integer()) continue;
    out += (out.empty() ? "" : " ") + skill.get<std::string>() + (passed.get<bool>() ? ":1:" : ":0:") +
           std::to_string(missed.get<int>());
  }
  return out;
}

bool was_hinted(const std::string& marks) { return marks.starts_with("hinted"); }

std::vector<training::SkillMark> read_marks(const std::string& marks) {
  std::vector<training::SkillMark> out;
  std::istringstream words(marks);
  for (std::string word; words >> word;) {
    const std::size_t last = word.rfind(':');
    if (last == std::string::npos || last < 3 || word[last - 2] != ':') continue;
    training::SkillMark mark;
    mark.skill = word.substr(0, last - 2);
    mark.passed = word[last - 1] == '1';
    const char* end = word.data() + word.size();
    const auto read = std::from_chars(word.data() + last + 1, end, mark.musts_missed);
    if (read.ec == std::errc() && read.ptr == end) out.push_back(std::move(mark));
  }
  return out;
}

}  // namespace stirbench::records
