#pragma once

#include "sim_core/plant/service_state.h"

// The visits of hose and soil; see fields.h.
namespace stirbench::bench {

template <typename V, typename T>
void visit_part(V& v, const char* name, const T& part);
template <typename V>
void visit(V& v, const product::Product& p);

template <typename V>
void visit(V& v, const plant::HoseLine& h) {
  const auto& [clamped, gasket, route, jumped, held, held_J, leak] = h;
  v("clamped", clamped);
  v("gasket", gasket);
  v("route", route);
  v("jumped", jumped);
  visit_part(v, "held.", held);
  v("held_J", held_J);
  v("leak_L_per_min", leak);
}

template <typename V>
void visit(V& v, const plant::Soil& s) {
  const auto& [film, set, germs, contact, swab_vat, swab_valve] = s;
  visit_part(v, "film.", film);
  v("set_norm", set);
  v("germs_log10", germs);
  v("contact_s", contact);
  v("swab_vat", swab_vat);
  v("swab_valve", swab_valve);
}

template <typename V>
void visit_service(V& v, const plant::HoseLine& line, const plant::Soil& soil) {
  visit_part(v, "line.", line);
  visit_part(v, "soil.", soil);
}

}  // namespace stirbench::bench
