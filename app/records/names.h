#pragma once

#include <cstdint>
#include <string>
#include <string_view>

// Names that people and files may have.
namespace stirbench::records {

// Without blanks at both ends.
std::string trimmed(std::string_view text);

// Empty when the name can be kept: 1..80 characters of valid UTF-8 (RFC 3629), no control characters; else
// why not.
std::string why_not_name(std::string_view name);

// The name in lower case (A-Z only): names with the same key count as the same person.
std::string name_key(std::string_view name);

// "000012-first-batch": sorts by age, safe as a file name whatever the lesson is called.
std::string journal_stem(std::int64_t attempt, std::string_view lesson);

}  // namespace stirbench::records
