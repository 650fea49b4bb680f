#include <doctest/doctest.h>

#include <cmath>

#include "tests/reference/wiring_fixture.h"

// Relays, protection and instruments of the circuit: common practice, no published numbers.
using namespace stirbench;
using namespace stirbench::tests;
namespace w = stirbench::electrics;

namespace {

// Which of the three contactors are in: bit 0 heat, 1 drive, 2 chiller.
int contactors(const WiredMachine& m) {
  int in = 0;
  for (const auto& [bit, id] : {std::pair{1, "K1"}, {2, "K2"}, {4, "K3"}})
    in += m.gear.is_in(m.network.part(id)) ? bit : 0;
  return in;
}

WiredMachine all_wanted() {
  WiredMachine m;
  m.conditions.switches.set(w::Switch::drive_wanted, true);
  m.conditions.switches.set(w::Switch::chill_wanted, true);
  m.conditions.drive_motor = {{0.004, -0.004}, {0.03, -0.04}};
  m.conditions.compressor = {{0.008, -0.006}, {0.02, -0.03}};
  m.settle();
  return m;
}

w::MeterReading insulation(WiredMachine& m, const char* a, const char* b) {
  w::Meter meter;
  return w::insulation_tester(m.network, m.conditions, m.gear, meter, 500.0, m.terminal(a), m.terminal(b));
}

}  // namespace

TEST_CASE(
    "the contactors follow outputs, guards and trips for every combination, as the hard-wired chain says") {
  WiredMachine m = all_wanted();
  for (unsigned bits = 0; bits < 1024; ++bits) {
    const auto bit = [bits](unsigned i) { return (bits >> i & 1U) != 0; };
    w::CircuitInputs& c = m.conditions;
    const auto on = [&c](w::Switch one) { return c.switches.is(one); };
    c.switches.set(w::Switch::heat_wanted, bit(0));
    c.switches.set(w::Switch::drive_wanted, bit(1));
    c.switches.set(w::Switch::chill_wanted, bit(2));
    c.switches.set(w::Switch::lid_closed, bit(3));
    c.switches.set(w::Switch::shaft_cover_closed, bit(4));
    c.switches.set(w::Switch::overload_tripped, bit(5));
    c.switches.set(w::Switch::cutout_tripped, bit(6));
    c.switches.set(w::Switch::pressure_tripped, bit(7));
    c.switches.set(w::Switch::isolator_on, bit(8));
    c.switches.set(w::Switch::emergency_stop_open, bit(9));
    m.settle();
    // The emergency stop has a contactor of its own, cut-out and pressure switch break the lines, heat hangs
    // on the drive's contactor.
    const bool fed = on(w::Switch::isolator_on) && !on(w::Switch::emergency_stop_open);
    const bool guards =
        on(w::Switch::isolator_on) && on(w::Switch::lid_closed) && on(w::Switch::shaft_cover_closed);
    const bool drive = guards && on(w::Switch::drive_wanted) && !on(w::Switch::overload_tripped);
    const bool heat = guards && on(w::Switch::heat_wanted) && drive;
    const bool chill = on(w::Switch::isolator_on) && on(w::Switch::chill_wanted);
    const int want = (heat ? 1 : 0) + (drive ? 2 : 0) + (chill ? 4 : 0);
    CAPTURE(bits);
    CHECK(contactors(m) == want);
    CHECK(m.supplied.settled);
    CHECK(m.supplied.controller_on == on(w::Switch::isolator_on));
    if (on(w::Switch::isolator_on)) {
      CHECK(m.supplied.inputs[0] == on(w::Switch::lid_closed));
      CHECK(m.supplied.inputs[1] == on(w::Switch::shaft_cover_closed));
      CHECK(m.supplied.inputs[2] == on(w::Switch::overload_tripped));
      CHECK(m.supplied.inputs[3] == !on(w::Switch::cutout_tripped));
      CHECK(m.supplied.inputs[4] == !on(w::Switch::pressure_tripped));
      CHECK(m.supplied.inputs[5] == !on(w::Switch::emergency_stop_open));
    }
    CHECK(m.supplied.heat_norm == (heat && fed && !on(w::Switch::cutout_tripped) ? 1.0 : 0.0));
    CHECK(m.supplied.drive_forward_norm == (drive && fed ? 1.0 : 0.0));
    CHECK(m.supplied.compressor_forward_norm ==
          (chill && fed && !on(w::Switch::pressure_tripped) ? 1.0 : 0.0));
    CHECK(std::abs(m.supplied.fan_norm - (chill && fed ? 400.0 / std::sqrt(3.0) / 230.0 : 0.0)) < 1e-6);
  }
}

