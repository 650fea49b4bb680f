#include "sim_core/machine/machine.h"

#include <algorithm>

namespace stirbench::machine {

namespace {

// Index of `id` in a vector sorted by id, -1 when it is not there.
template <typename Item>
int index_by_id(const std::vector<Item>& items, const std::string& id) {
  const auto at =
      std::lower_bound(items.begin(), items.end(), id,
                       [](const Item& item, const std::string& wanted) { return item.id < wanted; });
  return at != items.end() && at->id == id ? static_cast<int>(at - items.begin()) : -1;
}

}  // namespace

int Machine::ingredient_index(const std::string& id) const { return index_by_id(ingredients, id); }

int Machine::chemical_index(const std::string& id) const { return index_by_id(chemicals, id); }

int Machine::fault_index(const std::string& id) const { return index_by_id(faults, id); }

// In the guide's order, and few.
int Machine::check_index(const std::string& id) const {
  const auto at =
      std::find_if(checks.begin(), checks.end(), [&id](const SenseCheck& one) { return one.id == id; });
  return at != checks.end() ? static_cast<int>(at - checks.begin()) : -1;
}

// Own recipes come after the shipped ones, so the list as a whole is not sorted; it is short.
int Machine::recipe_index(const std::string& id) const {
  const auto at = std::find_if(recipes.begin(), recipes.end(),
                               [&id](const control::Recipe& recipe) { return recipe.id == id; });
  return at != recipes.end() ? static_cast<int>(at - recipes.begin()) : -1;
}

}  // namespace stirbench::machine
