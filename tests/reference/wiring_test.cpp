#include <doctest/doctest.h>

#include <cmath>
#include <numbers>

#include "sim_core/electrics/sensors.h"
#include "tests/reference/report.h"
#include "tests/reference/wiring_fixture.h"

// The circuit read through its simulated instruments, between terminals, against closed forms and published
// tables.
using namespace stirbench;
using namespace stirbench::tests;
namespace w = stirbench::electrics;

namespace {

constexpr const char* part = "Wiring";
constexpr double open = 1.0e12;
const Tolerance tight = 2 * relative(5.0e-4);
const double root3 = std::sqrt(3.0);

// Closed forms, worked out to four or five digits.
void check(const std::string& what, double ours, double reference, const Source& source) {
  reference_check(part, what, ours, reference, reference == 0.0 ? absolute(1.0e-3) : tight, source);
}
Source by_hand(const char* how) {
  return own_arithmetic(how, "four digits: 0.05 %; a current of nothing 1 mA");
}

// Currents in the three lines to the heaters.
void check_lines(const std::string& what, const WiredMachine& m, double a, double b, double c,
                 const Source& source) {
  check(what + ", line 1 [A]", m.amps("B2.12", "X2.1"), a, source);
  check(what + ", line 2 [A]", m.amps("B2.22", "X2.2"), b, source);
  check(what + ", line 3 [A]", m.amps("B2.32", "X2.3"), c, source);
}

}  // namespace

TEST_CASE("delta of heating elements: healthy, elements open, a line lost") {
  const Source source = by_hand("closed form V^2/R, worked in the physics reference");
  WiredMachine whole;
  check("delta 3 x 2 kW [W]", whole.supplied.heaters_W, 6000.0, source);
  CHECK(whole.supplied.heat_norm == 1.0);
  check_lines("delta whole", whole, 8.6603, 8.6603, 8.6603, source);
  check("delta whole, voltage of element 1 [V]", whole.volts("E1.1", "E1.2"), 400.0, source);
  check("line to neutral [V]", whole.volts("X1.1", "X1.4"), 400.0 / root3, source);

  WiredMachine one;
  one.part_factor("E1", 0, open);
  check("delta, one open [W]", one.supplied.heaters_W, 4000.0, source);
  check_lines("delta, one open", one, 5.0, 5.0, 8.6603, source);

  WiredMachine two = one;
  two.part_factor("E2", 0, open);
  check("delta, two open [W]", two.supplied.heaters_W, 2000.0, source);
  check_lines("delta, two open", two, 5.0, 0.0, 5.0, source);

  WiredMachine line;
  line.wire_Ohm("B2.12", "X2.1", open);
  check("delta, line lost [W]", line.supplied.heaters_W, 3000.0, source);
  check_lines("delta, line lost", line, 0.0, 7.5, 7.5, source);
  check("delta, line lost, element between the live lines [V]", line.volts("E2.1", "E2.2"), 400.0, source);
  check("delta, line lost, element 1 [V]", line.volts("E1.1", "E1.2"), 200.0, source);
  check("delta, line lost, element 3 [V]", line.volts("E3.1", "E3.2"), 200.0, source);

  WiredMachine own = one;  // element 1 lies between lines 1 and 2
  own.wire_Ohm("B2.12", "X2.1", open);
  check("delta, one open and one of its lines lost [W]", own.supplied.heaters_W, 2000.0, source);
  check_lines("delta, one open and one of its lines lost", own, 0.0, 5.0, 5.0, source);

  WiredMachine shared = one;
  shared.wire_Ohm("B2.32", "X2.3", open);
  check("delta, one open and the shared line lost [W]", shared.supplied.heaters_W, 1000.0, source);
  check_lines("delta, one open and the shared line lost", shared, 2.5, 2.5, 0.0, source);

  WiredMachine low;
  low.conditions.supply_norm = 0.95;
  low.settle();
  check("delta on 380 V [W]", low.supplied.heaters_W, 0.9025 * 6000.0, source);
  CHECK(low.supplied.heat_norm == 1.0);
}

