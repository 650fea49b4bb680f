#pragma once

#include "sim_core/bench/state.h"

// The visits of instruments, causes and repairs; a part of fields.h, which says how they work.
namespace stirbench::bench {

template <typename V, typename T, std::size_t N>
void visit_array(V& v, const char* name, const std::array<T, N>& items);
template <typename V, typename T>
void visit_part(V& v, const char* name, const T& part);

template <typename V>
void visit(V& v, const ToolReading& r) {
  const auto& [taken, value, second, resolution, over_range, sounds, mishap, tick] = r;
  v("taken", taken);
  v("value", value);
  v("second", second);
  v("resolution", resolution);
  v("over_range", over_range);
  v("sounds", sounds);
  v("mishap", mishap);
  v("tick", tick);
}

template <typename V>
void visit(V& v, const FaultWork& f) {
  const auto& [tool, function, red, black, round, point, gauges, error, fuse, wires_off, dead_pairs, reading, hand_min, parts_min, needless_min, checks,
               repairs, needless, handed_off, lapses, named, mended, to_prove, ran, proved] = f;
  v("tool", tool);
  v("function", function);
  v("red", red);
  v("black", black);
  v("round", round);
  v("point", point);
  v("gauges_on", gauges);
  v("instrument_error", error);
  v("fuse_blown", fuse);
  visit_array(v, "wires_off", wires_off);
  v("dead_pairs", dead_pairs);
  visit_part(v, "reading.", reading);
  v("hand_min", hand_min);
  v("parts_min", parts_min);
  v("needless_parts_min", needless_min);
  v("checks", checks);
  v("repairs", repairs);
  v("needless_repairs", needless);
  v("handed_off", handed_off);
  visit_array(v, "lapses", lapses);
  visit_array(v, "named", named);
  visit_array(v, "mended", mended);
  v("to_prove", to_prove);
  visit_array(v, "ran_ticks", ran);
  v("proved", proved);
}

}  // namespace stirbench::bench
