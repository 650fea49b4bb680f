#include "app/records/names.h"

#include <cstddef>

namespace stirbench::records {

namespace {

bool is_blank(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

// Length of the UTF-8 sequence at `at`; 0 when it is not one (RFC 3629: no overlong forms, no surrogates, up
// to U+10FFFF).
std::size_t sequence_length(std::string_view text, std::size_t at) {
  const auto byte = [&text](std::size_t i) {
    return i < text.size() ? static_cast<unsigned char>(text[i]) : 0U;
  };
  const auto follows = [&byte](std::size_t i) { return (byte(i) & 0xC0U) == 0x80U; };
  const unsigned first = byte(at);
  const unsigned second = byte(at + 1);
  if (first < 0x80U) return 1;
  if (first >= 0xC2U && first <= 0xDFU) return follows(at + 1) ? 2 : 0;
  if (first >= 0xE0U && first <= 0xEFU) {
    if ((first == 0xE0U && second < 0xA0U) || (first == 0xEDU && second > 0x9FU)) return 0;
    return follows(at + 1) && follows(at + 2) ? 3 : 0;
  }
  if (first >= 0xF0U && first <= 0xF4U) {
    if ((first == 0xF0U && second < 0x90U) || (first == 0xF4U && second > 0x8FU)) return 0;
    return follows(at + 1) && follows(at + 2) && follows(at + 3) ? 4 : 0;
  }
  return 0;
}

bool is_control(std::string_view sequence) {
  const auto first = static_cast<unsigned char>(sequence.front());
  if (sequence.size() == 1) return first < 0x20U || first == 0x7FU;
  return sequence.size() == 2 && first == 0xC2U && static_cast<unsigned char>(sequence[1]) < 0xA0U;
}

}  // namespace

std::string trimmed(std::string_view text) {
  while (!text.empty() && is_blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_blank(text.back())) text.remove_suffix(1);
  return std::string(text);
}

std::string name_key(std::string_view name) {
  std::string key(name);
  for (char& c : key) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return key;
}

std::string why_not_name(std::string_view name) {
  if (name.empty()) return "A name needs at least one character.";
  std::size_t characters = 0;
  for (std::size_t at = 0; at < name.size(); ++characters) {
    const std::size_t length = sequence_length(name, at);
    if (length == 0) return "The name is not valid text (UTF-8).";
    if (is_control(name.substr(at, length))) return "The name holds a control character.";
    at += length;
  }
  if (characters > 80)
    return "A name may have up to 80 characters; this one has " + std::to_string(characters) + ".";
  return {};
}

std::string journal_stem(std::int64_t attempt, std::string_view lesson) {
  std::string number = std::to_string(attempt);
  if (number.size() < 6) number.insert(0, 6 - number.size(), '0');
  std::string stem = number + "-";
  for (const char c : lesson.substr(0, 60)) {
    const bool plain =
        (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' || c == '_';
    stem += plain ? c : '_';
  }
  return stem;
}

}  // namespace stirbench::records