TEST_CASE("star of heating elements with and without neutral") {
  const Source source = by_hand("closed form V^2/R, worked in the physics reference");
  WiredMachine same(star_diagram(false, 400.0, 2000.0));
  check("the same elements in star [W]", same.supplied.heaters_W, 2000.0, source);
  check_lines("the same elements in star", same, 2.8868, 2.8868, 2.8868, source);

  // 26.45 Ohm: 2 kW at 230 V.
  WiredMachine whole(star_diagram(false, 230.0, 2000.0));
  check("star 3 x 26.45 Ohm [W]", 3.0 * 26.45 * std::pow(whole.amps("B2.12", "X2.1"), 2.0), 6049.1, source);
  check_lines("star 3 x 26.45 Ohm", whole, 8.7313, 8.7313, 8.7313, source);
  WiredMachine one = whole;
  one.part_factor("E1", 0, open);
  check_lines("star without neutral, one open", one, 0.0, 7.5614, 7.5614, source);
  check("star without neutral, one open, a survivor [V]", one.volts("E2.1", "E2.2"), 200.0, source);
  WiredMachine with(star_diagram(true, 230.0, 2000.0));
  with.part_factor("E1", 0, open);
  check_lines("star with neutral, one open", with, 0.0, 8.7313, 8.7313, source);
  check("star with neutral, one open, neutral [A]", with.amps("X9.1", "X1.4"), 8.7313, source);
  check("star with neutral, one open, a survivor [V]", with.volts("E2.1", "E2.2"), 400.0 / root3, source);
}

TEST_CASE("resistances of an isolated bank of elements") {
  const Source source = by_hand("2R/3, R, 2R: worked in the physics reference");
  WiredMachine m;
  m.isolate();
  for (const auto& [a, b] : {std::pair{"X2.1", "X2.2"}, {"X2.2", "X2.3"}, {"X2.3", "X2.1"}})
    check(std::string("delta ") + a + " " + b + " [Ohm]", m.ohms(a, b).exact, 160.0 / 3.0, source);
  m.part_factor("E1", 0, open);
  check("delta, one open, across it [Ohm]", m.ohms("X2.1", "X2.2").exact, 160.0, source);
  check("delta, one open, second pair [Ohm]", m.ohms("X2.2", "X2.3").exact, 80.0, source);
  check("delta, one open, third pair [Ohm]", m.ohms("X2.3", "X2.1").exact, 80.0, source);
  WiredMachine star(star_diagram(false, 400.0, 2000.0));
  star.isolate();
  check("star X2.1 X2.2 [Ohm]", star.ohms("X2.1", "X2.2").exact, 160.0, source);
  star.part_factor("E1", 0, open);
  check("star, one open, the others [Ohm]", star.ohms("X2.2", "X2.3").exact, 160.0, source);
  // Only the insulation is left: more than the meter can show.
  CHECK(star.ohms("X2.1", "X2.2").over_range);
  CHECK(star.ohms("X2.1", "X2.3").over_range);
}

