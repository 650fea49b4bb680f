#include <doctest/doctest.h>

#include <cmath>
#include <set>

#include "sim_core/faults/fault.h"
#include "sim_core/plant/plant.h"
#include "tests/support/hm45_spec.h"

// The catalogue of targets, on a machine without a circuit.
using namespace stirbench;

TEST_CASE(
    "every target of the catalogue is at its own place, and apart from the circuit's each changes the "
    "state") {
  std::set<std::string> words;
  const plant::MachineSpec spec = tests::hm45_spec();
  for (std::size_t i = 0; i < faults::target_table().size(); ++i) {
    const faults::FaultTargetEntry& entry = faults::target_table()[i];
    CHECK(static_cast<std::size_t>(entry.target) == i);
    CHECK(words.insert(std::string(entry.word)).second);
    CHECK(entry.low <= entry.high);
    if (!entry.at.empty()) continue;
    faults::Fault fault;
    fault.id = "one";
    fault.changes = {{entry.target, "", entry.low, entry.high}};
    CHECK(faults::fault_problems(spec, fault).empty());
    plant::PlantState state = plant::initial_state(spec, {});
    const plant::PlantState before = state;
    for (const double severity : {1.0, 0.01}) CHECK(faults::apply(spec, state, fault, severity) == "");
    const auto* a = reinterpret_cast<const unsigned char*>(&before.health);
    const auto* b = reinterpret_cast<const unsigned char*>(&state.health);
    const bool health = !std::equal(a, a + sizeof(plant::Health), b);
    const refrigeration::ChillerHealth& c = state.chiller.health;
    const refrigeration::ChillerHealth& d = before.chiller.health;
    const bool chiller =
        c.charge_norm != d.charge_norm || c.condenser_fouling_norm != d.condenser_fouling_norm ||
        c.fan_norm != d.fan_norm || c.valve_stuck_norm != d.valve_stuck_norm ||
        c.compressor_leak_norm != d.compressor_leak_norm || c.restriction_norm != d.restriction_norm ||
        c.evaporator_fouling_norm != d.evaporator_fouling_norm;
    const plant::Fittings& f = state.fittings;
    const bool other = !f.isolator_on || f.lid_open || f.shaft_cover_open || f.draw_opening_norm > 0.0 ||
                       state.environment.ambient_degC != before.environment.ambient_degC ||
                       state.environment.supply_norm != 1.0 || state.deposit_kg_per_m2 > 0.0 ||
                       state.agitator_bushing.play_mm > 0.0 || state.shaft_end_bushing.play_mm > 0.0;
    CAPTURE(entry.word);
    CHECK((health || chiller || other));
  }
}

TEST_CASE("severity: by steps or by factors, ends exact; refused outside 0 .. 1; unknown places are named") {
  const faults::Change step{faults::FaultTarget::gear_drag_Nm, "", 10.0, 30.0};
  CHECK(faults::value_at(step, 0.0) == 10.0);
  CHECK(faults::value_at(step, 0.5) == 20.0);
  CHECK(faults::value_at(step, 1.0) == 30.0);
  const faults::Change factor{faults::FaultTarget::slip_factor, "", 4.0, 64.0};
  CHECK(faults::value_at(factor, 0.5) == doctest::Approx(16.0));
  const plant::MachineSpec spec = tests::hm45_spec();
  plant::PlantState state = plant::initial_state(spec, {});
  faults::Fault fault;
  fault.id = "one";
  fault.changes = {step};
  for (const double bad : {-0.1, 1.1, std::nan("")}) CHECK(faults::apply(spec, state, fault, bad) != "");
  fault.changes = {{faults::FaultTarget::wire_Ohm, "12", 1.0, 1.0}};
  CHECK(faults::apply(spec, state, fault, 1.0).find("no place \"12\"") != std::string::npos);
  fault.changes = {{faults::FaultTarget::fan_norm, "", 0.5, 1.5},
                   {faults::FaultTarget::fan_norm, "", 0.5, 0.5},
                   {faults::FaultTarget::fan_norm, "K1", 0.5, 0.5}};
  CHECK(faults::fault_problems(spec, fault).size() == 3);
}
