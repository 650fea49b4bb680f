#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <set>

#include "sim_core/faults/fault.h"
#include "sim_core/plant/pace.h"

// From a target's word to the place in the state.
namespace stirbench::faults {

namespace {

using electrics::CircuitPartKind;
using electrics::Defect;
using electrics::DefectKind;
using electrics::Network;

bool is_electric(FaultTarget target) { return target <= FaultTarget::dead; }

// Number of the terminal within its part.
int within_part(const Network& network, int terminal) {
  return terminal - network.first[network.terminals[static_cast<std::size_t>(terminal)].part];
}

// A contact by its first terminal.
std::optional<Defect> contact(const Network& network, const std::string& at) {
  const int terminal = network.terminal(at);
  if (terminal < 0) return std::nullopt;
  const auto& owner = network.terminals[static_cast<std::size_t>(terminal)];
  const int k = within_part(network, terminal);
  int pole = -1;
  switch (network.parts[owner.part].kind) {
    case CircuitPartKind::isolator:
    case CircuitPartKind::breaker:
    case CircuitPartKind::guard: pole = k % 2 == 0 ? k / 2 : -1; break;
    case CircuitPartKind::contactor: pole = k >= 2 && k % 2 == 0 ? (k - 2) / 2 : -1; break;
    case CircuitPartKind::overload: pole = k % 2 == 0 ? k / 2 : -1; break;
    case CircuitPartKind::controller: pole = k >= 2 && k < 8 && k % 2 == 0 ? (k - 2) / 2 : -1; break;
    default: break;
  }
  if (pole < 0) return std::nullopt;
  return Defect{DefectKind::none, owner.part, static_cast<std::uint16_t>(pole), 0.0};
}

// A part that has one resistance, or one winding of a part that has several.
std::optional<Defect> winding(const Network& network, const std::string& at) {
  int part = network.part(at);
  int pole = 0;
  if (part < 0) {
    const int terminal = network.terminal(at);
    if (terminal < 0) return std::nullopt;
    part = network.terminals[static_cast<std::size_t>(terminal)].part;
    const int k = within_part(network, terminal);
    switch (network.parts[static_cast<std::size_t>(part)].kind) {
      case CircuitPartKind::motor: pole = k < 3 ? k : -1; break;
      case CircuitPartKind::transformer: pole = k / 2; break;
      case CircuitPartKind::controller: pole = k >= 10 && k < 16 ? k - 10 : -1; break;
      default: pole = -1; break;
    }
  } else {
    const CircuitPartKind kind = network.parts[static_cast<std::size_t>(part)].kind;
    const bool single = kind == CircuitPartKind::element || kind == CircuitPartKind::fan ||
                        kind == CircuitPartKind::contactor || kind == CircuitPartKind::pt100 ||
                        kind == CircuitPartKind::ntc;
    if (!single) return std::nullopt;
  }
  if (pole < 0) return std::nullopt;
  return Defect{DefectKind::resistance_factor, static_cast<std::uint16_t>(part),
                static_cast<std::uint16_t>(pole), 0.0};
}

std::optional<Defect> by_number(const Network& network, const std::string& at) {
  int number = 0;
  for (const char c : at) {
    if (c < '0' || c > '9' || number > 9999) return std::nullopt;
    number = 10 * number + (c - '0');
  }
  const int wire = at.empty() ? -1 : network.wire(number);
  if (wire < 0) return std::nullopt;
  return Defect{DefectKind::wire_Ohm, static_cast<std::uint16_t>(wire), 0, 0.0};
}

std::optional<Defect> two_terminals(const Network& network, const std::string& at) {
  const std::size_t space = at.find(' ');
  if (space == std::string::npos) return std::nullopt;
  const int a = network.terminal(at.substr(0, space));
  const int b = network.terminal(at.substr(space + 1));
  if (a < 0 || b < 0 || a == b) return std::nullopt;
  return Defect{DefectKind::bridge_Ohm, static_cast<std::uint16_t>(a), static_cast<std::uint16_t>(b), 0.0};
}

// The defect that a change of the circuit is; nothing when the place does not exist.
std::optional<Defect> defect_of(const Network& network, const Change& change, double value) {
  std::optional<Defect> out;
  switch (change.target) {
    case FaultTarget::wire_Ohm: out = by_number(network, change.at); break;
    case FaultTarget::contact_open:
    case FaultTarget::contact_welded:
    case FaultTarget::contact_Ohm:
      out = contact(network, change.at);
      if (out) {
        out->kind = change.target == FaultTarget::contact_open     ? DefectKind::stuck_open
                    : change.target == FaultTarget::contact_welded ? DefectKind::stuck_closed
                                                                   : DefectKind::contact_Ohm;
      }
      break;
    case FaultTarget::resistance_factor: out = winding(network, change.at); break;
    case FaultTarget::leak_Ohm: {
      const int terminal = network.terminal(change.at);
      if (terminal >= 0) out = Defect{DefectKind::leak_Ohm, static_cast<std::uint16_t>(terminal), 0, 0.0};
      break;
    }
    case FaultTarget::bridge_Ohm: out = two_terminals(network, change.at); break;
    case FaultTarget::dead: {
      const int part = network.part(change.at);
      if (part >= 0 && network.parts[static_cast<std::size_t>(part)].kind == CircuitPartKind::controller)
        out = Defect{DefectKind::dead, static_cast<std::uint16_t>(part), 0, 0.0};
      break;
    }
    default: break;
  }
  if (out) out->value = value;
  return out;
}

// Where the value of a mechanical target lives; nullptr for those that need more than setting a number.
double* place_of(plant::PlantState& s, FaultTarget target) {
  refrigeration::ChillerHealth& c = s.chiller.health;
  plant::Health& m = s.health;
  switch (target) {
    case FaultTarget::charge_norm: return &c.charge_norm;
    case FaultTarget::condenser_fouling_norm: return &c.condenser_fouling_norm;
    case FaultTarget::fan_norm: return &c.fan_norm;
    case FaultTarget::valve_stuck_norm: return &c.valve_stuck_norm;
    case FaultTarget::compressor_leak_norm: return &c.compressor_leak_norm;
    case FaultTarget::restriction_norm: return &c.restriction_norm;
    case FaultTarget::evaporator_fouling_norm: return &c.evaporator_fouling_norm;
    case FaultTarget::condenser_air_K: return &m.condenser_air_K;
    case FaultTarget::element_contact_norm: return &m.element_contact_norm;
    case FaultTarget::insulation_factor: return &m.insulation_factor;
    case FaultTarget::lid_leak_factor: return &m.lid_leak_factor;
    case FaultTarget::agitator_grip_norm: return &m.agitator_grip_norm;
    case FaultTarget::gear_drag_Nm: return &m.gear_drag_Nm;
    case FaultTarget::bushing_friction_factor: return &m.bushing_friction_factor;
    case FaultTarget::pump_norm: return &m.pump_norm;
    case FaultTarget::slip_factor: return &m.slip_factor;
    case FaultTarget::loop_loss_factor: return &m.loop_loss_factor;
    case FaultTarget::air_leak_norm: return &m.air_leak_norm;
    case FaultTarget::draw_bore_norm: return &m.draw_bore_norm;
    case FaultTarget::draw_leak_norm: return &m.draw_leak_norm;
    case FaultTarget::overload_setting_norm: return &m.overload_setting_norm;
    case FaultTarget::cutout_offset_K: return &m.cutout_offset_K;
    case FaultTarget::probe_air_norm: return &m.probe_air_norm;
    case FaultTarget::probe_tau_factor: return &m.probe_tau_factor;
    case FaultTarget::panel_offset_K: return &m.panel_offset_K;
    case FaultTarget::thickness_factor: return &m.thickness_factor;
    case FaultTarget::pour_factor: return &m.pour_factor;
    case FaultTarget::pour_warm_K: return &m.pour_warm_K;
    case FaultTarget::soil_log10: return &m.soil_log10;
    case FaultTarget::rinse_norm: return &m.rinse_norm;
    case FaultTarget::seal_gap_norm: return &m.seal_gap_norm;
    case FaultTarget::deposit_kg_per_m2: return &s.deposit_kg_per_m2;
    case FaultTarget::agitator_play_mm: return &s.agitator_bushing.play_mm;
    case FaultTarget::shaft_end_play_mm: return &s.shaft_end_bushing.play_mm;
    case FaultTarget::draw_open_norm: return &s.fittings.draw_opening_norm;
    default: return nullptr;
  }
}

void set_other(plant::PlantState& s, FaultTarget target, double value) {
  switch (target) {
    case FaultTarget::ambient_K: s.environment.ambient_degC += value; break;
    case FaultTarget::supply_factor: s.environment.supply_norm *= value; break;
    case FaultTarget::isolator_off: s.fittings.isolator_on = false; break;
    case FaultTarget::lid_open: s.fittings.lid_open = true; break;
    case FaultTarget::cover_open: s.fittings.shaft_cover_open = true; break;
    default: break;
  }
}

std::string range_words(const FaultTargetEntry& entry) { return std::string(entry.word) + " in its range"; }

}  // namespace

std::vector<FaultProblem> fault_problems(const plant::MachineSpec& spec, const Fault& fault) {
  std::vector<FaultProblem> out;
  std::set<std::pair<FaultTarget, std::string>> seen;
  for (std::size_t i = 0; i < fault.changes.size(); ++i) {
    const Change& change = fault.changes[i];
    const std::string here = "/changes/" + std::to_string(i);
    const FaultTargetEntry& entry = target_entry(change.target);
    if (!seen.insert({change.target, change.at}).second)
      out.push_back({here, "each target once at one place", std::string(entry.word) + " again"});
    for (const auto& [key, value] : {std::pair{"/mild", change.mild}, {"/full", change.full}}) {
      if (!(value >= entry.low && value <= entry.high))
        out.push_back({here + key, range_words(entry), std::to_string(value)});
    }
    if (entry.at.empty()) {
      if (!change.at.empty())
        out.push_back({here + "/at", "nothing for " + std::string(entry.word), "\"" + change.at + "\""});
    } else if (!spec.circuit.empty() && !defect_of(spec.circuit, change, 1.0)) {
      out.push_back({here + "/at", "a " + std::string(entry.at) + " of the circuit of " + spec.id,
                     "\"" + change.at + "\""});
    }
  }
  return out;
}

std::string apply(const plant::MachineSpec& spec, plant::PlantState& state, const Fault& fault,
                  double severity) {
  if (!(severity >= 0.0 && severity <= 1.0))
    return fault.id + ": a severity in 0 .. 1 is expected, found " + std::to_string(severity);
  for (const Change& change : fault.changes) {
    const double value = value_at(change, severity);
    if (is_electric(change.target)) {
      const auto defect = defect_of(spec.circuit, change, value);
      if (!defect) return fault.id + ": this machine has no place \"" + change.at + "\"";
      if (!state.circuit.gear.add(*defect)) return fault.id + ": too many defects at once";
    } else if (double* place = place_of(state, change.target)) {
      *place = value;
    } else {
      set_other(state, change.target, value);
    }
  }
  plant::invalidate_pace(state);
  state.circuit.seen_bits = plant::CircuitState::nothing_seen;
  return "";
}

}  // namespace stirbench::faults
