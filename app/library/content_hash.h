#pragma once

#include <cstdint>
#include <map>
#include <string>
#include <string_view>

// 64-bit FNV-1a (Fowler, Noll, Vo): offset basis 14695981039346656037, prime 1099511628211. It names content, it does not guard it.
namespace stirbench::library {

inline constexpr std::uint64_t fnv_basis = 14695981039346656037ULL;

std::uint64_t fnv1a(std::string_view bytes, std::uint64_t hash = fnv_basis);
std::string hex64(std::uint64_t value);

// Over the files in the map's (sorted) order: path, a zero byte, bytes, a zero byte.
std::string hash_files(const std::map<std::string, std::string>& files);

}  // namespace stirbench::library
