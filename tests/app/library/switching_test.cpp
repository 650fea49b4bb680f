#include <doctest/doctest.h>

#include <map>

#include "sim_core/electrics/solve.h"
#include "sim_core/explore/explore.h"
#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/plant.h"
#include "tests/app/library/scratch.h"

// One wiring, said once: what the solved circuits of both machines do for every combination of their
// switches, and what falls when they are wired otherwise.
using namespace stirbench;
namespace w = stirbench::electrics;
namespace ex = stirbench::explore;

namespace {

using S = w::Switch;

std::uint64_t all_in(const w::Network& network) {
  std::uint64_t in = 0;
  for (std::size_t i = 0; i < network.parts.size(); ++i) {
    const w::CircuitPartKind kind = network.parts[i].kind;
    if (kind == w::CircuitPartKind::contactor || kind == w::CircuitPartKind::controller)
      in |= std::uint64_t{1} << i;
  }
  return in;
}

struct Tally {
  std::uint64_t combinations = 0, powered = 0, wrong = 0, restless = 0, tripped = 0;
  std::uint32_t first_wrong = 0;
};

// Solves the circuit for every combination of its switches, with relays as `start` left them, and compares
// each answer with the chain's.
void compare(const plant::MachineSpec& spec, double supply_norm, std::uint64_t start, Tally& tally) {
  w::CircuitInputs now = plant::circuit_inputs(spec, plant::initial_state(spec, {}), {});
  now.supply_norm = supply_norm;
  for (std::uint32_t bits = 0; bits < w::switch_combinations; ++bits) {
    now.switches.bits = bits;
    w::Switchgear gear;
    gear.pulled_in = start;
    const w::CircuitOutputs supplied = w::settle_relays(spec.circuit, now, gear);
    const w::Switched chain = w::switching_chain(now.switches, supply_norm > 0.0);
    const bool right = w::switched(supplied) == chain && supplied.heat_norm == (chain.heat ? 1.0 : 0.0);
    if (!right && tally.wrong == 0) tally.first_wrong = bits;
    tally.wrong += right ? 0 : 1;
    tally.restless += supplied.settled ? 0 : 1;
    tally.tripped += gear.tripped != 0 ? 1 : 0;
    tally.powered += chain.heat || chain.drive || chain.chill ? 1 : 0;
    ++tally.combinations;
  }
}

// One way in which the parts themselves can stand: 19 things, each one way or the other.
struct Parts {
  plant::PlantState state;
  plant::LoadCommands wanted;
  bool supply = false;
};
constexpr unsigned part_count = 19;

bool stand(Parts& parts, std::uint32_t way) {
  unsigned at = 0;
  const auto next = [&] { return (way >> at++ & 1U) != 0; };
  plant::SafetyParts& safety = parts.state.safety;
  for (bool* one :
       {&parts.state.fittings.isolator_on, &parts.state.fittings.lid_open,
        &parts.state.fittings.shaft_cover_open, &parts.state.cutout_tripped, &parts.state.overload_tripped,
        &parts.state.pressure_tripped, &safety.emergency_stop_in, &safety.lid_switch_closed,
        &safety.cover_switch_closed, &safety.guard_wire_broken, &safety.drive_welded, &safety.heat_welded,
        &safety.chill_welded, &safety.emergency_contactor_welded, &safety.emergency_contact_closed,
        &parts.wanted.heat, &parts.wanted.drive, &parts.wanted.chill, &parts.supply}) {
    *one = next();
  }
  return at == part_count;
}

// What has to be so, said of the parts and not of switches; empty, or what is not.
std::string broken_promise(const Parts& parts, const w::Switched& on) {
  const plant::PlantState& s = parts.state;
  const plant::SafetyParts& p = s.safety;
  const bool fed = s.fittings.isolator_on && parts.supply;
  const bool any = on.heat || on.drive || on.chill;
  const bool lid_seen_open = p.guard_wire_broken || (s.fittings.lid_open && !p.lid_switch_closed);
  const bool cover_seen_open = p.guard_wire_broken || (s.fittings.shaft_cover_open && !p.cover_switch_closed);
  if (on.controller_on != fed) return "the controller is on exactly while it is fed";
  if (any && !fed) return "no power without supply";
  if (any && p.emergency_stop_in && !p.emergency_contact_closed && !p.emergency_contactor_welded)
    return "the emergency stop cuts all";
  if (on.drive && (lid_seen_open || cover_seen_open) && !p.drive_welded)
    return "an open guard takes the drive";
  if (on.heat && (lid_seen_open || cover_seen_open) && !p.heat_welded) return "an open guard takes the heat";
  if (on.drive && s.overload_tripped && !p.drive_welded) return "the overload relay takes the drive";
  if (on.heat && s.cutout_tripped) return "the cut-out takes the heat";
  if (on.chill && s.pressure_tripped) return "the pressure switch takes the compressor";
  if (on.heat && !on.drive && !p.heat_welded) return "no heat without the drive";
  if ((on.heat && !parts.wanted.heat && !p.heat_welded) ||
      (on.drive && !parts.wanted.drive && !p.drive_welded) ||
      (on.chill && !parts.wanted.chill && !p.chill_welded))
    return "nothing unasked";
  if (fed && (on.input(w::Input::lid_closed) == lid_seen_open ||
              on.input(w::Input::shaft_cover_closed) == cover_seen_open))
    return "the controller sees the guards";
  const bool right = fed && !lid_seen_open && !cover_seen_open && !s.cutout_tripped && !s.overload_tripped &&
                     !s.pressure_tripped && !p.emergency_stop_in && parts.wanted.heat && parts.wanted.drive &&
                     parts.wanted.chill;
  if (right && !(on.heat && on.drive && on.chill)) return "with all right and all wanted all has power";
  return {};
}

}  // namespace

