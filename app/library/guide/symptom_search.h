#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim_core/diagnosis/model.h"

// Finds symptoms by plain words, including misspelled ones.
namespace stirbench::library {

struct SymptomHit {
  std::size_t symptom = 0;
  double score = 0.0;  // 1: every word found as it is; falls with edits and missing words
};

// The symptoms that match, the best first; an empty query gives all of them in order. Each word of the query
// may be the beginning of a word of the symptom's title, display or other words, or differ from one by one
// edit per four letters. Case does not matter.
std::vector<SymptomHit> search_symptoms(const diagnosis::Model& model, std::string_view query);

}  // namespace stirbench::library