TEST_CASE("coils: brown-out drops what is in only below half, and pulls in again only above four fifths") {
  WiredMachine m = all_wanted();
  CHECK(contactors(m) == 7);
  for (const auto& [supply, want] :
       {std::pair{0.85, 7}, {0.75, 7}, {0.60, 0}, {0.75, 7}, {0.2, 0}, {0.80, 7}}) {
    // Below 0.7 the controller itself lets go.
    m.conditions.supply_norm = supply;
    const int before = contactors(m);
    m.settle();
    CAPTURE(supply);
    if (supply == 0.75 && before == 0)
      CHECK(contactors(m) == 0);
    else if (supply == 0.80)
      CHECK(contactors(m) == 0);  // the transformer's drop leaves a little less than 0.80
    else
      CHECK(contactors(m) == want);
  }
}

TEST_CASE(
    "a short circuit trips its breaker and no other; a leak to earth trips the residual-current breaker") {
  WiredMachine m = all_wanted();
  m.gear.add({w::DefectKind::bridge_Ohm, m.terminal("E1.1"), m.terminal("E1.2"), 0.05});
  m.settle();
  CHECK(m.gear.is_tripped(m.network.part("F1")));
  for (const char* other : {"F0", "F2", "F3", "F4", "F6"})
    CHECK_FALSE(m.gear.is_tripped(m.network.part(other)));
  CHECK(contactors(m) == 7);
  CHECK(m.supplied.heat_norm == 0.0);
  CHECK(m.volts("K1.1", "K1.3") < 0.1);

  WiredMachine leak = all_wanted();
  leak.gear.add({w::DefectKind::leak_Ohm, leak.terminal("E2.1"), 0, 12.0e3});
  leak.settle();  // 231 V / 12 kOhm = 19 mA
  CHECK_FALSE(leak.gear.is_tripped(leak.network.part("F0")));
  leak.gear.defects[0].value = 5.0e3;
  leak.settle();  // 46 mA
  CHECK(leak.gear.is_tripped(leak.network.part("F0")));
  CHECK(contactors(leak) == 0);
  CHECK_FALSE(leak.supplied.controller_on);
  CHECK(insulation(leak, "E1.1", "X5.1").value == doctest::Approx(5.0e3).epsilon(0.2));
}

TEST_CASE("contacts: welded, not closing, dirty; a coil without wire; a dead controller") {
  WiredMachine m = all_wanted();
  const auto k1 = static_cast<std::uint16_t>(m.network.part("K1"));
  m.gear.add({w::DefectKind::stuck_open, k1, 1, 0.0});
  m.settle();
  CHECK(m.supplied.heat_norm == doctest::Approx(0.5).epsilon(1e-9));
  m.gear.defects[0] = {w::DefectKind::stuck_closed, k1, 1, 0.0};
  m.conditions.switches.set(w::Switch::heat_wanted, false);
  m.settle();
  CHECK(m.supplied.heat_norm < 1e-9);                                       // one pole alone feeds nothing
  CHECK(m.volts("X2.2", "X1.4") == doctest::Approx(230.94).epsilon(1e-3));  // but all elements are live
  m.gear.add({w::DefectKind::stuck_closed, k1, 0, 0.0});
  m.settle();
  CHECK(m.supplied.heat_norm == doctest::Approx(0.5).epsilon(1e-9));
  m.gear.defect_count = 0;
  m.conditions.switches.set(w::Switch::heat_wanted, true);
  m.part_factor("K1", 0, 1.0e9);
  CHECK(contactors(m) == 6);
  CHECK(m.volts("K1.A1", "K1.A2") == doctest::Approx(23.7).epsilon(0.02));  // voltage there, contactor not in
  m.isolate();
  CHECK(m.ohms("K1.A1", "K1.A2").over_range);
  WiredMachine dead = all_wanted();
  dead.gear.add({w::DefectKind::dead, static_cast<std::uint16_t>(dead.network.part("A1")), 0, 0.0});
  dead.settle();
  CHECK(contactors(dead) == 0);
  CHECK_FALSE(dead.supplied.controller_on);
  CHECK(dead.direct_volts("A1.P", "A1.M") == 0.0);
}

