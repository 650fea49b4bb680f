#include "sim_core/product/pools.h"

#include <algorithm>
#include <initializer_list>

namespace stirbench::product {
namespace {

using List = std::initializer_list<Component>;

constexpr List crystal_first = {Component::sucrose};
constexpr List crystal_then = {Component::monosaccharide, Component::syrup_solids, Component::lactose,
                               Component::milk_ash,       Component::other_ash,    Component::salt};
constexpr List powder_first = {
    Component::milk_protein, Component::egg_protein, Component::other_protein, Component::other_carbohydrate,
    Component::fibre,        Component::milk_ash,    Component::other_ash,     Component::lactose};
constexpr List powder_then = {Component::syrup_solids, Component::monosaccharide, Component::sucrose,
                              Component::milk_fat, Component::other_fat};
constexpr List gum_only = {Component::stabiliser};

// Moves up to `kg` from one part to another, pro rata to what the listed components have; returns what was
// not there.
double move(PerComponent& from, PerComponent& to, double kg, const List& list) {
  double available = 0.0;
  for (const Component c : list) available += from[c];
  if (!(kg > 0.0) || !(available > 0.0)) return std::max(kg, 0.0);
  const double share = std::min(1.0, kg / available);
  for (const Component c : list) {
    const double part = share * from[c];
    from[c] -= part;
    to[c] += part;
  }
  return std::max(0.0, kg - available);
}

}  // namespace

double undissolved_kg(const Product& p) {
  return p.undissolved_sugar_kg + p.sunk_sugar_kg + p.dry_powder_kg + p.sunk_powder_kg + p.dry_gum_kg +
         p.gum_lumps_kg;
}

bool all_dissolved(const Product& p) {
  return p.undissolved_sugar_kg <= 0.0 && p.sunk_sugar_kg <= 0.0 && p.dry_powder_kg <= 0.0 &&
         p.sunk_powder_kg <= 0.0 && p.dry_gum_kg <= 0.0 && p.gum_lumps_kg <= 0.0;
}

Pools split(const Product& product) {
  Pools out;
  out.dissolved_kg = product.mass_kg;
  if (all_dissolved(product)) return out;
  PerComponent& left = out.dissolved_kg;
  move(left, out.sunk_kg, move(left, out.sunk_kg, product.sunk_sugar_kg, crystal_first), crystal_then);
  move(left, out.suspended_kg, move(left, out.suspended_kg, product.undissolved_sugar_kg, crystal_first),
       crystal_then);
  move(left, out.sunk_kg, move(left, out.sunk_kg, product.sunk_powder_kg, powder_first), powder_then);
  move(left, out.suspended_kg, move(left, out.suspended_kg, product.dry_powder_kg, powder_first),
       powder_then);
  move(left, out.suspended_kg, product.dry_gum_kg + product.gum_lumps_kg, gum_only);
  return out;
}

}  // namespace stirbench::product
