#include "sim_core/plant/freezer/freezer.h"
#include "sim_core/signals/signals_internal.h"

// Readings of the batch freezer and its tub.
namespace stirbench::signals {

namespace {

void add_charge(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number(
          "freezer_degC", "product in the batch freezer", [](M, S s) { return s.plant.freezer.degC; }, true),
      number(
          "freezer_ice_pct", "share of its water that is ice",
          [](M, S s) { return 100.0 * plant::frozen_water_norm(s.plant.freezer); }, true),
      number(
          "freezer_overrun_pct", "air over mix, by volume",
          [](M, S s) { return 100.0 * plant::overrun_norm(s.plant.freezer); }, true),
      number(
          "freezer_torque_Nm", "torque at its dasher", [](M, S s) { return s.plant.freezer.torque_Nm; },
          true),
      number(
          "freezer_charge_L", "mix in it, without air", [](M, S s) { return plant::mix_L(s.plant.freezer); },
          true),
      text(
          "freezer_mode", "off, filling, freezing, ready or emptying",
          [](M, S s) {
            return std::string_view(plant::freezer_mode_name(plant::freezer_mode(s.plant.freezer)));
          },
          true),
      number(
          "tub_kg", "drawn from the freezer into the tub",
          [](M, S s) { return s.plant.freezer.tub.total_kg(); }, true),
      number("freezer_kg_per_L", "weight of a litre out of it",
             [](M, S s) { return plant::kg_per_L(s.plant.freezer); }),
      number("freezer_charge_norm", "mix in it over its greatest charge",
             [](M m, S s) { return plant::mix_L(s.plant.freezer) / m.plant.freezer.maximum_charge_L; }),
      number("freezer_s", "time since the freezer was started on this charge",
             [](M, S s) { return s.plant.freezer.freezing_s; }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

void add_unit_and_gate(std::vector<Signal>& list) {
  const std::vector<Signal> more = {
      number("freezer_texture_um", "what the tongue makes of its ice",
             [](M, S s) { return plant::texture_um(s.plant.freezer); }),
      number("freezer_viscosity_Pa_s", "apparent viscosity at the dasher's shear rate",
             [](M, S s) { return s.plant.freezer.viscosity_Pa_s; }),
      number("freezer_evaporating_degC", "evaporating temperature of its unit",
             [](M, S s) { return s.plant.freezer.evaporating_degC; }),
      number("freezer_refrigeration_W", "heat that its unit takes",
             [](M, S s) { return s.plant.freezer.refrigeration_W; }),
      number("freezer_spilled_kg", "run out of the freezer's inlet",
             [](M, S s) { return s.plant.freezer.ledger.spilled_kg; }),
      number("freezer_gate_norm", "its outlet gate, 0 shut to 1",
             [](M, S s) { return s.plant.freezer.gate_norm; }),
      number("tub_degC", "product in the tub", [](M, S s) { return s.plant.freezer.tub_degC; }),
      number("hose_bar", "pressure in the hose to the freezer",
             [](M, S s) { return s.plant.freezer.line_bar; }),
      number("splash_L_per_min", "drops that the drawn jet throws out of the pail",
             [](M, S s) { return s.plant.flows.splash_L_per_min; }),
      flag("freezer_running", "dasher and refrigeration are on",
           [](M, S s) { return as_number(s.plant.freezer.running); }),
      flag("freezer_tripped", "the dasher's overload protection has tripped",
           [](M, S s) { return as_number(s.plant.freezer.tripped); }),
      flag("freezer_lid_open", "its lid is open", [](M, S s) { return as_number(s.plant.freezer.lid_open); }),
      flag("freezer_drain_open", "its drain is open",
           [](M, S s) { return as_number(s.plant.freezer.drain_open); }),
      number("freezer_drained_kg", "gone down the freezer's drain",
             [](M, S s) { return s.plant.freezer.ledger.drained_kg; }),
      number("freezer_water_norm", "share of water in what it holds",
             [](M, S s) {
               const product::Product& p = s.plant.freezer.product;
               return p.total_kg() > 0.0 ? p.mass_kg[product::Component::water] / p.total_kg() : 0.0;
             }),
      text("freezer_setting", "freeze, dasher or keep",
           [](M, S s) { return plant::freezer_setting_word(s.plant.freezer.setting); }),
      flag("freezer_inlet_open", "its inlet is open",
           [](M, S s) { return as_number(s.plant.freezer.inlet_open); }),
  };
  list.insert(list.end(), more.begin(), more.end());
}

}  // namespace

void add_freezer_signals(std::vector<Signal>& list) {
  add_charge(list);
  add_unit_and_gate(list);
}

}  // namespace stirbench::signals
