#include "sim_core/diagnosis/levers.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "sim_core/plant/pace.h"

namespace stirbench::diagnosis {

namespace {

using bench::Machine;
using bench::StartSetup;
using bench::State;

void build_chiller(std::vector<Lever>& t) {
  const auto add = [&t](std::string_view name, double low, double high, std::string_view meaning, void (*after)(State&, double)) {
    t.push_back({name, low, high, "", meaning, nullptr, after});
  };
  add("chiller.charge_norm", 0.0, 1.6, "refrigerant over the right charge",
      [](State& s, double x) { s.plant.chiller.condition.charge_norm = x; });
  add("chiller.condenser_fouling_norm", 0.0, 1.0, "condenser clogged with dust and grease",
      [](State& s, double x) { s.plant.chiller.condition.condenser_fouling_norm = x; });
  add("chiller.fan_norm", 0.0, 1.2, "air flow of the condenser fan", [](State& s, double x) { s.plant.chiller.condition.fan_norm = x; });
  add("chiller.valve_stuck_norm", 0.0, 1.0, "opening at which the expansion valve is stuck",
      [](State& s, double x) { s.plant.chiller.condition.valve_stuck_norm = x; });
  add("chiller.compressor_leak_norm", 0.0, 1.0, "gas that leaks back inside the compressor",
      [](State& s, double x) { s.plant.chiller.condition.compressor_leak_norm = x; });
  add("chiller.restriction_norm", 0.0, 1.0, "share of the liquid line that is closed",
      [](State& s, double x) { s.plant.chiller.condition.restriction_norm = x; });
  add("chiller.evaporator_fouling_norm", 0.0, 0.95, "evaporator film lost to oil or poor contact",
      [](State& s, double x) { s.plant.chiller.condition.evaporator_fouling_norm = x; });
  add("chiller.pressure_tripped", 0.0, 1.0, "pressure control has tripped", [](State& s, double x) { s.plant.pressure_tripped = x > 0.5; });
}

void build_heat(std::vector<Lever>& t) {
  t.push_back({"elements.working", 0.0, 12.0, "", "number of elements that are not open",
               [](Machine& m, StartSetup&, double x) { m.plant.elements.count = static_cast<int>(std::lround(x)); }});
  t.push_back({"elements.lines_norm", 0.0, 1.2, "", "power that reaches the elements over the rated one (one line of three lost: a half)",
               [](Machine& m, StartSetup&, double x) { m.plant.elements.rated_W_each *= x; }});
  t.push_back({"elements.cutout_degC", 20.0, 200.0, "degC", "wall temperature at which the cut-out opens",
               [](Machine& m, StartSetup&, double x) { m.plant.elements.cutout_degC = x; }});
  t.push_back({"elements.contact_norm", 0.05, 1.0, "", "contact of the elements with the well over the right one",
               [](Machine& m, StartSetup&, double x) { m.plant.elements.contact_W_per_K *= x; }});
  t.push_back({"elements.cutout_tripped", 0.0, 1.0, "", "the cut-out has tripped", nullptr,
               [](State& s, double x) { s.plant.cutout_tripped = x > 0.5; }});
  t.push_back({"well.deposit_kg_per_m2", 0.0, 5.0, "kg/m2", "burnt layer on the heated wall", nullptr,
               [](State& s, double x) { s.plant.deposit_kg_per_m2 = x; }});
  t.push_back({"vat.loss_norm", 0.5, 20.0, "", "heat loss through the insulation over the right one", [](Machine& m, StartSetup&, double x) {
                 m.plant.vat.loss_W_per_K *= x;
                 m.plant.well.loss_W_per_K *= x;
               }});
  t.push_back({"probe.tau_norm", 0.5, 100.0, "", "sluggishness of the probe over the right one (no contact in its pocket)",
               [](Machine& m, StartSetup&, double x) { m.plant.probe.tau_s *= x; }});
}

void build_drive(std::vector<Lever>& t) {
  t.push_back({"drive.torque_norm", 0.05, 1.0, "", "torque of the motor over the right one (weak winding, lost line, low voltage)",
               [](Machine& m, StartSetup&, double x) { m.plant.drive.breakdown_ratio *= x; }});
  t.push_back({"drive.gear_efficiency_norm", 0.1, 1.0, "", "efficiency of the gear over the right one (no oil, worn)",
               [](Machine& m, StartSetup&, double x) { m.plant.drive.gear_efficiency_norm *= x; }});
  t.push_back({"drive.overload_norm", 0.3, 1.0, "", "setting of the overload relay over the right one",
               [](Machine& m, StartSetup&, double x) { m.plant.drive.overload_A *= x; }});
  t.push_back({"drive.overload_tripped", 0.0, 1.0, "", "the overload relay has tripped", nullptr,
               [](State& s, double x) { s.plant.overload_tripped = x > 0.5; }});
  t.push_back({"agitator_bushing.play_mm", 0.0, 5.0, "mm", "play of the bushing in the agitator's foot", nullptr,
               [](State& s, double x) { s.plant.agitator_bushing.play_mm = x; }});
  t.push_back({"shaft_end_bushing.play_mm", 0.0, 5.0, "mm", "play of the bushing at the shaft's end", nullptr,
               [](State& s, double x) { s.plant.shaft_end_bushing.play_mm = x; }});
  t.push_back({"bushings.friction_norm", 0.5, 30.0, "", "friction of both bushings over the right one", [](Machine& m, StartSetup&, double x) {
                 for (plant::BushingSpec* one : {&m.plant.agitator_bushing, &m.plant.shaft_end_bushing}) {
                   one->friction_dry *= x;
                   one->friction_wet *= x;
                 }
               }});
  t.push_back({"pump.slip_norm", 1.0, 50.0, "", "slip of the pump over the right one (worn rotor)",
               [](Machine& m, StartSetup&, double x) { m.plant.pump.slip_L_per_min_per_bar *= x; }});
  t.push_back({"pump.displacement_norm", 0.0, 1.0, "", "displacement of the pump over the right one (rotor broken, coupling slips)",
               [](Machine& m, StartSetup&, double x) { m.plant.pump.displacement_L_per_rev *= x; }});
  t.push_back({"pump.circulation_loss_norm", 1.0, 200.0, "", "resistance of the loop over the right one (passage clogged)",
               [](Machine& m, StartSetup&, double x) { m.plant.pump.circulation_loss_bar_at_rated *= x; }});
  t.push_back({"pump.prime_norm", 0.0, 1.0, "", "share of the pump that is full of product", nullptr,
               [](State& s, double x) { s.plant.prime_norm = x; }});
  t.push_back({"draw.bore_norm", 0.02, 1.0, "", "bore of the draw valve over the right one (clogged, plunger worn)",
               [](Machine& m, StartSetup&, double x) { m.plant.draw.valve_bore_m *= x; }});
}

void build_use(std::vector<Lever>& t) {
  t.push_back({"fittings.lid_open", 0.0, 1.0, "", "the lid stands open", nullptr, [](State& s, double x) { s.plant.fittings.lid_open = x > 0.5; }});
  t.push_back({"fittings.shaft_cover_open", 0.0, 1.0, "", "the shaft cover stands open", nullptr,
               [](State& s, double x) { s.plant.fittings.shaft_cover_open = x > 0.5; }});
  t.push_back({"fittings.isolator_off", 0.0, 1.0, "", "the isolator is off", nullptr,
               [](State& s, double x) { s.plant.fittings.isolator_on = x <= 0.5; }});
  t.push_back({"environment.ambient_K", -20.0, 30.0, "K", "room warmer than on an ordinary day",
               [](Machine&, StartSetup& start, double x) { start.environment.ambient_degC = std::min(55.0, start.environment.ambient_degC + x); }});
  t.push_back({"environment.supply_norm", 0.0, 1.2, "", "supply voltage over the nominal one",
               [](Machine&, StartSetup& start, double x) { start.environment.supply_norm = x; }});
  t.push_back({"load.amount_norm", 0.05, 1.15, "", "how much is in the vat over the usual load", [](Machine&, StartSetup& start, double x) {
                 for (auto& load : start.loaded) load.kg *= x;
               }});
  t.push_back({"load.warmer_K", 0.0, 60.0, "K", "load warmer than usual", [](Machine&, StartSetup& start, double x) {
                 for (auto& load : start.loaded) load.degC = std::min(95.0, load.degC + x);
               }});
}

}  // namespace

const std::vector<Lever>& levers() {
  static const std::vector<Lever> table = [] {
    std::vector<Lever> t;
    build_heat(t);
    build_chiller(t);
    build_drive(t);
    build_use(t);
    return t;
  }();
  return table;
}

const Lever* find_lever(std::string_view name) {
  const auto found = std::find_if(levers().begin(), levers().end(), [name](const Lever& one) { return one.name == name; });
  return found == levers().end() ? nullptr : &*found;
}

LeverFaults::LeverFaults(std::vector<FaultEffects> faults) : faults_(std::move(faults)) {
  for (const FaultEffects& fault : faults_) {
    for (const Effect& effect : fault.effects) {
      const Lever* lever = find_lever(effect.lever);
      if (lever == nullptr) throw std::invalid_argument("fault \"" + fault.fault + "\": there is no lever \"" + effect.lever + "\"");
      for (const double value : {effect.mild, effect.severe}) {
        if (!(value >= lever->low && value <= lever->high))
          throw std::invalid_argument("fault \"" + fault.fault + "\": " + effect.lever + " is out of its range");
      }
    }
  }
}

bool LeverFaults::knows(std::string_view fault) const {
  return std::any_of(faults_.begin(), faults_.end(), [fault](const FaultEffects& one) { return one.fault == fault; });
}

void LeverFaults::apply(std::string_view fault, double severity, Workpiece& piece) const {
  for (const FaultEffects& one : faults_) {
    if (one.fault != fault) continue;
    for (const Effect& effect : one.effects) {
      if (!effect.protocol.empty() && effect.protocol != piece.protocol) continue;
      const Lever& lever = *find_lever(effect.lever);
      const double value = effect.mild + (effect.severe - effect.mild) * severity;
      if (piece.state == nullptr && lever.before != nullptr) lever.before(piece.machine, piece.setup, value);
      if (piece.state != nullptr && lever.after != nullptr) lever.after(*piece.state, value);
    }
  }
  if (piece.state != nullptr) plant::disturb(piece.state->plant);
}

}  // namespace stirbench::diagnosis
