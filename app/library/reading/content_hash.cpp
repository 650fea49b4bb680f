#include "app/library/reading/content_hash.h"

#include <initializer_list>

#include "sim_core/bytes/hash64.h"

namespace stirbench::library {

std::string hash_files(const std::map<std::string, std::string>& files) {
  const std::string_view zero("\0", 1);
  std::uint64_t hash = bytes::fnv_basis;
  for (const auto& [path, text] : files) {
    for (const std::string_view piece : {std::string_view(path), zero, std::string_view(text), zero})
      hash = bytes::fnv1a(piece, hash);
  }
  return bytes::hex64(hash);
}

}  // namespace stirbench::library
