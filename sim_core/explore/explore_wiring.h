#pragma once

#include <cstdint>
#include <string_view>

#include "sim_core/electrics/circuit_state.h"

// Things wired otherwise than the drawing says, for the mutation table: each takes one safeguard of the
// wiring away. They find their place by the parts' kinds and roles and by what is joined to the controller's
// terminals, so they fit every machine's circuit.
namespace stirbench::explore {

enum class WiringChange : std::uint8_t {
  none,
  // A contact bridged that the coils' chain or a load's line needs.
  lid_contact_bridged,
  cover_contact_bridged,
  emergency_contact_bridged,
  emergency_contactor_bridged,
  isolator_bridged,
  overload_contact_bridged,
  cutout_line_bridged,
  pressure_line_bridged,
  drive_auxiliary_bridged,
  // A wire moved: the controller's output fed from before the guards.
  guards_left_out_of_drive,
  guards_left_out_of_heat,
  // A contact that only the controller reads: bridged, or (overload) never closing.
  lid_input_bridged,
  cover_input_bridged,
  emergency_input_bridged,
  cutout_input_bridged,
  pressure_input_bridged,
  overload_input_open,
  count
};
inline constexpr std::size_t wiring_change_count = static_cast<std::size_t>(WiringChange::count);
std::string_view wiring_change_name(WiringChange change);  // "lid_contact_bridged"

struct WiredOtherwise {
  electrics::Network network;
  electrics::Switchgear gear;  // bridged contacts, as defects
};
// Throws std::invalid_argument when the circuit has no such place (or there is no circuit): a change that
// changes nothing proves nothing.
WiredOtherwise wired_otherwise(const electrics::Network& network, WiringChange change);

}  // namespace stirbench::explore
