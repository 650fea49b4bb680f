#include "app/library/content_hash.h"

namespace stirbench::library {

std::uint64_t fnv1a(std::string_view bytes, std::uint64_t hash) {
  constexpr std::uint64_t prime = 1099511628211ULL;
  for (const char c : bytes) hash = (hash ^ static_cast<unsigned char>(c)) * prime;
  return hash;
}

std::string hex64(std::uint64_t value) {
  static constexpr char digits[] = "0123456789abcdef";
  std::string out(16, '0');
  for (std::size_t i = 16; i-- > 0; value >>= 4U) out[i] = digits[value & 15U];
  return out;
}

std::string hash_files(const std::map<std::string, std::string>& files) {
  const std::string_view zero("\0", 1);
  std::uint64_t hash = fnv_basis;
  for (const auto& [path, bytes] : files) hash = fnv1a(zero, fnv1a(bytes, fnv1a(zero, fnv1a(path, hash))));
  return hex64(hash);
}

}  // namespace stirbench::library
