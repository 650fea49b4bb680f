#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "sim_core/faults/who.h"
#include "sim_core/plant/spec.h"
#include "sim_core/plant/state.h"

// What can be wrong with a machine, or with its use. A fault is content: a list of changes, each of one
// target by an amount. The machine's behaviour then follows from plant and circuit alone; nothing here says
// how a fault shows.
namespace stirbench::faults {

enum class FaultTarget : std::uint8_t {
  // Circuit. `at` names a wire, contact, winding or terminal.
  wire_Ohm,
  contact_open,
  contact_welded,
  contact_Ohm,
  resistance_factor,
  leak_Ohm,
  bridge_Ohm,
  dead,
  // Chiller (refrigeration::ChillerHealth).
  charge_norm,
  condenser_fouling_norm,
  fan_norm,
  valve_stuck_norm,
  compressor_leak_norm,
  restriction_norm,
  evaporator_fouling_norm,
  condenser_air_K,
  // Everything else that is not electrical (plant::Health).
  element_contact_norm,
  insulation_factor,
  lid_leak_factor,
  agitator_grip_norm,
  gear_drag_Nm,
  bushing_friction_factor,
  pump_norm,
  slip_factor,
  loop_loss_factor,
  air_leak_norm,
  draw_bore_norm,
  draw_leak_norm,
  overload_setting_norm,
  cutout_offset_K,
  probe_air_norm,
  probe_tau_factor,
  panel_offset_K,
  thickness_factor,
  pour_factor,
  pour_warm_K,
  soil_log10,
  rinse_norm,
  seal_gap_norm,
  // The state of things when the run begins; a person can put it right by hand.
  deposit_kg_per_m2,
  agitator_play_mm,
  shaft_end_play_mm,
  ambient_K,
  supply_factor,
  isolator_off,
  lid_open,
  cover_open,
  draw_open_norm,
  count
};

// The arguments of a target. `at`: "", "wire" (number), "contact" (its first terminal: "K1.1"), "winding"
// (part or terminal: "E1", "M1.U"), "terminal", "two terminals" ("K1.1 K1.3"), "part".
struct FaultTargetEntry {
  FaultTarget target = FaultTarget::count;
  std::string_view word;  // content's word
  std::string_view at;
  double low = 0.0;  // range of the value
  double high = 0.0;
  bool geometric =
      false;  // the value between the ends of a change is interpolated geometrically, else linearly
  std::string_view meaning;  // with its unit
};
std::span<const FaultTargetEntry> target_table();
const FaultTargetEntry& target_entry(FaultTarget target);

struct Change {
  FaultTarget target = FaultTarget::count;
  std::string at;
  double mild = 0.0;  // value at severity 0
  double full = 0.0;  // and at severity 1
};
double value_at(const Change& change, double severity);

enum class FaultKind : std::uint8_t { fault, misuse };  // misuse: nothing is broken; it was used wrongly

// One kind of fault, from its content file to the card: what it does to a machine, how often it comes, how it
// is repaired and by whom.
struct Fault {
  std::string id;
  std::string title;   // "Heating element 1 open"
  std::string system;  // heating, sensing, guards, drive, pump, chiller, control, supply, hygiene, use
  FaultKind kind = FaultKind::fault;
  std::vector<Change> changes;
  double severity_low = 1.0;  // range in which it occurs, 0 .. 1
  double severity_high = 1.0;
  double period_s = 0.0;  // intermittent: it is there for on_norm of each period; 0: always
  double on_norm = 1.0;
  std::string shows;        // how it shows itself, one or two sentences
  double per_year = 0.0;    // how often on one machine
  std::string rate_source;  // "common practice", "invented"
  std::string repair;       // what to do
  std::string verify;       // how to prove the repair
  std::string parts;        // parts needed, may be empty
  double repair_min = 0.0;  // hands-on, without isolating and covers
  double parts_min = 0.0;   // price of the parts, as minutes of work of the same cost
  AccessState repair_needs = AccessState::open_isolated;
  Who who = Who::technician;          // who may repair it
  std::vector<std::string> cautions;  // keys of content/text/cautions, for the repair
};

// Whether the changes fit the machine: every `at` exists in its circuit, every value in the target's range,
// no target twice at one place.
struct FaultProblem {
  std::string where;  // "/changes/0/at"
  std::string expected;
  std::string found;
};
std::vector<FaultProblem> fault_problems(const plant::MachineSpec& spec, const Fault& fault);

// Applies the fault at a severity of 0 .. 1, the state of things when the run begins included. Returns empty,
// or why it cannot: severity out of range, a place that this machine does not have, too many defects at once.
std::string apply(const plant::MachineSpec& spec, plant::PlantState& state, const Fault& fault,
                  double severity);

// Sets a fault in and keeps it in PlantState::faults, so that it can come and go or be mended. At most four.
// Severity above 0, at most 1. Empty, or why it cannot be.
std::string inject(const plant::MachineSpec& spec, plant::PlantState& state, const Fault& fault,
                   double severity);
// The same for a fault that an actions file, a lesson or a journal names by its id.
std::string inject(const plant::MachineSpec& spec, const std::vector<Fault>& known, plant::PlantState& state,
                   const std::string& id, double severity);
// Lets intermittent faults come and go. Called once a tick; does nothing while none is due.
void update_intermittent(const plant::MachineSpec& spec, const std::vector<Fault>& known,
                         plant::PlantState& state, double time_s);
// Removes one fault; the others stay. False when it was not there.
bool remove_fault(const plant::MachineSpec& spec, const std::vector<Fault>& known, plant::PlantState& state,
                  const std::string& id);
std::uint64_t fault_id_hash(std::string_view id);  // 64-bit FNV-1a of the id, never 0

// Restores everything that faults of content can change; what is worn or burned on is replaced or cleaned.
// The positions of isolator, lid, cover and valve stay.
void remove_all_faults(plant::PlantState& state);

// Whether an intermittent fault is present at this moment of the run.
bool is_present(const Fault& fault, double time_s);

}  // namespace stirbench::faults
