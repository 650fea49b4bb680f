#pragma once

#include <array>
#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

// What a product is made of. A product is a mass of each component; everything else
// (density, heat capacity, freezing point ...) is computed from these masses.
namespace stirbench::product {

// Components that the models distinguish. Milk solids are separate from other solids because the freezing
// point, the whey-protein kinetics and the standards of identity need them.
enum class Component : unsigned char {
  water,
  milk_fat,
  other_fat,
  milk_protein,
  egg_protein,
  other_protein,
  lactose,
  sucrose,
  monosaccharide,      // dextrose, fructose, invert sugar
  syrup_solids,        // glucose syrup solids (42 DE class)
  other_carbohydrate,  // starch, cocoa carbohydrate
  fibre,
  milk_ash,
  other_ash,
  salt,        // sodium chloride
  stabiliser,  // hydrocolloids
  emulsifier,
  count
};

inline constexpr std::size_t component_count = static_cast<std::size_t>(Component::count);

// The content files' key of a component, e.g. "milk_fat".
std::string_view component_key(Component component);

// One number for each component: masses [kg] or mass fractions [kg/kg], as the owner's name says.
struct PerComponent {
  std::array<double, component_count> value{};

  double& operator[](Component c) { return value[static_cast<std::size_t>(c)]; }
  double operator[](Component c) const { return value[static_cast<std::size_t>(c)]; }
  // Four partial sums: a single one would be a chain of sixteen additions, each waiting for the last.
  double sum() const {
    std::array<double, 4> strand{};
    for (std::size_t i = 0; i < component_count; ++i) strand[i % 4] += value[i];
    return (strand[0] + strand[1]) + (strand[2] + strand[3]);
  }
};

// How an ingredient enters the vat; decides what has to happen before it is part of the solution.
enum class Form : unsigned char {
  liquid,    // mixes at once where there is flow
  crystals,  // dissolves: Noyes-Whitney, sinks while nothing stirs
  powder,    // wets and disperses, sinks or lumps
  gum        // hydrates over minutes, lumps when dumped without stirring
};

// What a stabiliser is. A blend is one of several kinds, or one that nobody named.
enum class GumKind : unsigned char { blend, guar, locust_bean, xanthan, iota_carrageenan, count };
inline constexpr std::size_t gum_kind_count = static_cast<std::size_t>(GumKind::count);
// The content files' word, e.g. "locust_bean".
std::string_view gum_word(GumKind kind);

// Masses [kg] by kind.
struct PerGum {
  std::array<double, gum_kind_count> value{};

  double& operator[](GumKind kind) { return value[static_cast<std::size_t>(kind)]; }
  double operator[](GumKind kind) const { return value[static_cast<std::size_t>(kind)]; }
};

struct Ingredient {
  std::string id;
  std::string title;
  std::string source;     // where the composition comes from (document, table)
  PerComponent fraction;  // kg of component per kg of ingredient; sums to 1
  Form form = Form::liquid;
  double supply_degC = 5.0;       // usual temperature when it is brought to the machine
  double hydration_degC = 0.0;    // gums: hydrates fully only above this temperature (0: cold-soluble)
  GumKind gum = GumKind::blend;   // kind of its stabiliser
  double yolk_solids_norm = 0.0;  // kg egg-yolk solids per kg (frozen-custard identity)
  std::vector<std::string> allergens;
};

}  // namespace stirbench::product