TEST_CASE("a wire lost in the guard loop stops what the guard stops, and the meter finds the place") {
  WiredMachine m = all_wanted();
  m.wire_Ohm("S1.12", "S2.11", 1.0e12);
  CHECK(contactors(m) == 4);
  CHECK(m.volts("S1.12", "X3.2") > 23.0);
  CHECK(m.volts("S2.11", "X3.2") < 0.01);
  m.isolate();
  CHECK(m.read(w::MeterFunction::continuity, "S1.11", "S1.12").sounds);
  CHECK_FALSE(m.read(w::MeterFunction::continuity, "S1.12", "S2.11").sounds);
}

TEST_CASE("instruments: ranges, last digit, accuracy, and what mistakes cost") {
  WiredMachine m = all_wanted();
  w::Meter meter;
  const auto volts = [&](w::Meter& with, const w::MeterUser& hands = {}) {
    return w::multimeter(m.network, m.conditions, m.gear, w::MeterFunction::alternating_V, with,
                         m.terminal("X1.1"), m.terminal("X1.2"), hands);
  };
  CHECK(volts(meter).value == doctest::Approx(400.0));
  CHECK(volts(meter).resolution == doctest::Approx(0.1));
  meter.range = 60.0;
  CHECK(volts(meter).over_range);
  CHECK(volts(meter).mishap == w::Mishap::over_range);
  meter.range = 0.0;
  meter.error = 1.0;
  CHECK(volts(meter).value == doctest::Approx(404.3));
  meter.error = 0.0;
  CHECK(volts(meter, {.licensed = false}).mishap == w::Mishap::unlicensed_live);
  CHECK(volts(meter, {.shrouded_probes = false}).mishap == w::Mishap::slip);
  // 24 V: resistance means nothing; 400 V: the fuse goes, and the meter then shows nothing where there is
  // voltage.
  const auto ohms = [&](const char* a, const char* b) {
    return w::multimeter(m.network, m.conditions, m.gear, w::MeterFunction::Ohm, meter, m.terminal(a),
                         m.terminal(b));
  };
  CHECK(ohms("K1.A1", "K1.A2").mishap == w::Mishap::live_reading);
  CHECK_FALSE(meter.fuse_blown);
  CHECK(ohms("X2.1", "X2.2").mishap == w::Mishap::fuse_blown);
  CHECK(meter.fuse_blown);
  CHECK(volts(meter).value == 0.0);
  CHECK(insulation(m, "E1.1", "X5.1").mishap == w::Mishap::live_reading);
  m.isolate();
  CHECK(insulation(m, "E1.1", "X5.1").value ==
        doctest::Approx(50.0e6 / 3.0).epsilon(0.01));  // three elements side by side
  CHECK(insulation(m, "A1.T1", "X5.1").mishap == w::Mishap::electronics_dead);
  const int lines[] = {m.wire("B2.12", "X2.1"), m.wire("B2.22", "X2.2"), m.wire("B2.32", "X2.3")};
  m.conditions.switches.set(w::Switch::isolator_on, true);
  m.settle();
  CHECK(w::clamp_meter(m.network, m.conditions, m.gear, {}, lines).value ==
        0.0);  // all three together cancel
  CHECK(w::clamp_meter(m.network, m.conditions, m.gear, {}, {lines, 1}).value == doctest::Approx(8.66));
}

TEST_CASE("currents at every terminal sum to nothing") {
  WiredMachine m = all_wanted();
  m.part_factor("E1", 0, 1.0e12);
  m.wire_Ohm("X3.2", "X5.1", 2.0);
  w::Solution s = w::solve(m.network, m.conditions, m.gear, w::Current::alternating);
  std::vector<w::Phasor> sum = s.out_A;
  for (std::size_t i = 0; i < s.wire_A.size(); ++i) {
    sum[m.network.joins[i].from] += s.wire_A[i];
    sum[m.network.joins[i].to] -= s.wire_A[i];
  }
  // Contacts without resistance carry the rest, so only terminals of parts without contacts are closed by
  // wires alone.
  for (const char* name : {"X2.1", "X2.2", "X2.3", "E2.1", "M1.U", "M2.W", "X3.2", "T1.1", "X1.3"})
    CHECK(std::abs(sum[m.terminal(name)]) < 1e-9);
}
