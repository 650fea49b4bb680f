#include "sim_core/control/recipe.h"

#include "sim_core/bytes/hash64.h"

namespace stirbench::control {

std::uint64_t recipe_id_hash(std::string_view id) { return bytes::mark(id); }

}  // namespace stirbench::control
