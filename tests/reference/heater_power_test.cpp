#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "sim_core/plant/electrical_link.h"
#include "sim_core/plant/heat.h"
#include "sim_core/plant/plant.h"
#include "tests/reference/report.h"
#include "tests/reference/wiring_fixture.h"
#include "tests/support/hm45_spec.h"

// What the clamp meter finds at the elements goes into the product as heat, once, whatever the elements are
// rated for.
using namespace stirbench;

namespace {

using tests::at;
using tests::own_arithmetic;
using tests::reference_check;
using tests::relative;
using tests::Source;

constexpr const char* part = "Wiring";

// The shipped circuit on another supply: transformer and elements rated as told, elements in delta.
electrics::Diagram on_supply(double supply_V, double element_V) {
  electrics::Diagram d = tests::shipped_diagram();
  for (electrics::CircuitPart& p : d.parts) {
    if (p.kind == electrics::CircuitPartKind::transformer) p.rated_V = supply_V;
    if (p.kind == electrics::CircuitPartKind::element) p.rated_V = element_V;
  }
  return d;
}

struct Powers {
  double clamp_W, heat_W;
};

// Power by clamp and voltmeter (sqrt 3 V I of a balanced load), and what the plant's step puts into its
// elements.
Powers powers(const electrics::Diagram& diagram, double supply_V, double element_V, double supply_norm) {
  plant::MachineSpec spec = tests::hm45_spec();
  spec.supply_V = supply_V;
  spec.elements.rated_V = element_V;
  spec.circuit = electrics::make_network(diagram, supply_V, 50.0);
  plant::Environment room;
  room.supply_norm = supply_norm;
  plant::PlantState state = plant::initial_state(spec, room);
  const plant::Actuators loads = plant::switch_loads(spec, state, {true, true, false});
  plant::step(spec, state, loads, 0.1);
  tests::WiredMachine bench(diagram);
  bench.network = spec.circuit;
  bench.conditions = plant::circuit_inputs(spec, plant::initial_state(spec, room), {true, true, false});
  bench.gear = {};
  bench.settle();
  const double A = bench.amps("B2.12", "X2.1");
  return {std::numbers::sqrt3 * bench.volts("X2.1", "X2.2") * A, state.ledger.heaters_J / 0.1};
}

}  // namespace

TEST_CASE(
    "elements rated for another voltage: the clamp's power is the heat, at 0.9, 1.0 and 1.1 of the supply") {
  const Source source =
      own_arithmetic("conserved energy; P = rated (V / rated V)^2 (Ohm's law)", "rounding: 1e-6");
  for (const double rated_V : {208.0, 230.0, 240.0}) {
    for (const double supply_norm : {0.9, 1.0, 1.1}) {
      CAPTURE(rated_V);
      CAPTURE(supply_norm);
      const electrics::Diagram diagram = on_supply(230.0, rated_V);
      const Powers now = powers(diagram, 230.0, rated_V, supply_norm);
      const double volts = 230.0 * supply_norm / rated_V;
      reference_check(part, at("heat into the elements rated for V, of supply", rated_V, supply_norm),
                      now.heat_W, 6000.0 * volts * volts, relative(1.0e-6), source);
      CHECK(now.clamp_W == doctest::Approx(now.heat_W).epsilon(0.002));
    }
  }
  // 230 V elements in star on 400 V: 400 / sqrt 3 is 230.9 V.
  const Powers star = powers(tests::star_diagram(false, 230.0, 2000.0), 400.0, 230.0, 1.0);
  reference_check(part, "heat, 230 V elements in star on 400 V, W", star.heat_W,
                  6000.0 * 400.0 * 400.0 / 3.0 / 230.0 / 230.0, relative(1.0e-6), source);
  // A machine without a circuit comes to the same.
  plant::MachineSpec plain = tests::hm45_spec();
  plain.elements.rated_V = 415.0;
  plant::PlantState state = plant::initial_state(plain, {});
  state.fittings.isolator_on = true;
  const plant::Actuators loads = plant::switch_loads(plain, state, {true, true, false});
  CHECK(plant::heater_W(plain, loads.heat_norm, 1.0) ==
        doctest::Approx(6000.0 * 400.0 * 400.0 / 415.0 / 415.0).epsilon(1e-9));
}
