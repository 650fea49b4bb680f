#include "sim_core/machine/uncertain.h"

#include <array>
#include <cmath>

#include "sim_core/machine/random.h"

namespace stirbench::machine {

namespace {

void both_bushings(Machine& m, double plant::BushingSpec::*value, double factor) {
  m.plant.agitator_bushing.*value *= factor;
  m.plant.shaft_end_bushing.*value *= factor;
}

constexpr std::array<UncertainConstant, 25> constants = {{
    {"film at the heated wall", 0.7, 1.3, "constants of stirred walls run from 0.32 to 0.55",
     [](Machine& m, double f) { m.plant.agitator.nusselt_well_a *= f; }},
    {"film at the vat's wall", 0.7, 1.3, "constants of stirred walls run from 0.32 to 0.55",
     [](Machine& m, double f) { m.plant.agitator.nusselt_wall_a *= f; }},
    {"thickness of the product", 0.67, 1.5,
     "viscosities of one mix or cream differ by 2 to 3 between authors",
     [](Machine& m, double f) { m.plant.factors.thickness *= f; }},
    {"evaporation", 0.8, 1.22, "mean deviation of the law 18 % (Shah 2002)",
     [](Machine& m, double f) { m.plant.factors.evaporation *= f; }},
    {"vapour past a shut lid", 0.5, 2.0, "leak of a loose lid, weak",
     [](Machine& m, double f) { m.plant.vat.lid_vapour_leak_norm *= f; }},
    {"loss through the vat's insulation", 0.8, 1.25, "choice",
     [](Machine& m, double f) { m.plant.vat.loss_W_per_K *= f; }},
    {"loss through the well's insulation", 0.8, 1.25, "choice",
     [](Machine& m, double f) { m.plant.well.loss_W_per_K *= f; }},
    {"burning on", 0.33, 3.0, "choice", [](Machine& m, double f) { m.plant.factors.burning *= f; }},
    {"white film on the wall", 0.2, 5.0, "suggested growth, within a factor of 5",
     [](Machine& m, double f) { m.plant.factors.white_film *= f; }},
    {"milk stone in the white film", 0.85, 1.15, "30 to 40 % mineral (Burton 1968, Lyster 1965)",
     [](Machine& m, double f) { m.plant.factors.milk_stone *= f; }},
    {"acid on milk stone", 0.33, 3.0, "choice", [](Machine& m, double f) { m.plant.factors.descaling *= f; }},
    {"boiling at the wall", 0.5, 2.0, "milk and mix boil like water: choice",
     [](Machine& m, double f) { m.plant.factors.boiling *= f; }},
    {"air whipped in", 0.5, 1.5, "5 to 15 % in a half-full vat, weak",
     [](Machine& m, double f) { m.plant.factors.foam *= f; }},
    {"setting of undercooled fat", 0.5, 2.0, "time constant of half an hour to two, weak",
     [](Machine& m, double f) { m.plant.factors.fat_setting *= f; }},
    {"evaporator", 0.85, 1.18, "choice",
     [](Machine& m, double f) { m.plant.chiller.evaporator_W_per_K *= f; }},
    {"condenser", 0.85, 1.18, "choice", [](Machine& m, double f) { m.plant.chiller.condenser_W_per_K *= f; }},
    {"compressor's efficiency", 0.93, 1.07, "choice",
     [](Machine& m, double f) { m.plant.chiller.isentropic_norm *= f; }},
    {"power number of the agitator", 0.7, 1.4, "choice",
     [](Machine& m, double f) { m.plant.agitator.turbulent_power_Np *= f; }},
    {"slip of the pump", 0.7, 1.4, "choice",
     [](Machine& m, double f) { m.plant.pump.slip_L_per_min_per_bar *= f; }},
    {"draw valve's resistance to thick product", 0.7, 1.4, "Hooper's K1, choice",
     [](Machine& m, double f) { m.plant.draw.valve_laminar_K1 *= f; }},
    {"wear of the bushings", 0.33, 3.0, "wear factors, within a factor of 10",
     [](Machine& m, double f) {
       both_bushings(m, &plant::BushingSpec::wear_dry_mm3_per_Nm, f);
       both_bushings(m, &plant::BushingSpec::wear_wet_mm3_per_Nm, f);
     }},
    {"probe's lag", 0.75, 1.5, "in a thermowell with paste, half after 15 .. 25 s (from memory)",
     [](Machine& m, double f) { m.plant.probe.tau_s *= f; }},
    {"life of the pump's vanes", 0.33, 3.0, "choice",
     [](Machine& m, double f) { m.plant.pump.vane_life_h *= f; }},
    {"life of the shaft's seal", 0.33, 3.0, "choice",
     [](Machine& m, double f) {
       m.plant.seal.life_h *= f;
       m.plant.seal.dry_life_h *= f;
     }},
    {"gap of a seal that is worn out", 0.5, 2.0, "choice",
     [](Machine& m, double f) { m.plant.seal.worn_gap_m *= f; }},
}};

}  // namespace

std::span<const UncertainConstant> uncertain_constants() { return constants; }

Machine drawn(const Machine& machine, std::uint64_t seed) {
  Machine out = machine;
  Random random{seed};
  for (const UncertainConstant& one : constants) {
    const double low = std::log(one.low);
    one.scale(out, std::exp(low + random.uniform() * (std::log(one.high) - low)));
  }
  return out;
}

}  // namespace stirbench::machine
