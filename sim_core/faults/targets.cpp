#include <array>
#include <cmath>

#include "sim_core/faults/fault.h"

// The catalogue of what a fault can change.
namespace stirbench::faults {

namespace {

using T = FaultTarget;

constexpr std::array<FaultTargetEntry, static_cast<std::size_t>(FaultTarget::count)> table{{
    {T::wire_Ohm, "wire_Ohm", "wire", 0.001, 1.0e12, true,
     "Resistance of a wire and its joints [Ohm]; from 1e9 on it is broken."},
    {T::contact_open, "contact_open", "contact", 1.0, 1.0, false, "A contact that does not close."},
    {T::contact_welded, "contact_welded", "contact", 1.0, 1.0, false, "A contact that does not open."},
    {T::contact_Ohm, "contact_Ohm", "contact", 0.001, 1.0e6, true,
     "Resistance of a contact when it is closed [Ohm]."},
    {T::resistance_factor, "resistance_factor", "winding", 1.0e-3, 1.0e12, true,
     "Resistance of an element, winding, coil or sensor over what it should be; from 1e6 on it is broken."},
    {T::leak_Ohm, "leak_Ohm", "terminal", 0.01, 1.0e9, true, "Resistance from a terminal to earth [Ohm]."},
    {T::bridge_Ohm, "bridge_Ohm", "two terminals", 0.001, 1.0e9, true,
     "Resistance between two terminals [Ohm]."},
    {T::dead, "dead", "part", 1.0, 1.0, false, "A controller without function."},
    {T::charge_norm, "charge_norm", "", 0.0, 2.0, false, "Refrigerant over the right charge."},
    {T::condenser_fouling_norm, "condenser_fouling_norm", "", 0.0, 1.0, false,
     "Condenser: 0 clean .. 1 clogged."},
    {T::fan_norm, "fan_norm", "", 0.0, 1.0, false, "Air of the condenser's fan over the right flow."},
    {T::valve_stuck_norm, "valve_stuck_norm", "", 0.0, 1.0, false, "Expansion valve stuck at this opening."},
    {T::compressor_leak_norm, "compressor_leak_norm", "", 0.0, 0.95, false,
     "Share of the gas that leaks back in the compressor."},
    {T::restriction_norm, "restriction_norm", "", 0.0, 0.999, false,
     "Share of the liquid line that is closed."},
    {T::evaporator_fouling_norm, "evaporator_fouling_norm", "", 0.0, 0.95, false,
     "Share of the evaporator's film that is lost."},
    {T::condenser_air_K, "condenser_air_K", "", 0.0, 30.0, false,
     "Air onto the condenser warmer than the room [K]."},
    {T::element_contact_norm, "element_contact_norm", "", 0.05, 1.0, false,
     "Heat path from the elements to the well's wall over the right one."},
    {T::insulation_factor, "insulation_factor", "", 1.0, 30.0, false,
     "Heat lost through the insulation over the right loss."},
    {T::lid_leak_factor, "lid_leak_factor", "", 1.0, 12.0, false,
     "Vapour that passes the closed lid over the right leak."},
    {T::agitator_grip_norm, "agitator_grip_norm", "", 0.0, 1.0, false,
     "Share of the shaft's turning that the agitator takes."},
    {T::gear_drag_Nm, "gear_drag_Nm", "", 0.0, 400.0, false,
     "Friction at the agitator's shaft on top of the right one [N m]."},
    {T::bushing_friction_factor, "bushing_friction_factor", "", 1.0, 60.0, false,
     "Friction of both bushings over the right one."},
    {T::pump_norm, "pump_norm", "", 0.0, 1.0, false,
     "What the circulation pump moves in a turn over the right volume."},
    {T::slip_factor, "slip_factor", "", 1.0, 100.0, true,
     "Back flow past the pump's vanes over the right one."},
    {T::loop_loss_factor, "loop_loss_factor", "", 1.0, 1000.0, true,
     "Resistance of the circulation loop over the right one."},
    {T::air_leak_norm, "air_leak_norm", "", 0.0, 1.0, false,
     "Share of the pump's flow that is air drawn in."},
    {T::draw_bore_norm, "draw_bore_norm", "", 0.01, 1.0, false,
     "Free area of the draw valve over the right one."},
    {T::draw_leak_norm, "draw_leak_norm", "", 0.0, 0.2, false,
     "Free area of the draw valve when it is shut, over the open one."},
    {T::overload_setting_norm, "overload_setting_norm", "", 0.3, 2.0, false,
     "Overload relay's setting over the right one."},
    {T::cutout_offset_K, "cutout_offset_K", "", -120.0, 60.0, false,
     "Heater cut-out trips so much above the right temperature [K]."},
    {T::probe_air_norm, "probe_air_norm", "", 0.0, 1.0, false,
     "Share of the room's air in what the product probe feels."},
    {T::probe_tau_factor, "probe_tau_factor", "", 1.0, 60.0, true,
     "Time constant of the product probe over the right one."},
    {T::panel_offset_K, "panel_offset_K", "", -20.0, 20.0, false,
     "The controller reads so much too high [K]."},
    {T::thickness_factor, "thickness_factor", "", 0.2, 50.0, true,
     "Consistency of the product over that of the recipe."},
    {T::pour_factor, "pour_factor", "", 0.1, 2.5, false, "Mass of each pour over what was meant."},
    {T::pour_warm_K, "pour_warm_K", "", -10.0, 40.0, false, "Each pour warmer than it was meant to be [K]."},
    {T::soil_log10, "soil_log10", "", 0.0, 6.0, false,
     "Growth that old product left behind has ahead of the fresh one [log10]."},
    {T::rinse_norm, "rinse_norm", "", 0.0, 1.0, false, "Flow of the rinse gun over the right one."},
    {T::seal_gap_norm, "seal_gap_norm", "", 0.0, 3.0, false,
     "Gap of the shaft's seal over that of one that is worn out."},
    {T::deposit_kg_per_m2, "deposit_kg_per_m2", "", 0.0, 2.0, false,
     "Burnt deposit on the heated wall at the start [kg/m2]."},
    {T::agitator_play_mm, "agitator_play_mm", "", 0.0, 3.0, false,
     "Play of the agitator's bushing at the start [mm]."},
    {T::shaft_end_play_mm, "shaft_end_play_mm", "", 0.0, 3.0, false,
     "Play of the shaft end's bushing at the start [mm]."},
    {T::ambient_K, "ambient_K", "", -15.0, 25.0, false, "The room warmer than stated [K]."},
    {T::supply_factor, "supply_factor", "", 0.0, 1.2, false, "Supply voltage over the stated one."},
    {T::isolator_off, "isolator_off", "", 1.0, 1.0, false, "The isolator is off."},
    {T::lid_open, "lid_open", "", 1.0, 1.0, false, "The lid is open."},
    {T::cover_open, "cover_open", "", 1.0, 1.0, false, "The shaft cover is open."},
    {T::draw_open_norm, "draw_open_norm", "", 0.0, 1.0, false, "The draw valve is open so far."},
}};

}  // namespace

std::span<const FaultTargetEntry> target_table() { return table; }

const FaultTargetEntry& target_entry(FaultTarget target) { return table[static_cast<std::size_t>(target)]; }

double value_at(const Change& change, double severity) {
  if (severity >= 1.0) return change.full;
  if (severity <= 0.0) return change.mild;
  if (!target_entry(change.target).geometric) return change.mild + severity * (change.full - change.mild);
  return change.mild * std::pow(change.full / change.mild, severity);
}

bool is_present(const Fault& fault, double time_s) {
  if (!(fault.period_s > 0.0)) return true;
  // Never in the first part of a period: a fault that comes and goes lets a machine start.
  const double phase = std::fmod(time_s, fault.period_s) / fault.period_s;
  return phase >= 1.0 - fault.on_norm;
}

}  // namespace stirbench::faults
