#pragma once

#include <string>

namespace stirbench::desk::kit {

// Whether every word of the query is somewhere in `text`, in any order; capitals do not matter (ASCII; other
// letters as they are).
bool has_words(const std::string& text, const std::string& query);

}  // namespace stirbench::desk::kit
