#include "app/library/guide/symptom_search.h"

#include <algorithm>

#include "app/library/reading/suggest.h"

namespace stirbench::library {

namespace {

std::vector<std::string> words_of(std::string_view text) {
  std::vector<std::string> out;
  std::string word;
  const auto close = [&] {
    if (!word.empty()) out.push_back(word);
    word.clear();
  };
  for (const char c : text) {
    if (c >= 'A' && c <= 'Z')
      word += static_cast<char>(c - 'A' + 'a');
    else if ((c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (static_cast<unsigned char>(c) & 0x80U) != 0)
      word += c;
    else
      close();
  }
  close();
  return out;
}

// Words that say nothing by themselves.
bool is_filler(const std::string& word) {
  static const std::vector<std::string> fillers = {"a",   "an", "the",     "it",   "is",  "does", "do",
                                                   "not", "my", "machine", "when", "and", "to",   "of"};
  return std::find(fillers.begin(), fillers.end(), word) != fillers.end();
}

double likeness(const std::string& asked, const std::string& known) {
  if (asked == known) return 1.0;
  if (asked.size() >= 2 && known.size() > asked.size() && known.compare(0, asked.size(), asked) == 0)
    return 0.9;
  const std::size_t allowed = asked.size() / 4 + (asked.size() >= 4 ? 1 : 0);
  if (allowed == 0) return 0.0;
  std::size_t edits = edit_distance(asked, known);
  // A misspelt beginning of a longer word.
  if (known.size() > asked.size())
    edits = std::min(edits, edit_distance(asked, std::string_view(known).substr(0, asked.size())) + 1);
  return edits <= std::min<std::size_t>(allowed, 2) ? 0.8 - 0.2 * static_cast<double>(edits) : 0.0;
}

}  // namespace

std::vector<SymptomHit> search_symptoms(const diagnosis::Model& model, std::string_view query) {
  std::vector<std::string> asked = words_of(query);
  std::vector<std::string> telling = asked;
  std::erase_if(telling, is_filler);
  if (!telling.empty()) asked = telling;
  std::vector<SymptomHit> out;
  for (std::size_t s = 0; s < model.symptoms.size(); ++s) {
    const diagnosis::Symptom& symptom = model.symptoms[s];
    std::vector<std::pair<std::string, double>> known;  // word, weight
    for (const std::string& word : words_of(symptom.title + " " + symptom.display))
      known.emplace_back(word, 1.0);
    for (const std::string& other : symptom.words) {
      for (const std::string& word : words_of(other)) known.emplace_back(word, 0.9);
    }
    double sum = 0.0;
    for (const std::string& word : asked) {
      double best = 0.0;
      for (const auto& [text, weight] : known) best = std::max(best, weight * likeness(word, text));
      sum += best;
    }
    const double score = asked.empty() ? 1.0 : sum / static_cast<double>(asked.size());
    if (asked.empty() || score >= 0.35) out.push_back({s, score});
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const SymptomHit& a, const SymptomHit& b) { return a.score > b.score; });
  return out;
}

}  // namespace stirbench::library
