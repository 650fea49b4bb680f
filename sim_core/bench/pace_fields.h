#pragma once

#include <array>

#include "sim_core/plant/state.h"

// The part of fields.h that visits what the plant keeps between ticks (plant/pace.h).
namespace stirbench::bench {

template <typename V, typename T, std::size_t N>
void visit_array(V& v, const char* name, const std::array<T, N>& items) {
  for (std::size_t i = 0; i < N; ++i) v(name, items[i], i);
}

template <typename V>
void visit(V& v, const plant::Trend& t) {
  const auto& [well_wall, vat_wall, exchange, surface, lid_room, evaporation, evaporating, evaporator, drip, dew] = t;
  v("well_wall_W_per_K", well_wall);
  v("vat_wall_W_per_K", vat_wall);
  v("exchange_kg_per_s", exchange);
  v("surface_W_per_K", surface);
  v("lid_room_W_per_K", lid_room);
  v("evaporation_kg_per_s", evaporation);
  v("evaporating_degC", evaporating);
  v("evaporator_W_per_K", evaporator);
  v("lid_drip_kg_per_s", drip);
  v("dew_W", dew);
}

template <typename V>
void visit(V& v, const plant::Pace& p) {
  const auto& [trend, disturbed, age, due, chiller_age, chiller_due, chiller_load, power, room, seen, seen_shaft, before,
               before_s, steady, stir_vat, stir_well, wear_due] = p;
  v.enter("trend.");
  visit(v, trend);
  v.leave();
  v("disturbed", disturbed);
  v("coefficients_age_s", age);
  v("coefficients_due_s", due);
  v("chiller_age_s", chiller_age);
  v("chiller_due_s", chiller_due);
  v("chiller_load_degC", chiller_load);
  v("seen_power", power);
  v("seen_room", room);
  visit_array(v, "seen_degC", seen);
  v("seen_rad_per_s", seen_shaft);
  visit_array(v, "before_degC", before);
  v("before_s", before_s);
  v("shaft_steady", steady);
  v("stir_vat_W", stir_vat);
  v("stir_well_W", stir_well);
  v("wear_due_s", wear_due);
}

}  // namespace stirbench::bench