TEST_CASE("Pt100 and thermistor through the ohmmeter and the controller's own input") {
  WiredMachine m;
  const struct {
    double degC, Ohm;
  } platinum[] = {{-20.0, 92.160}, {0.0, 100.000},  {4.0, 101.562},  {25.0, 109.735},
                  {40.0, 115.541}, {65.0, 125.160}, {85.0, 132.803}, {100.0, 138.5055}};
  const Source platinum_table =
      worked_example("IEC 60751 table", "half of the last digit of a hundredth of an ohm");
  WiredMachine loose;  // the plug of the probe taken off, as one measures it
  loose.wire_Ohm("B1.1", "A1.T1", open);
  loose.wire_Ohm("B5.1", "A1.E1", open);
  for (const auto& row : platinum) {
    loose.conditions.probe_degC = m.conditions.probe_degC = row.degC;
    loose.isolate();
    m.settle();
    reference_check(part, at("Pt100 at its plug [Ohm]", row.degC), loose.ohms("B1.1", "B1.2").exact, row.Ohm,
                    2 * absolute(0.005), platinum_table);
    reference_check(part, at("Pt100 in the controller [degC]", row.degC),
                    w::pt_degC(100.0, m.supplied.probe_Ohm), row.degC, absolute(0.01),
                    own_arithmetic("the temperature that was set, through three leads and back",
                                   "resistance of the leads: 0.01 K"));
  }
  const struct {
    double degC, b3950, b3435;
  } rows[] = {{0.0, 33620.0, 28704.0}, {4.0, 27288.0, 23940.0}, {40.0, 5302.0, 5759.0},
              {65.0, 2086.0, 2559.0},  {85.0, 1087.0, 1451.0},  {100.0, 697.0, 987.0}};
  for (const auto& row : rows) {
    loose.conditions.evaporator_degC = row.degC;
    loose.isolate();
    check(at("thermistor at its plug [Ohm]", row.degC), loose.ohms("B5.1", "B5.2").exact, row.b3950,
          by_hand("10 kOhm, B 3950: closed form"));
    check(at("thermistor B 3435 [Ohm]", row.degC), w::ntc_Ohm(10.0e3, 3435.0, row.degC), row.b3435,
          by_hand("10 kOhm, B 3435: closed form"));
    CHECK(w::ntc_degC(10.0e3, 3950.0, row.b3950) == doctest::Approx(row.degC).epsilon(0.001));
  }
  for (const double t : {-150.0, -60.0, -20.0, 0.0, 85.0, 400.0})
    CHECK(w::pt_degC(100.0, w::pt_Ohm(100.0, t)) == doctest::Approx(t).epsilon(1e-9));
  // One lead worth half an Ohm more: about 1.3 K, because the third lead only takes off what both have.
  WiredMachine lead;
  lead.conditions.probe_degC = 85.0;
  lead.wire_Ohm("B1.1", "A1.T1", 0.5);
  reference_check(part, "half an Ohm in one lead of a Pt100 at 85 degC [K]",
                  w::pt_degC(100.0, lead.supplied.probe_Ohm) - 85.0, 1.3, absolute(0.05),
                  own_arithmetic("slope 0.381 Ohm/K, by hand", "half of the last digit"));
  lead.wire_Ohm("B1.2", "A1.T2", 0.5);
  CHECK(w::pt_degC(100.0, lead.supplied.probe_Ohm) == doctest::Approx(85.0).epsilon(0.0005));
}

namespace {

// The classical equivalent circuit of a phase: stator, magnetising branch, rotor at slip s.
struct EquivalentCircuit {
  double R1 = 9.5, X1 = 8.0, R2 = 8.0, X2 = 8.0, Xm = 170.0;
  w::Phasor Z(double s) const {
    const w::Phasor rotor(R2 / s, X2);
    const w::Phasor field(0.0, Xm);
    return w::Phasor(R1, X1) + field * rotor / (field + rotor);
  }
  // Torque of all phases times the synchronous speed for a phase current.
  double air_gap_W(double s, double A) const {
    const w::Phasor field(0.0, Xm);
    const double rotor_A = A * std::abs(field / (field + w::Phasor(R2 / s, X2)));
    return 3.0 * rotor_A * rotor_A * R2 / s;
  }
};

template <typename F>
double bisect(double low, double high, F&& below) {
  for (int i = 0; i < 80; ++i) {
    const double middle = 0.5 * (low + high);
    (below(middle) ? low : high) = middle;
  }
  return 0.5 * (low + high);
}

}  // namespace

