#pragma once

#include <string_view>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/state.h"

// Instruments on the simulated machine by name, as checks and lessons use them:
//   "meter:V~:E1.1:E1.2"  "meter:V=:A1.I1:A1.M"    multimeter on the machine as it stands [V]
//   "dead:Ohm:X2.1:X2.2"  "dead:continuity:A:B"    the same with the isolator off [Ohm]; continuity 1 sounds,
//                         0 does not
//   "unplugged:Ohm:B1.1:B1.2"                      the same with the wires off both terminals: the part alone
//   "insulation:E1.1:X5.1"                         insulation tester at 500 V, isolated [Ohm]
//   "clamp:54"                                     clamp meter around a wire, by its number [A]
//   "gauge:low_bar" high_bar low_degC high_degC superheat_K subcooling_K
//   "contact:suction_line"                         contact thermometer [degC], plant/instruments.h
//   "display:error_K" "display:off_K"              display less product, and its size [K]
//   "panel:controller"                             1 when the controller has its supply
//   "contactor:K1"                                 1 when it is in
//   "breaker:F1"                                   1 when it has tripped
// Values are exact: the caller adds the instrument's error. Over range reads 1e9.
namespace stirbench::signals {

using machine::Machine;

// Whether this machine has the instrument and the places that the name says.
bool knows_instrument(const Machine& machine, std::string_view name);
// Throws std::invalid_argument naming an unknown instrument or place.
double read_instrument(const Machine& machine, const machine::State& state, std::string_view name);

}  // namespace stirbench::signals
