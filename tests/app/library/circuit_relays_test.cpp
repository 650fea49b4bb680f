#include <doctest/doctest.h>

#include "sim_core/bench/random.h"
#include "sim_core/control/controller.h"
#include "sim_core/plant/circuit_link.h"
#include "sim_core/plant/plant.h"
#include "tests/app/library/scratch.h"

// Two descriptions of one wiring: the short one that the exploration walks (control::relays), and the circuit that is solved. They have to agree
// wherever the safety parts, the switches and the controller's outputs may stand.
using namespace stirbench;

TEST_CASE("the solved circuit lets through what the short chain says, and shows the controller the same inputs") {
  for (const auto& [id, machine] : library_test::shipped().machines) {
    bench::Random random{7};
    plant::PlantState state = plant::initial_state(machine, {});
    int fed = 0;
    for (int i = 0; i < 1500; ++i) {
      const std::uint64_t word = random.next();
      const auto bit = [word](unsigned n) { return (word >> n & 1U) != 0; };
      const auto rarely = [word](unsigned n) { return (word >> n & 7U) == 0; };
      const control::Outputs outputs{bit(0) ? 1.0 : 0.0, bit(1), bit(2)};
      state.fittings.isolator_on = !rarely(3);
      state.fittings.lid_open = rarely(6);
      state.fittings.shaft_cover_open = rarely(9);
      state.cutout_tripped = rarely(12);
      state.overload_tripped = rarely(15);
      state.pressure_tripped = rarely(18);
      plant::SafetyParts& parts = state.safety;
      parts = {};
      parts.emergency_stop_in = rarely(21);
      parts.lid_switch_closed = rarely(24);
      parts.cover_switch_closed = rarely(27);
      parts.guard_wire_broken = rarely(30);
      parts.drive_welded = rarely(33);
      parts.heat_welded = rarely(36);
      parts.chill_welded = rarely(39);
      parts.emergency_contactor_welded = rarely(42);
      parts.emergency_contact_closed = rarely(45);
      const plant::Readings plain = plant::read_sensors(machine, state);
      plant::follow_circuit(machine, state, {outputs.heat_norm > 0.0, outputs.drive, outputs.chill});
      plant::Readings wired = plain;
      plant::read_circuit(machine, state, wired);
      CAPTURE(i);
      CHECK(wired.supply_on == plain.supply_on);
      if (plain.supply_on) {
        CHECK(wired.lid_closed == plain.lid_closed);
        CHECK(wired.shaft_cover_closed == plain.shaft_cover_closed);
        CHECK(wired.emergency_stop_in == plain.emergency_stop_in);
        CHECK(wired.overload_tripped == plain.overload_tripped);
        CHECK(wired.cutout_tripped == plain.cutout_tripped);
        CHECK(wired.pressure_tripped == plain.pressure_tripped);
      }
      const plant::Actuators chain = control::relays(outputs, plain, state.fittings, parts);
      const plant::Actuators circuit = plant::circuit_actuators(machine, state);
      CHECK(circuit.heat_norm == chain.heat_norm);
      CHECK(circuit.drive_on == chain.drive_on);
      CHECK(circuit.chiller_on == chain.chiller_on);
      fed += chain.heat_norm > 0.0 ? 1 : 0;
    }
    CHECK(fed > 50);
  }
}
