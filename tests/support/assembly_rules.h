#pragma once

#include <initializer_list>

#include "sim_core/plant/upkeep/assembly.h"

// The rules of taking draw valve and agitator apart as the content of both machines has them, built in code.
namespace stirbench::tests {

inline plant::AssemblySpec assembly_rules() {
  using namespace plant;
  AssemblySpec spec;
  const auto rule = [&](PartId part, Tool tool, Grip grip, std::initializer_list<PartId> behind,
                        std::initializer_list<PartId> on, bool in_vat) {
    PartRule& r = spec.rules[static_cast<std::size_t>(part)];
    r.known = true;
    r.tool = tool;
    r.grip = grip;
    r.in_vat = in_vat;
    for (const PartId p : behind) r.behind.add(p);
    for (const PartId p : on) r.on.add(p);
  };
  using P = PartId;
  rule(P::valve_handle, Tool::hand, Grip::pull, {}, {}, false);
  rule(P::valve_nut, Tool::spanner, Grip::right_thread, {P::valve_handle}, {P::valve_plunger}, false);
  rule(P::valve_spring, Tool::hand, Grip::pull, {P::valve_nut, P::valve_handle}, {P::valve_plunger}, false);
  rule(P::valve_plunger, Tool::hand, Grip::pull, {P::valve_spring, P::valve_nut, P::valve_handle}, {}, false);
  rule(P::oring_rear, Tool::pick, Grip::pull, {P::valve_plunger}, {}, false);
  rule(P::oring_front, Tool::pick, Grip::pull, {P::valve_plunger}, {}, false);
  rule(P::guard_cover, Tool::hand, Grip::click, {}, {P::agitator}, true);
  rule(P::agitator, Tool::hand, Grip::lift, {P::guard_cover}, {}, true);
  rule(P::agitator_bushing, Tool::press, Grip::press_fit, {P::agitator}, {}, false);
  rule(P::sleeve_cap, Tool::hand, Grip::pull, {P::agitator}, {P::shaft_sleeve}, true);
  rule(P::shaft_end_bushing, Tool::spanner, Grip::left_thread, {P::sleeve_cap, P::agitator},
       {P::shaft_sleeve}, true);
  rule(P::shaft_sleeve, Tool::spanner, Grip::right_thread, {P::shaft_end_bushing, P::sleeve_cap, P::agitator},
       {}, true);
  spec.plunger_gap_m = 0.0004;
  spec.seal_length_m = 0.004;
  spec.drift_opening_norm = 0.15;
  spec.shaft_leak_kg_per_h = 0.2;
  spec.stuck_kg = 0.06;
  return spec;
}

}  // namespace stirbench::tests
