#pragma once

#include "sim_core/bench/state.h"

// The visits of lock-out, protection and bucket; a part of fields.h, which says how they work.
namespace stirbench::bench {

template <typename V, typename T, std::size_t N>
void visit_array(V& v, const char* name, const std::array<T, N>& items);
template <typename V, typename T>
void visit_part(V& v, const char* name, const T& part);

template <typename V>
void visit(V& v, const Situation& s) {
  const auto& [second, colleague, pole, meter, cut_at, cut_for, trade, plan] = s;
  v("second_person_s", second);
  v("colleague_work_s", colleague);
  v("isolator_pole_stuck", pole);
  v("meter_broken", meter);
  v("power_cut_at_s", cut_at);
  v("power_cut_for_s", cut_for);
  v("trade", trade);
  v("plan_min", plan);
}

template <typename V>
void visit(V& v, const Padlock& p) {
  const auto& [on, tag, key, borrowed, neighbour] = p;
  v("on", on);
  v("tag", tag);
  v("key_in", key);
  v("borrowed", borrowed);
  v("on_neighbour", neighbour);
}

template <typename V>
void visit(V& v, const StepDone& s) {
  const auto& [done, in_order, tick] = s;
  v("done", done);
  v("in_order", in_order);
  v("tick", tick);
}

template <typename V>
void visit(V& v, const Protection& p) {
  const auto& [worn] = p;
  visit_array(v, "worn", worn);
}

template <typename V>
void visit(V& v, const Bucket& b) {
  const auto& [water, chemical, active, irritant, corrosive, acid, chlorine] = b;
  v("water_kg", water);
  v("chemical_kg", chemical);
  v("active_kg", active);
  v("irritant_kg", irritant);
  v("corrosive_kg", corrosive);
  v("acid_mol", acid);
  v("chlorine_mol", chlorine);
}

template <typename V>
void visit(V& v, const Lockout& l) {
  const auto& [situation, yours, colleagues, neighbour, neighbour_last, panel_off, valve_out, spring, capacitor, meter,
               working_at, began, began_tick, second_came, colleague_working, colleague_done, colleague_until, supply_before, steps] = l;
  visit_part(v, "situation.", situation);
  visit_part(v, "yours.", yours);
  visit_part(v, "colleagues.", colleagues);
  v("neighbour_isolated", neighbour);
  v("neighbour_last", neighbour_last);
  v("panel_off", panel_off);
  v("valve_out", valve_out);
  v("spring_eased", spring);
  v("capacitor_V", capacitor);
  v("meter_V", meter);
  v("working_at", working_at);
  v("began", began);
  v("began_tick", began_tick);
  v("second_came", second_came);
  v("colleague_working", colleague_working);
  v("colleague_done", colleague_done);
  v("colleague_until_tick", colleague_until);
  v("supply_before_norm", supply_before);
  for (const StepDone& step : steps) visit_part(v, "steps.", step);
}

}  // namespace stirbench::bench
