#pragma once

#include <string>
#include <vector>

#include "sim_core/machine/machine.h"
#include "sim_core/machine/start.h"
#include "sim_core/machine/state.h"

// Parts as somebody left them: what a session may begin with.
namespace stirbench::hands {

// How a part may have been left: missing (on the tray), cracked, worn, dry, other, soiled, swapped (both
// O-rings); what people move: open, shut, ajar, off, on, pressed, out.
const std::vector<std::string>& part_states();
// What can be left so: the places of the assembly, the hose's gasket, and lid, shaft_cover (open, shut),
// draw_handle (ajar, shut), isolator (off, on), emergency_stop (pressed, out).
const std::vector<std::string>& left_parts();
// Empty, or what is wrong.
std::string set_part(const machine::Machine& machine, machine::State& state, const std::string& part,
                     const std::string& how);

// For the journal's header: "oring_front:dry,sleeve_cap:missing".
std::string parts_text(const std::vector<machine::StartSetup::Part>& parts);
bool read_parts(const std::string& text, std::vector<machine::StartSetup::Part>& out);

}  // namespace stirbench::hands
