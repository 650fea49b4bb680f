#pragma once

#include "sim_core/plant/assembly.h"

// The visits of what can be taken apart; see fields.h.
namespace stirbench::bench {

template <typename V, typename T, std::size_t N>
void visit_array(V& v, const char* name, const std::array<T, N>& items);
template <typename V, typename T>
void visit_part(V& v, const char* name, const T& part);

template <typename V>
void visit(V& v, const plant::PartItem& i) {
  const auto& [kind, condition, greased, other, wear, run_in, oval, strained, soil] = i;
  v("kind", kind);
  v("condition", condition);
  v("greased", greased);
  v("other", other);
  v("wear", wear);
  v("run_in", run_in);
  v("oval", oval);
  v("strained", strained);
  v("soil_norm", soil);
}

template <typename V>
void visit(V& v, const plant::AssemblyState& a) {
  const auto& [items, at, hand, shaft_product, seen_opening, agitator_degC, turned, feeler] = a;
  for (const plant::PartItem& item : items) visit_part(v, "items.", item);
  visit_array(v, "at", at);
  v("hand", hand);
  v("shaft_product_kg", shaft_product);
  v("seen_opening_norm", seen_opening);
  v("agitator_degC", agitator_degC);
  v("turned_s", turned);
  v("feeler_mm", feeler);
}

}  // namespace stirbench::bench
