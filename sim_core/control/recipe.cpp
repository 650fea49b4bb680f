#include "sim_core/control/recipe.h"

namespace stirbench::control {

std::uint64_t recipe_mark(std::string_view id) {
  std::uint64_t hash = 14695981039346656037ULL;
  for (const char c : id) hash = (hash ^ static_cast<unsigned char>(c)) * 1099511628211ULL;
  return hash != 0 ? hash : 1;
}

}  // namespace stirbench::control
