#include "sim_core/identification/quantities.h"

#include <algorithm>
#include <array>

namespace stirbench::identification {

namespace {

constexpr std::array<QuantityEntry, static_cast<std::size_t>(Quantity::count)> table{{
    {Quantity::element_power, "element_power", "Power of the elements", "W", Scale::factor, -1.6, 1.1, 0.01,
     true, 0.80, 1.10, 0, "a power meter in the elements' supply, or a weighed batch"},
    {Quantity::mass, "mass", "Mass of the batch", "kg", Scale::factor, -1.2, 0.5, 0.01, true, 0.80, 1.20, 2,
     "weighing what is poured, or a power meter"},
    {Quantity::losses, "losses", "Losses through the insulation", "W/K", Scale::own, 0.0, 80.0, 0.5, true,
     0.40, 2.5, 2, "letting a hot batch stand for an hour with the lid shut"},
    {Quantity::chiller, "chiller", "Displacement of the compressor", "m3/h", Scale::factor, -1.6, 1.1, 0.02,
     true, 0.75, 1.25, 3, "a chill from hot to cold, or the gauges"},
    {Quantity::condenser, "condenser", "Condensing side", "W/K", Scale::resistance, 0.1, 6.0, 0.1, true, 0.5,
     2.0, 1, "the discharge gauge while chilling, or air on and air off at the condenser"},
    {Quantity::probe_lag, "probe_lag", "Lag of the probe", "s", Scale::own, 0.2, 240.0, 2.0, true, 0.1, 8.0,
     1, "faster sampling over a switching, or the probe moved from ice water to warm water"},
    {Quantity::wall_scale, "wall_scale", "Deposit on the heated wall", "kg/m2", Scale::own, 0.0, 4.0, 0.02,
     false, 0.0, 0.15, 3, "a temperature of the heated wall or of the elements"},
    {Quantity::start, "start", "Start temperature", "degC", Scale::own, -1.0, 99.0, 0.5, false, -1.0, 99.0, 2,
     "the log begun a minute before the heating"},
    {Quantity::clock, "clock", "Log's clock ahead of the actions'", "s", Scale::own, -900.0, 900.0, 4.0,
     false, -900.0, 900.0, 1, "both clocks set alike"},
}};

double& well_loss(Trial& t) { return t.machine.plant.well.loss_W_per_K; }
double& vat_loss(Trial& t) { return t.machine.plant.vat.loss_W_per_K; }

void set_power(plant::MachineSpec& spec, double all_W) {
  const double each_W = all_W / spec.elements.count;
  spec.elements.rated_W_each = each_W;
  // The same elements as resistors in the circuit.
  for (electrics::CircuitPart& part : spec.circuit.parts)
    if (part.kind == electrics::CircuitPartKind::element) part.rated_W = each_W;
}

}  // namespace

std::span<const QuantityEntry> quantities() { return table; }

const QuantityEntry& entry(Quantity quantity) { return table[static_cast<std::size_t>(quantity)]; }

double value(const Trial& trial, Quantity quantity) {
  const plant::MachineSpec& spec = trial.machine.plant;
  switch (quantity) {
    case Quantity::element_power: return spec.elements.count * spec.elements.rated_W_each;
    case Quantity::mass: return mass_kg(trial.course);
    case Quantity::losses: return spec.vat.loss_W_per_K + spec.well.loss_W_per_K;
    case Quantity::chiller: return spec.chiller.swept_m3_per_h;
    case Quantity::condenser: return spec.chiller.condenser_W_per_K;
    case Quantity::probe_lag: return spec.probe.tau_s;
    case Quantity::wall_scale: return trial.course.deposit_kg_per_m2;
    case Quantity::start: return start_degC(trial.course);
    case Quantity::clock: return trial.clock_s;
    case Quantity::count: break;
  }
  return 0.0;
}

void set_value(Trial& trial, Quantity quantity, double wanted) {
  plant::MachineSpec& spec = trial.machine.plant;
  const double now = value(trial, quantity);
  switch (quantity) {
    case Quantity::element_power: set_power(spec, wanted); break;
    case Quantity::mass: scale_mass(trial.course, wanted / now); break;
    case Quantity::losses: {
      // Never quite none: their share between vat and well stays known.
      const double factor = std::max(wanted, 1.0e-6) / now;
      vat_loss(trial) *= factor;
      well_loss(trial) *= factor;
      break;
    }
    case Quantity::chiller: spec.chiller.swept_m3_per_h = wanted; break;
    case Quantity::condenser: spec.chiller.condenser_W_per_K = wanted; break;
    case Quantity::probe_lag: spec.probe.tau_s = wanted; break;
    case Quantity::wall_scale: trial.course.deposit_kg_per_m2 = wanted; break;
    case Quantity::start: set_start_degC(trial.course, wanted); break;
    case Quantity::clock: trial.clock_s = wanted; break;
    case Quantity::count: break;
  }
}

}  // namespace stirbench::identification