TEST_CASE(
    "circuit and chain agree for every combination of the switches, with and without supply, from relays all "
    "out and all in") {
  // The two ends that relays can start from; every start between them: tests/bench/wiring.cpp.
  for (const auto& [id, machine] : library_test::shipped().machines) {
    CAPTURE(id);
    Tally tally;
    for (const double supply_norm : {1.0, 0.0}) {
      for (const std::uint64_t start : {std::uint64_t{0}, all_in(machine.circuit)})
        compare(machine, supply_norm, start, tally);
    }
    CHECK(tally.combinations == 4 * w::switch_combinations);
    CAPTURE(tally.first_wrong);
    CHECK(tally.wrong == 0);
    CHECK(tally.restless == 0);
    CHECK(tally.tripped == 0);
    CHECK(tally.powered > 1000);
    MESSAGE(id << ": " << tally.combinations << " combinations solved (" << w::switch_combinations
               << " of the switches, with and without supply, relays out and in), " << tally.powered
               << " of them with power at a load");
  }
}

TEST_CASE("every way the safety parts can stand keeps what the wiring promises") {
  for (const auto& [id, machine] : library_test::shipped().machines) {
    CAPTURE(id);
    w::SwitchingTable table = plant::switching_table(machine);
    Parts parts;
    std::map<std::string, int> broken;
    for (std::uint32_t way = 0; way < std::uint32_t{1} << part_count; ++way) {
      if (!stand(parts, way)) ++broken["nineteen things are one way or the other"];
      const w::Switches switches = plant::switches_of(parts.state, parts.wanted);
      // Without supply: the chain, which the test above compares with the dead circuit.
      const w::Switched on = parts.supply ? table.of(switches) : w::switching_chain(switches, false);
      const std::string promise = broken_promise(parts, on);
      if (!promise.empty()) ++broken[promise];
    }
    for (const auto& [promise, times] : broken) {
      INFO(promise << ": " << times << " times not kept");
      CHECK(times == 0);
    }
    MESSAGE(id << ": " << (std::uint32_t{1} << part_count) << " ways of the parts, " << table.solved()
               << " combinations of the switches");
  }
}

TEST_CASE("a machine wired otherwise: for each safeguard taken away some invariant falls") {
  // The mutation table of the wiring: test output with -s.
  const std::map<ex::WiringChange, const char*> falls = {
      {ex::WiringChange::lid_contact_bridged, "guard_wiring_alone"},
      {ex::WiringChange::cover_contact_bridged, "guard_wiring_alone"},
      {ex::WiringChange::guards_left_out_of_drive, "guard_wiring_alone"},
      {ex::WiringChange::guards_left_out_of_heat, "guard_wiring_alone"},
      {ex::WiringChange::emergency_contact_bridged, "emergency_wiring_alone"},
      {ex::WiringChange::emergency_contactor_bridged, "emergency_wiring_alone"},
      {ex::WiringChange::isolator_bridged, "supply_wiring_alone"},
      {ex::WiringChange::overload_contact_bridged, "protection_wiring_alone"},
      {ex::WiringChange::cutout_line_bridged, "protection_wiring_alone"},
      {ex::WiringChange::pressure_line_bridged, "protection_wiring_alone"},
      {ex::WiringChange::drive_auxiliary_bridged, "heat_wiring_alone"},
      {ex::WiringChange::lid_input_bridged, "controller_lets_go"},
      {ex::WiringChange::cover_input_bridged, "controller_lets_go"},
      {ex::WiringChange::emergency_input_bridged, "controller_lets_go"},
      {ex::WiringChange::cutout_input_bridged, "controller_lets_go"},
      {ex::WiringChange::pressure_input_bridged, "controller_lets_go"},
      {ex::WiringChange::overload_input_open, "controller_lets_go"},
  };
  CHECK(falls.size() == ex::wiring_change_count - 1);
  for (const char* id : {"hm-20", "hm-45"}) {
    const machine::Machine machine = library_test::shipped().machine(id);
    for (const auto& [change, expected] : falls) {
      CAPTURE(std::string(ex::wiring_change_name(change)));
      ex::ExplorationRequest question;
      question.change = change;
      question.stop_at_first = true;
      question.scope = {.recipe = false, .fingers = 1};
      const ex::ExplorationResult answer = ex::explore(machine, question);
      CHECK_FALSE(answer.holds(static_cast<explore::Invariant>(explore::find_invariant(expected))));
      std::string fallen;
      for (std::size_t i = 0; i < explore::invariant_count; ++i) {
        const auto invariant = static_cast<explore::Invariant>(i);
        if (!answer.holds(invariant)) fallen += " " + std::string(explore::invariant_id(invariant));
      }
      MESSAGE(std::string(id) << ", " << ex::wiring_change_name(change) << ":" << fallen);
    }
  }
  // A change without a place is said, not passed over.
  CHECK_THROWS_AS(ex::wired_otherwise({}, ex::WiringChange::lid_contact_bridged), std::invalid_argument);
}
