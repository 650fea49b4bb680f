#include "sim_core/signals/signals.h"

#include <algorithm>
#include <string>

#include "sim_core/bench/step.h"
#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/plant/plant.h"
#include "sim_core/product/kinetics.h"
#include "sim_core/signals/signals_internal.h"

namespace stirbench::signals {

using machine::HarmId;

namespace {

const control::Recipe* recipe_of(M m, S s) {
  const auto index = static_cast<std::size_t>(s.control.recipe);
  return s.control.recipe >= 0 && index < m.recipes.size() ? &m.recipes[index] : nullptr;
}
const control::Phase* phase_of(M m, S s) { return control::current_phase(recipe_of(m, s), s.control); }

std::string_view phase_kind_name(control::PhaseKind kind) {
  switch (kind) {
    case control::PhaseKind::heat: return "heat";
    case control::PhaseKind::add: return "add";
    case control::PhaseKind::hold: return "hold";
    case control::PhaseKind::chill: return "chill";
    case control::PhaseKind::age: return "age";
    case control::PhaseKind::keep: return "keep";
  }
  return "";
}

// Every set of standing alarms as text, keys parted by ";" (512 of them, so that a signal needs no memory of
// its own).
std::string_view alarms_text(M, S s) {
  static const std::vector<std::string> all = [] {
    std::vector<std::string> sets(std::size_t{1} << control::alarm_count);
    for (std::size_t set = 0; set < sets.size(); ++set) {
      for (std::size_t i = 0; i < control::alarm_count; ++i) {
        if ((set >> i & 1U) == 0) continue;
        if (!sets[set].empty()) sets[set] += ';';
        sets[set] += control::alarm_key(static_cast<control::AlarmId>(i));
      }
    }
    return sets;
  }();
  std::size_t set = 0;
  for (std::size_t i = 0; i < control::alarm_count; ++i)
    set |= (s.control.alarms[i].stands() ? std::size_t{1} : 0U) << i;
  return all[set];
}

template <control::AlarmId alarm>
double alarm_stands(M, S s) {
  return as_number(s.control.alarms[static_cast<std::size_t>(alarm)].stands());
}

template <HarmId harm>
double harm_happened(M, S s) {
  return as_number(s.harms[static_cast<std::size_t>(harm)].happened);
}

// The columns of the design's section 5, in its order.
void add_trace_columns(std::vector<Signal>& list) {
  const std::vector<Signal> columns = {
      number(
          "time_s", "simulated time since the start", [](M, S s) { return machine::time_s(s); }, true),
      number(
          "product_degC", "product, mean of well and vat",
          [](M, S s) { return plant::product_degC(s.plant); }, true),
      number(
          "well_degC", "product in the well", [](M, S s) { return s.plant.well_degC; }, true),
      number(
          "probe_degC", "what the machine's probe shows",
          [](M, S s) { return plant::probe_reading_degC(s.plant); }, true),
      number(
          "well_wall_degC", "heated wall of the well", [](M, S s) { return s.plant.well_wall_degC; }, true),
      number(
          "fill_L", "product in vat and well", [](M, S s) { return plant::fill_L(s.plant); }, true),
      number(
          "heaters_W", "power of the heating elements", [](M, S s) { return s.plant.flows.heaters_W; }, true),
      number(
          "chiller_W", "heat that the chiller takes out", [](M, S s) { return s.plant.flows.chiller_W; },
          true),
      number(
          "drive_W", "electrical power of the drive", [](M, S s) { return s.plant.flows.drive_W; }, true),
      number(
          "agitator_rpm", "speed of the agitator", [](M, S s) { return s.plant.flows.agitator_rpm; }, true),
      number(
          "torque_Nm", "torque at the agitator's shaft", [](M, S s) { return s.plant.flows.torque_Nm; },
          true),
      number(
          "circulation_L_per_min", "flow of the circulation pump",
          [](M, S s) { return s.plant.flows.circulation_L_per_min; }, true),
      number(
          "draw_L_per_min", "flow out of the draw valve", [](M, S s) { return s.plant.flows.draw_L_per_min; },
          true),
      number(
          "viscosity_Pa_s", "apparent viscosity at the agitator's shear rate",
          [](M, S s) { return s.plant.coefficients.viscosity_Pa_s; }, true),
      number(
          "log10_reduction",
          "Listeria in ice-cream mix, coldest zone; heat-treated, not pasteurised unless approved",
          [](M, S s) { return product::log10_reduction(s.plant.product); }, true),
      text(
          "mode", "the controller's mode", [](M, S s) { return control::mode_name(s.control.mode); }, true),
      text(
          "phase", "id of the recipe's phase, empty when none",
          [](M m, S s) {
            const auto* p = phase_of(m, s);
            return p ? std::string_view(p->id) : std::string_view();
          },
          true),
      flag(
          "lid_open", "the lid is open", [](M, S s) { return as_number(s.plant.fittings.lid_open); }, true),
      flag(
          "shaft_cover_open", "the shaft cover is off",
          [](M, S s) { return as_number(s.plant.fittings.shaft_cover_open); }, true),
      text("alarms", "keys of the alarms that stand, parted by \";\"", alarms_text, true),
  };
  list.insert(list.end(), columns.begin(), columns.end());
}

void add_control(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number(
          "target_degC", "what the machine steers for",
          [](M m, S s) { return control::aimed_degC(recipe_of(m, s), s.control); }, true),
      text("recipe", "id of the chosen recipe, empty when none",
           [](M m, S s) {
             const auto* r = recipe_of(m, s);
             return r ? std::string_view(r->id) : std::string_view();
           }),
      text("phase_kind", "heat, add, hold, chill, age or keep; empty when no phase",
           [](M m, S s) {
             const auto* p = phase_of(m, s);
             return p ? phase_kind_name(p->kind) : std::string_view();
           }),
      number("phase_index", "number of the phase from 0; -1 none",
             [](M, S s) { return double(s.control.phase); }),
      number("phase_s", "time since the phase began",
             [](M, S s) { return static_cast<double>(s.control.phase_ticks) * machine::tick_s; }),
      number(
          "hold_left_s", "time still to go in a hold or age phase",
          [](M m, S s) { return control::hold_left_s(recipe_of(m, s), s.control, machine::tick_s); }, true),
      flag("confirmed", "the addition of this phase is confirmed",
           [](M, S s) { return as_number(s.control.confirmed); }),
      flag("recipe_done", "the recipe has reached its end",
           [](M, S s) { return as_number(s.control.recipe_done); }),
      flag("supply_on", "the controller has power",
           [](M, S s) { return as_number(s.control.mode != control::Mode::off); }),
      flag("moving", "something is commanded",
           [](M, S s) { return as_number(control::mode_moves(s.control.mode)); }),
      flag("heat_demand", "the controller asks for heat",
           [](M, S s) { return as_number(s.control.heat_demand); }),
      flag("chill_demand", "the controller asks for cold",
           [](M, S s) { return as_number(s.control.chill_demand); }),
      flag("alarm_latched", "an alarm is latched",
           [](M, S s) { return as_number(control::any_latched(s.control)); }),
      flag("alarm_lid_guard", "the lid's alarm stands", alarm_stands<control::AlarmId::lid_guard>),
      flag("alarm_shaft_cover_guard", "the shaft cover's alarm stands",
           alarm_stands<control::AlarmId::shaft_cover_guard>),
      flag("alarm_drive_overload", "the overload alarm stands",
           alarm_stands<control::AlarmId::drive_overload>),
      flag("alarm_over_temperature", "the cut-out's alarm stands",
           alarm_stands<control::AlarmId::over_temperature>),
      flag("alarm_chiller_pressure", "the chiller's alarm stands",
           alarm_stands<control::AlarmId::chiller_pressure>),
      flag("alarm_power_returned", "the alarm of returned power stands",
           alarm_stands<control::AlarmId::power_returned>),
      flag("alarm_addition_waiting", "the display asks for an addition",
           alarm_stands<control::AlarmId::addition_waiting>),
      flag("alarm_hold_broken", "the hold was interrupted", alarm_stands<control::AlarmId::hold_broken>),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_room_and_chiller(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number("humidity_norm", "relative humidity of the room",
             [](M, S s) { return s.plant.environment.humidity_norm; }),
      number("supply_norm", "supply voltage over the nominal one",
             [](M, S s) { return s.plant.environment.supply_norm; }),
      number("frequency_Hz", "frequency of the supply",
             [](M, S s) { return s.plant.environment.frequency_Hz; }),
      number("lid_water_kg", "condensate under the lid", [](M, S s) { return s.plant.lid_water_kg; }),
      number("head_space_humidity_norm", "relative humidity of the air above the product",
             [](M, S s) { return s.plant.head_space_humidity_norm; }),
      number("dew_kg", "dew on the cold outside", [](M, S s) { return s.plant.dew_kg; }),
      number(
          "evaporating_degC", "saturation at the suction pressure",
          [](M, S s) { return s.plant.chiller.gauges.evaporating_degC; }, true),
      number(
          "condensing_degC", "saturation at the discharge pressure",
          [](M, S s) { return s.plant.chiller.gauges.condensing_degC; }, true),
      number(
          "superheat_K", "at the evaporator's outlet",
          [](M, S s) { return s.plant.chiller.gauges.superheat_K; }, true),
      number(
          "subcooling_K", "at the condenser's outlet",
          [](M, S s) { return s.plant.chiller.gauges.subcooling_K; }, true),
      number(
          "discharge_degC", "gas out of the compressor",
          [](M, S s) { return s.plant.chiller.gauges.discharge_degC; }, true),
      number(
          "compressor_A", "current of the compressor",
          [](M, S s) { return s.plant.chiller.gauges.compressor_A; }, true),
      number("expansion_valve_norm", "opening of the expansion valve",
             [](M, S s) { return s.plant.chiller.gauges.valve_norm; }),
      number("sight_glass_norm", "share of vapour before the expansion valve; bubbles above 0",
             [](M, S s) { return s.plant.chiller.gauges.flash_norm; }),
      number("condenser_air_on_degC", "air onto the condenser",
             [](M, S s) { return s.plant.chiller.gauges.air_on_degC; }),
      number("condenser_air_off_degC", "air off the condenser",
             [](M, S s) { return s.plant.chiller.gauges.air_off_degC; }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_accounts(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number("energy_heaters_J", "heat from the elements", [](M, S s) { return s.plant.ledger.heaters_J; }),
      number("energy_drive_J", "heat from stirring and friction",
             [](M, S s) { return s.plant.ledger.drive_J; }),
      number("energy_chiller_J", "taken out by the refrigerant, negative",
             [](M, S s) { return s.plant.ledger.chiller_J; }),
      number("energy_surroundings_J", "exchanged with the room",
             [](M, S s) { return s.plant.ledger.surroundings_J; }),
      number("energy_evaporation_J", "left with vapour, negative",
             [](M, S s) { return s.plant.ledger.evaporation_J; }),
      number("energy_material_J", "poured in less drawn off",
             [](M, S s) { return s.plant.ledger.material_J; }),
      number("energy_stored_J", "stored since the start",
             [](M m, S s) { return plant::stored_J(m.plant, s.plant) - s.plant.ledger.start_J; }),
      number("energy_residual_J", "what the account cannot explain",
             [](M m, S s) { return plant::residual_J(m.plant, s.plant); }),
      number("poured_kg", "poured in since the start", [](M, S s) { return s.plant.masses.poured_kg; }),
      number("rinsed_kg", "rinse water let in", [](M, S s) { return s.plant.masses.rinsed_kg; }),
      number("drawn_kg", "drawn off since the start", [](M, S s) { return s.plant.masses.drawn_kg; }),
      number("spilled_kg", "spilled over the brim", [](M, S s) { return s.plant.masses.spilled_kg; }),
      number("evaporated_kg", "left as vapour", [](M, S s) { return s.plant.masses.evaporated_kg; }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_product_and_harms(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number("density_kg_per_m3", "of the product",
             [](M, S s) { return s.plant.coefficients.density_kg_per_m3; }),
      number("freezing_point_degC", "of the product",
             [](M, S s) { return s.plant.coefficients.freezing_point_degC; }),
      number("undissolved_sugar_kg", "crystals afloat and sunk",
             [](M, S s) { return s.plant.product.undissolved_sugar_kg + s.plant.product.sunk_sugar_kg; }),
      number("sunk_kg", "sugar and powder on the well's floor",
             [](M, S s) { return s.plant.product.sunk_sugar_kg + s.plant.product.sunk_powder_kg; }),
      number("lumps_kg", "lumped stabiliser", [](M, S s) { return s.plant.product.gum_lumps_kg; }),
      number("dry_powder_kg", "powder not yet mixed in",
             [](M, S s) { return s.plant.product.dry_powder_kg; }),
      number("undissolved_kg", "all solids outside the solution",
             [](M, S s) { return product::solids_not_dissolved_kg(s.plant.product); }),
      number("hydration_norm", "share of the stabiliser that is hydrated",
             [](M, S s) { return product::hydration_norm(s.plant.product); }),
      number("native_whey_norm", "whey protein still native",
             [](M, S s) { return s.plant.product.native_whey_norm; }),
      number("growth_log10", "growth of microbes since the last heat treatment",
             [](M, S s) { return s.plant.product.growth_log10; }),
      number("egg_set_norm", "how far the egg has thickened",
             [](M, S s) { return s.plant.product.egg_set_norm; }),
      number("egg_curd_norm", "how far the egg has curdled",
             [](M, S s) { return s.plant.product.egg_curd_norm; }),
      number("age_norm", "how far the mix has aged", [](M, S s) { return s.plant.product.age_norm; }),
      number("set_fat_norm", "how far the milk fat has set: 0 liquid, 1 as far as it ever does",
             [](M, S s) { return s.plant.product.set_fat_norm; }),
      number("unset_fat_kg", "milk fat colder than it sets at that is still liquid",
             [](M, S s) { return s.plant.product.unset_fat_kg; }),
      number("scorched_kg", "burnt matter in the product",
             [](M, S s) { return s.plant.product.scorched_kg; }),
      number("sample_degC", "last sample's thermometer", [](M, S s) { return s.sample_degC; }),
      flag("harm_injury", "somebody would have been hurt",
           [](M, S s) {
             for (std::size_t i = 0; i < machine::harm_count; ++i) {
               if (s.harms[i].happened && harm_is_injury(static_cast<HarmId>(i))) return 1.0;
             }
             return 0.0;
           }),
      flag("harm_damage", "machine or product came to harm",
           [](M, S s) {
             for (std::size_t i = 0; i < machine::harm_count; ++i) {
               if (s.harms[i].happened && !machine::harm_is_injury(static_cast<HarmId>(i))) return 1.0;
             }
             return 0.0;
           }),
      flag("harm_moving_agitator", "hand in a turning agitator", harm_happened<HarmId::moving_agitator>),
      flag("harm_hot_product", "skin in hot product", harm_happened<HarmId::hot_product>),
      flag("harm_hot_wall", "hand on hot metal", harm_happened<HarmId::hot_wall>),
      flag("harm_hot_steam", "hand or face in steam", harm_happened<HarmId::hot_steam>),
      flag("harm_bushing_worn", "bushing beyond its limit", harm_happened<HarmId::bushing_worn>),
      flag("harm_vanes_torn", "pump's vanes torn", harm_happened<HarmId::vanes_torn>),
      flag("harm_product_scorched", "product burnt on", harm_happened<HarmId::product_scorched>),
      flag("harm_product_curdled", "egg curdled", harm_happened<HarmId::product_curdled>),
      flag("harm_boil_over", "product boiled over", harm_happened<HarmId::boil_over>),
  };
  list.insert(list.end(), more.begin(), more.end());
}

std::vector<Signal> make_signals() {
  std::vector<Signal> list;
  add_trace_columns(list);
  add_control(list);
  add_plant_signals(list);
  add_room_and_chiller(list);
  add_accounts(list);
  add_product_and_harms(list);
  add_freezer_signals(list);
  add_safe_work_signals(list);
  add_safety_signals(list);
  add_assembly_signals(list);
  add_service_signals(list);
  add_fault_work_signals(list);
  return list;
}

}  // namespace

const std::vector<Signal>& signals() {
  static const std::vector<Signal> list = make_signals();
  return list;
}

const Signal* find_signal(std::string_view name) {
  const auto& all = signals();
  const auto at =
      std::find_if(all.begin(), all.end(), [name](const Signal& signal) { return signal.name == name; });
  return at != all.end() ? &*at : nullptr;
}

}  // namespace stirbench::signals
