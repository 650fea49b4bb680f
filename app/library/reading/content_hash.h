#pragma once

#include <map>
#include <string>

// What names a set of content files (sim_core/bytes/hash64.h).
namespace stirbench::library {

// Over the files in the map's (sorted) order: path, a zero byte, bytes, a zero byte.
std::string hash_files(const std::map<std::string, std::string>& files);

}  // namespace stirbench::library
