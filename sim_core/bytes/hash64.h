#pragma once

#include <charconv>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

// Bytes in hexadecimal and the 64-bit FNV-1a hash (Fowler, Noll, Vo) that names content and chains a
// journal's records. It shows a change, it does not guard against one that is meant.
namespace stirbench::bytes {

inline constexpr std::uint64_t fnv_basis = 0xcbf29ce484222325ULL;
inline constexpr std::uint64_t fnv_prime = 0x100000001b3ULL;

// Over `text`, going on from `hash`. For a fixed byte each step is a bijection of the hash: one changed byte
// always shows.
constexpr std::uint64_t fnv1a(std::string_view text, std::uint64_t hash = fnv_basis) {
  for (const char c : text) hash = (hash ^ static_cast<unsigned char>(c)) * fnv_prime;
  return hash;
}

// What stands for a name in the state, where only numbers live: its hash, never 0, which means "none".
constexpr std::uint64_t mark(std::string_view name) {
  const std::uint64_t hash = fnv1a(name);
  return hash != 0 ? hash : 1;
}

inline constexpr std::string_view lower_digits = "0123456789abcdef";
inline constexpr std::string_view upper_digits = "0123456789ABCDEF";

// Two digits.
inline void append_hex8(std::string& out, unsigned char byte, std::string_view digits = lower_digits) {
  out += digits[byte >> 4U];
  out += digits[byte & 0xfU];
}

// 16 lower-case digits, the highest first.
inline void append_hex64(std::string& out, std::uint64_t value) {
  for (int shift = 56; shift >= 0; shift -= 8)
    append_hex8(out, static_cast<unsigned char>(value >> static_cast<unsigned>(shift) & 0xffU));
}
inline std::string hex64(std::uint64_t value) {
  std::string out;
  append_hex64(out, value);
  return out;
}

// None unless `text` is 16 lower-case digits.
inline std::optional<std::uint64_t> from_hex64(std::string_view text) {
  if (text.size() != 16 || text.find_first_not_of(lower_digits) != std::string_view::npos)
    return std::nullopt;
  std::uint64_t value = 0;
  std::from_chars(text.data(), text.data() + text.size(), value, 16);
  return value;
}

}  // namespace stirbench::bytes
