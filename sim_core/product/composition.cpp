#include "sim_core/product/composition.h"

namespace stirbench::product {

std::string_view component_key(Component component) {
  static constexpr std::array<std::string_view, component_count> keys = {
      "water",    "milk_fat",  "other_fat",      "milk_protein", "egg_protein",        "other_protein",
      "lactose",  "sucrose",   "monosaccharide", "syrup_solids", "other_carbohydrate", "fibre",
      "milk_ash", "other_ash", "salt",           "stabiliser",   "emulsifier"};
  const auto index = static_cast<std::size_t>(component);
  return index < component_count ? keys[index] : std::string_view{};
}

std::string_view gum_word(GumKind kind) {
  static constexpr std::array<std::string_view, gum_kind_count> words = {"blend", "guar", "locust_bean",
                                                                         "xanthan", "iota_carrageenan"};
  const auto index = static_cast<std::size_t>(kind);
  return index < gum_kind_count ? words[index] : std::string_view{};
}

}  // namespace stirbench::product