TEST_CASE("a motor that loses a line while it runs, and at standstill") {
  const Source source =
      by_hand("sequence circuits in series, illustrative 0.75 kW motor of the physics reference");
  const EquivalentCircuit c;
  const double phase_V = 400.0 / root3;
  const double synchronous = 2.0 * std::numbers::pi * 25.0;
  const double rated_W = 5.116 * synchronous;  // torque of 0.75 kW at 1400 1/min, as air-gap power
  const auto load = [&](double s) { return w::MotorLoad{1.0 / c.Z(s), 1.0 / c.Z(2.0 - s)}; };
  WiredMachine m;
  m.conditions.switches.set(w::Switch::heat_wanted, false);
  m.conditions.switches.set(w::Switch::drive_wanted, true);
  const double sn =
      bisect(0.005, 0.3, [&](double s) { return c.air_gap_W(s, phase_V / std::abs(c.Z(s))) < rated_W; });
  m.conditions.drive_motor = load(sn);
  m.settle();
  const double full_A = m.amps("F5.2", "M1.U");
  check("three lines: current of the motor [A]", full_A, phase_V / std::abs(c.Z(sn)), source);
  CHECK(m.supplied.drive_forward_norm == 1.0);
  CHECK(m.supplied.drive_backward_norm == 0.0);

  WiredMachine lost = m;
  lost.wire_Ohm("F5.2", "M1.U", open);
  const struct { double load, ratio; } rows[] = {{0.25, 1.15}, {0.50, 1.29}, {0.75, 1.54}, {1.00, 1.95}};
  for (const auto& row : rows) {
    const auto current = [&](double s) { return 400.0 / std::abs(c.Z(s) + c.Z(2.0 - s)); };
    // Each sequence current of a star on two lines is 1/sqrt 3 of the line's.
    const double s = bisect(0.005, 0.25, [&](double at_s) {
      const double A = current(at_s) / root3;
      return c.air_gap_W(at_s, A) - c.air_gap_W(2.0 - at_s, A) < row.load * rated_W;
    });
    lost.conditions.drive_motor = load(s);
    lost.settle();
    check(at("two lines: current V/(Zp + Zn) [A]", row.load), lost.amps("F5.4", "M1.V"), current(s), source);
    check(at("two lines: current in the lost one [A]", row.load), lost.amps("F5.2", "M1.U"), 0.0, source);
    reference_check(part, at("two lines: current over full-load current", row.load),
                    lost.amps("F5.4", "M1.V") / full_A, row.ratio, 2 * absolute(0.006), source);
  }
  m.conditions.drive_motor = lost.conditions.drive_motor = load(1.0);
  m.settle();
  lost.settle();
  check("standstill: two lines over three", lost.amps("F5.4", "M1.V") / m.amps("F5.4", "M1.V"), root3 / 2.0,
        source);
  check("standstill: forward over backward field",
        lost.supplied.drive_forward_norm / lost.supplied.drive_backward_norm, 1.0, source);
}

TEST_CASE("a winding that is broken inside is a line lost to the others") {
  WiredMachine line;
  line.conditions.switches.set(w::Switch::heat_wanted, false);
  line.conditions.switches.set(w::Switch::drive_wanted, true);
  line.conditions.drive_motor = {{0.004, -0.004}, {0.03, -0.04}};
  WiredMachine winding = line;
  line.wire_Ohm("F5.2", "M1.U", open);
  winding.part_factor("M1", 0, open);
  check("broken winding, current in the others [A]", winding.amps("F5.4", "M1.V"), line.amps("F5.4", "M1.V"),
        by_hand("a star without its point joined"));
  CHECK(winding.supplied.drive_forward_norm ==
        doctest::Approx(line.supplied.drive_forward_norm).epsilon(1e-6));
  CHECK(winding.supplied.drive_backward_norm ==
        doctest::Approx(line.supplied.drive_backward_norm).epsilon(1e-6));
  line.isolate();
  winding.isolate();
  check("windings of a star [Ohm]", line.ohms("M1.V", "M1.W").exact, 25.0, by_hand("twice the phase"));
  CHECK(winding.ohms("M1.U", "M1.V").over_range);
}
