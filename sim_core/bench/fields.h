#pragma once

#include "sim_core/bench/fields_assembly.h"
#include "sim_core/bench/fields_circuit.h"
#include "sim_core/bench/fields_control.h"
#include "sim_core/bench/fields_fault_work.h"
#include "sim_core/bench/fields_safe_work.h"
#include "sim_core/bench/fields_service.h"
#include "sim_core/bench/pace_fields.h"
#include "sim_core/bench/state.h"

// One visit of every field of State, for the hash and for naming differences.
//
// Each struct is taken apart with a structured binding, which must name exactly as many fields as there are: whoever adds
// a field to one of these structs gets a compile error here and adds it to the binding and to the visit below it.
// A visitor has: operator()(name, double | integer | bool | enum), enter(name), leave().
namespace stirbench::bench {

template <typename V>
void visit(V& v, const product::Product& p) {
  const auto& [mass, undissolved, sunk_sugar, dry_powder, sunk_powder, dry_gum, lumps, hot_gum, hot_gum_degC, yolk, whey,
               lethality, growth, egg_set, egg_curd, age, scorched, air, alkaline, acid, chlorine] = p;
  visit_array(v, "mass_kg", mass.value);
  v("undissolved_sugar_kg", undissolved);
  v("sunk_sugar_kg", sunk_sugar);
  v("dry_powder_kg", dry_powder);
  v("sunk_powder_kg", sunk_powder);
  v("dry_gum_kg", dry_gum);
  v("gum_lumps_kg", lumps);
  v("hot_gum_fraction", hot_gum);
  v("hot_gum_degC", hot_gum_degC);
  v("yolk_solids_kg", yolk);
  v("native_whey_norm", whey);
  v("lethality_s", lethality);
  v("growth_log10", growth);
  v("egg_set_norm", egg_set);
  v("egg_curd_norm", egg_curd);
  v("age_norm", age);
  v("scorched_kg", scorched);
  v("air_norm", air);
  v("alkaline_kg", alkaline);
  v("acid_kg", acid);
  v("chlorine_kg", chlorine);
}

template <typename V>
void visit(V& v, const plant::Fittings& f) {
  const auto& [lid, cover, isolator, rinse, draw, hose] = f;
  v("lid_open", lid);
  v("shaft_cover_open", cover);
  v("isolator_on", isolator);
  v("rinse_on", rinse);
  v("draw_opening_norm", draw);
  v("hose", hose);
}

template <typename V>
void visit(V& v, const plant::Environment& e) {
  const auto& [ambient, humidity, supply, frequency] = e;
  v("ambient_degC", ambient);
  v("humidity_norm", humidity);
  v("supply_norm", supply);
  v("frequency_Hz", frequency);
}

template <typename V>
void visit(V& v, const plant::Ledger& l) {
  const auto& [heaters, drive, chiller, surroundings, evaporation, material, start] = l;
  v("heaters_J", heaters);
  v("drive_J", drive);
  v("chiller_J", chiller);
  v("surroundings_J", surroundings);
  v("evaporation_J", evaporation);
  v("material_J", material);
  v("start_J", start);
}

template <typename V>
void visit(V& v, const plant::MassLedger& m) {
  const auto& [start, poured, rinsed, drawn, spilled, evaporated, clung] = m;
  v("start_kg", start);
  v("poured_kg", poured);
  v("rinsed_kg", rinsed);
  v("drawn_kg", drawn);
  v("spilled_kg", spilled);
  v("evaporated_kg", evaporated);
  v("clung_kg", clung);
}

template <typename V>
void visit(V& v, const plant::Coefficients& c) {
  const auto& [volume, density, well_cp, vat_cp, consistency, index, viscosity, well_wall, vat_wall, exchange, circulation,
               torque, evaporation, surface, freezing, boiling, still_wall, viscous_torque, pump_torque, lid_room, water_excess,
               vapour, draw, evaporating, condensing, capacity, compressor, coldest, mean, hottest, scorch, foam,
               surface_area, lid_drip, dew, dew_W, seen] = c;
  v("volume_L", volume);
  v("density_kg_per_m3", density);
  v("well_cp_J_per_kgK", well_cp);
  v("vat_cp_J_per_kgK", vat_cp);
  v("consistency_Pa_sn", consistency);
  v("flow_index", index);
  v("viscosity_Pa_s", viscosity);
  v("well_wall_W_per_K", well_wall);
  v("vat_wall_W_per_K", vat_wall);
  v("exchange_kg_per_s", exchange);
  v("circulation_L_per_min", circulation);
  v("agitator_torque_Nm", torque);
  v("evaporation_kg_per_s", evaporation);
  v("surface_W_per_K", surface);
  v("freezing_point_degC", freezing);
  v("boiling_point_degC", boiling);
  v("still_wall_W_per_K", still_wall);
  v("viscous_torque_Nm", viscous_torque);
  v("pump_torque_Nm", pump_torque);
  v("lid_room_W_per_K", lid_room);
  v("water_excess_J_per_kg", water_excess);
  v("vapour_J_per_kg", vapour);
  v("draw_kg_per_s", draw);
  v("evaporating_degC", evaporating);
  v("condensing_degC", condensing);
  v("chiller_capacity_W", capacity);
  v("compressor_W", compressor);
  v("coldest_degC", coldest);
  v("mean_degC", mean);
  v("hottest_degC", hottest);
  v("scorch_kg_per_m2s", scorch);
  v("foam_per_kg", foam);
  v("surface_m2", surface_area);
  v("lid_drip_kg_per_s", lid_drip);
  v("dew_kg_per_s", dew);
  v("dew_W", dew_W);
  v("seen_fittings", seen);
}

template <typename V>
void visit(V& v, const plant::Flows& f) {
  const auto& [heaters, chiller, compressor, drive, motor, rpm, torque, circulation, draw, spill, splash, steam, suction,
               discharge] = f;
  v("heaters_W", heaters);
  v("chiller_W", chiller);
  v("compressor_W", compressor);
  v("drive_W", drive);
  v("motor_A", motor);
  v("agitator_rpm", rpm);
  v("torque_Nm", torque);
  v("circulation_L_per_min", circulation);
  v("draw_L_per_min", draw);
  v("spill_L_per_min", spill);
  v("splash_L_per_min", splash);
  v("steam_kg_per_h", steam);
  v("suction_bar", suction);
  v("discharge_bar", discharge);
}

template <typename V>
void visit(V& v, const refrigeration::ChillerCondition& c) {
  const auto& [charge, fouling, fan, stuck, leak, restriction, evaporator_fouling] = c;
  v("charge_norm", charge);
  v("condenser_fouling_norm", fouling);
  v("fan_norm", fan);
  v("valve_stuck_norm", stuck);
  v("compressor_leak_norm", leak);
  v("restriction_norm", restriction);
  v("evaporator_fouling_norm", evaporator_fouling);
}

template <typename V>
void visit(V& v, const refrigeration::ChillerGauges& g) {
  const auto& [evaporating, condensing, suction, discharge, superheat, suction_degC, subcooling, discharge_degC, valve, flash,
               flow, conductance, cooling, power, current, air_on, air_off] = g;
  v("evaporating_degC", evaporating);
  v("condensing_degC", condensing);
  v("suction_bar", suction);
  v("discharge_bar", discharge);
  v("superheat_K", superheat);
  v("suction_degC", suction_degC);
  v("subcooling_K", subcooling);
  v("discharge_degC", discharge_degC);
  v("valve_norm", valve);
  v("flash_norm", flash);
  v("flow_kg_per_s", flow);
  v("evaporator_W_per_K", conductance);
  v("cooling_W", cooling);
  v("compressor_W", power);
  v("compressor_A", current);
  v("air_on_degC", air_on);
  v("air_off_degC", air_off);
}

template <typename V>
void visit(V& v, const plant::BushingState& b) {
  const auto& [play, temperature] = b;
  v("play_mm", play);
  v("temperature_degC", temperature);
}

template <typename V>
void visit(V& v, const plant::FreezerLedger& l) {
  const auto& [arrived_kg, drawn_kg, spilled_kg, drained_kg, arrived_J, left_J, dasher_J, refrigerant_J, room_J] = l;
  v("arrived_kg", arrived_kg);
  v("drawn_kg", drawn_kg);
  v("spilled_kg", spilled_kg);
  v("drained_kg", drained_kg);
  v("arrived_J", arrived_J);
  v("left_J", left_J);
  v("dasher_J", dasher_J);
  v("refrigerant_J", refrigerant_J);
  v("room_J", room_J);
}

template <typename V>
void visit(V& v, const Harm& h) {
  const auto& [happened, tick, severity] = h;
  v("happened", happened);
  v("tick", tick);
  v("severity", severity);
}

// Declared before visit_part, which looks the overloads up from here.
template <typename V>
void visit(V& v, const plant::FreezerState& f);
template <typename V>
void visit(V& v, const plant::PlantState& p);
template <typename V>
void visit(V& v, const control::ControlState& c);

template <typename V, typename T>
void visit_part(V& v, const char* name, const T& part) {
  v.enter(name);
  visit(v, part);
  v.leave();
}

template <typename V>
void visit(V& v, const plant::FreezerState& f) {
  const auto& [product, contents, degC, ice, air, crystal, flake, inlet, lid, drain, setting, resting, running, tripped, gate, motor_heat, freezing, ready,
               wall, evaporating, refrigeration, compressor, torque, viscosity, inflow, outflow, overflow, drained, line, since, tub,
               tub_J, tub_degC, tub_air, ledger] = f;
  visit_part(v, "product.", product);
  v("contents_J", contents);
  v("degC", degC);
  v("ice_kg", ice);
  v("air_L", air);
  v("crystal_um", crystal);
  v("flake_kg", flake);
  v("inlet_open", inlet);
  v("lid_open", lid);
  v("drain_open", drain);
  v("setting", setting);
  v("resting", resting);
  v("running", running);
  v("tripped", tripped);
  v("gate_norm", gate);
  v("motor_heat_norm", motor_heat);
  v("freezing_s", freezing);
  v("ready_s", ready);
  v("wall_degC", wall);
  v("evaporating_degC", evaporating);
  v("refrigeration_W", refrigeration);
  v("compressor_W", compressor);
  v("torque_Nm", torque);
  v("viscosity_Pa_s", viscosity);
  v("inflow_L_per_min", inflow);
  v("outflow_L_per_min", outflow);
  v("overflow_L_per_min", overflow);
  v("drain_L_per_min", drained);
  v("line_bar", line);
  v("since_s", since);
  visit_part(v, "tub.", tub);
  v("tub_J", tub_J);
  v("tub_degC", tub_degC);
  v("tub_air_L", tub_air);
  visit_part(v, "ledger.", ledger);
}

template <typename V>
void visit(V& v, const plant::PlantState& p) {
  const auto& [product, fittings, environment, well, vat, element, well_wall, vat_wall, evaporator, lid, head_space, head_space_humidity, lid_water,
               dew, probe,
               well_kg, well_J, vat_J, deposit, ice, shaft, motor_heat, overload, cutout, agitator_bushing, shaft_end_bushing, dry_run,
               prime, compressor, pressure, compressor_off, chiller, freezer, line, soil, assembly, pail, pail_degC, floor, coefficients, flows, ledger, masses,
               pace, since_refresh, pour_spill, safety, condition, circuit, faults] = p;
  visit_part(v, "product.", product);
  visit_part(v, "fittings.", fittings);
  visit_part(v, "environment.", environment);
  v("well_degC", well);
  v("vat_degC", vat);
  v("element_degC", element);
  v("well_wall_degC", well_wall);
  v("vat_wall_degC", vat_wall);
  v("evaporator_degC", evaporator);
  v("lid_degC", lid);
  v("head_space_degC", head_space);
  v("head_space_humidity_norm", head_space_humidity);
  v("lid_water_kg", lid_water);
  v("dew_kg", dew);
  v("probe_degC", probe);
  v("well_kg", well_kg);
  v("well_J", well_J);
  v("vat_J", vat_J);
  v("deposit_kg_per_m2", deposit);
  v("wall_ice_kg", ice);
  v("shaft_rad_per_s", shaft);
  v("motor_heat_norm", motor_heat);
  v("overload_tripped", overload);
  v("cutout_tripped", cutout);
  visit_part(v, "agitator_bushing.", agitator_bushing);
  visit_part(v, "shaft_end_bushing.", shaft_end_bushing);
  v("dry_run_s", dry_run);
  v("prime_norm", prime);
  v("compressor_on", compressor);
  v("pressure_tripped", pressure);
  v("compressor_off_s", compressor_off);
  visit_part(v, "chiller.condition.", chiller.condition);
  visit_part(v, "chiller.gauges.", chiller.gauges);
  const auto& [chiller_condition, gauges, dry] = chiller;  // one more field does not compile here
  static_cast<void>(chiller_condition);
  static_cast<void>(gauges);
  v("chiller.dry_norm", dry);
  visit_part(v, "freezer.", freezer);
  visit_service(v, line, soil);
  visit_part(v, "assembly.", assembly);
  visit_part(v, "pail.", pail);
  v("pail_degC", pail_degC);
  v("floor_kg", floor);
  visit_part(v, "coefficients.", coefficients);
  visit_part(v, "flows.", flows);
  visit_part(v, "ledger.", ledger);
  visit_part(v, "masses.", masses);
  visit_part(v, "pace.", pace);
  v("since_refresh_s", since_refresh);
  v("pour_spill_L", pour_spill);
  visit_part(v, "safety.", safety);
  visit_health(v, condition, circuit, faults);
}

template <typename V>
void visit(V& v, const State& s) {
  const auto& [tick, plant, control, random, keys, harms, sample_degC, sample_tick, lockout, wearing, bucket, work, floor_sign,
               injured, injury, commands, contactors] = s;
  v("tick", tick);
  visit_part(v, "plant.", plant);
  visit_part(v, "control.", control);
  v("random.word", random.word);
  visit_array(v, "key_ticks_left", keys);
  for (const Harm& harm : harms) visit_part(v, "harms.", harm);
  v("sample_degC", sample_degC);
  v("sample_tick", sample_tick);
  visit_part(v, "lockout.", lockout);
  visit_part(v, "wearing.", wearing);
  visit_part(v, "bucket.", bucket);
  visit_part(v, "work.", work);
  v("floor_sign_up", floor_sign);
  v("injured", injured);
  v("injury", injury);
  visit_part(v, "commands.", commands);
  visit_part(v, "contactors.", contactors);
}

}  // namespace stirbench::bench
