#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim_core/bench/hands.h"
#include "sim_core/bench/start.h"

// Hands on the transfer hose, washing the machine, wear service.
namespace stirbench::bench {

bool is_service_work(ActionKind kind);
std::string why_not_service_work(const Machine& machine, const State& state, const Action& action);
// Returns what eyes and hands learn by it, in words.
std::string do_service_work(const Machine& machine, State& state, const Action& action);

// hose_hands.cpp
std::string why_not_hose_work(const State& state, const Action& action);
void do_hose_work(const Machine& machine, State& state, const Action& action);
void put_hose_on(plant::PlantState& plant, std::string_view to, bool clamped);
void take_hose_off(const Machine& machine, plant::PlantState& plant);

// assembly_hands.cpp: the vat's parts are reached through the open lid, and nobody reaches beside a turning shaft.
std::string why_not_reach(const Machine& machine, const State& state, plant::PartId part);

// Whether the wash bucket holds cleaner as strong as a label asks for.
bool bucket_cleans(const Machine& machine, const Bucket& bucket);

// Parts as a session begins with them. States: missing (on the tray), cracked, worn, dry, other, soiled, swapped (both O-rings). Empty, or what is wrong.
std::string set_part(const Machine& machine, State& state, const std::string& part, const std::string& how);
const std::vector<std::string>& part_states();
// For the journal's header: "oring_front:dry,sleeve_cap:missing".
std::string parts_text(const std::vector<StartSetup::Part>& parts);
bool read_parts(const std::string& text, std::vector<StartSetup::Part>& out);

}  // namespace stirbench::bench
