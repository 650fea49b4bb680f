#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/electrics/assemble.h"

// Relays, breakers and the controller's power: who moves whom until all is at rest, and what the plant gets.
namespace stirbench::electrics {
namespace {

// Greatest current of a pole of `part`, and what its poles do not bring back.
struct PoleCurrents {
  double most_A = 0.0;
  Phasor sum{};
};
PoleCurrents pole_currents(const Network& net, const Solved& solved, int part) {
  PoleCurrents out;
  const std::uint16_t first = net.at(part, 0);
  const int poles = net.parts[static_cast<std::size_t>(part)].poles;
  for (std::size_t i = 0; i < solved.assembly.branches.size(); ++i) {
    const Branch& b = solved.assembly.branches[i];
    if (b.wire >= 0 || b.a < first || b.a >= first + 2 * poles || b.b != b.a + 1) continue;
    const Phasor A =
        b.joined ? solved.joint_A[i] : b.S * (solved.solution.volt[b.a] - solved.solution.volt[b.b]);
    out.most_A = std::max(out.most_A, std::abs(A));
    out.sum += A;
  }
  return out;
}

void set_bit(std::uint64_t& bits, int i, bool on) {
  const std::uint64_t bit = std::uint64_t{1} << static_cast<unsigned>(i);
  bits = on ? bits | bit : bits & ~bit;
}

// Moves what the voltages and currents move; whether anything did.
bool follow(const Network& net, const Solved& solved, Switchgear& gear) {
  const auto volt = [&](int part, int a, int b) {
    return std::abs(solved.solution.volt[net.at(part, a)] - solved.solution.volt[net.at(part, b)]);
  };
  const std::uint64_t before_in = gear.pulled_in;
  const std::uint64_t before_tripped = gear.tripped;
  double most = 1.0;
  int first = -1;
  for (std::size_t p = 0; p < net.parts.size(); ++p) {
    const CircuitPart& part = net.parts[p];
    const int i = static_cast<int>(p);
    if (part.kind == CircuitPartKind::contactor) {
      const double coil = resistance_factor(gear, i, 0);
      const bool whole = coil > 0.5 && coil < 2.0;  // a coil with shorted turns or a broken one does not pull
      const double norm = whole ? volt(i, 0, 1) / part.rated_V : 0.0;
      set_bit(gear.pulled_in, i, norm >= (gear.is_in(i) ? 0.50 : 0.80));
    } else if (part.kind == CircuitPartKind::controller) {
      set_bit(gear.pulled_in, i, volt(i, 0, 1) >= 0.70 * part.rated_V && !is_dead(gear, i));
    } else if (part.kind == CircuitPartKind::breaker && !gear.is_tripped(i)) {
      const PoleCurrents now = pole_currents(net, solved, i);
      const double over = now.most_A / (part.trip_times * part.rated_A);
      const double leaks = part.residual_A > 0.0 ? std::abs(now.sum) / part.residual_A : 0.0;
      if (over > most) {
        most = over;
        first = i;
      }
      if (over < 1.0 && leaks > 1.0) set_bit(gear.tripped, i, true);
    }
  }
  // Graded protection: the breaker that is over its limit by most opens first, and the others see its current
  // end.
  if (first >= 0) set_bit(gear.tripped, first, true);
  return gear.pulled_in != before_in || gear.tripped != before_tripped;
}

// A value that rounding has moved by a few parts in 1e12 goes back to where it was.
double tidy(double value) { return std::round(value * 0x1p36) * 0x1p-36; }

void read_heaters(const Network& net, const CircuitInputs& now, const Switchgear& gear, const Solution& s,
                  CircuitOutputs& out) {
  double rated_W = 0.0;
  double share = 0.0;
  for (std::size_t p = 0; p < net.parts.size(); ++p) {
    const CircuitPart& part = net.parts[p];
    if (part.kind != CircuitPartKind::element) continue;
    const int i = static_cast<int>(p);
    const double nominal_V = part.rated_V * now.supply_norm;
    rated_W += part.rated_W;
    const double factor = resistance_factor(gear, i, 0);
    if (factor >= 1.0e6 || !(nominal_V > 0.0)) continue;
    share += part.rated_W * std::norm(s.volt[net.at(i, 0)] - s.volt[net.at(i, 1)]) /
             (nominal_V * nominal_V * factor);
  }
  out.heat_norm = rated_W > 0.0 ? tidy(share / rated_W) : 0.0;
  out.heaters_W = out.heat_norm * rated_W * now.supply_norm * now.supply_norm;
}

// Inside a star with a broken winding the terminals no longer tell the windings' voltages; their currents do.
Sequence winding_V(const Network& net, const CircuitInputs& now, const Switchgear& gear, const Solution& s,
                   int part) {
  bool broken = false;
  for (int k = 0; k < 3; ++k) broken = broken || resistance_factor(gear, part, k) >= 1.0e6;
  const MotorLoad& load =
      net.parts[static_cast<std::size_t>(part)].role == CircuitRole::drive ? now.drive_motor : now.compressor;
  if (!broken || load.forward_S == Phasor{} || load.backward_S == Phasor{}) return sequence_V(net, s, part);
  const Phasor a = std::polar(1.0, 2.0 * std::numbers::pi / 3.0);
  const Phasor u = s.out_A[net.at(part, 0)];
  const Phasor v = s.out_A[net.at(part, 1)];
  const Phasor w = s.out_A[net.at(part, 2)];
  return {(u + a * v + a * a * w) / 3.0 / load.forward_S, (u + a * a * v + a * w) / 3.0 / load.backward_S};
}

void read_motor(const Network& net, const CircuitInputs& now, const Switchgear& gear, const Solution& s,
                int part, double& forward, double& backward) {
  const Sequence v = winding_V(net, now, gear, s, part);
  const double nominal_V = net.supply_V / std::numbers::sqrt3;
  forward = tidy(std::abs(v.forward) / nominal_V);
  backward = tidy(std::abs(v.backward) / nominal_V);
}

void read_controller(const Network& net, const CircuitInputs& now, const Switchgear& gear,
                     CircuitOutputs& out) {
  const int a = net.by_role(CircuitPartKind::controller, CircuitRole::none);
  out.controller_on = gear.is_in(a);
  if (!out.controller_on) return;
  const std::vector<Phasor> direct = solve_volts(net, now, gear, Current::direct);
  const auto volt = [&](int terminal) { return direct[net.at(a, terminal)].real(); };
  for (std::size_t k = 0; k < out.inputs.size(); ++k)
    out.inputs[k] = volt(10 + static_cast<int>(k)) - volt(9) > 11.0;  // IEC 61131-2 type 3: on from 11 V
  // Three leads: what 3 and 2 see apart is one lead, and is taken off the other.
  const double A = (probe_source_V - (volt(16) - volt(17))) / probe_series_Ohm;
  const double loop = (volt(16) - volt(18)) - (volt(18) - volt(17));
  out.probe_Ohm = A > 1.0e-7 ? std::max(0.0, loop / A) : 1.0e9;
  const double B = (probe_source_V - (volt(19) - volt(20))) / thermistor_series_Ohm;
  out.evaporator_Ohm = B > 1.0e-8 ? std::max(0.0, (volt(19) - volt(20)) / B) : 1.0e9;
}

}  // namespace

CircuitOutputs settle_relays(const Network& network, const CircuitInputs& conditions, Switchgear& gear,
                             Solution* alternating) {
  constexpr int most_rounds = 12;
  CircuitOutputs out;
  Solved solved;
  for (int round = 0;; ++round) {
    solved = solve_all(network, conditions, gear, Current::alternating, true, nullptr);
    const std::uint64_t before = gear.pulled_in;
    if (!follow(network, solved, gear)) break;
    if (round < most_rounds) continue;
    out.settled = false;
    gear.pulled_in &= before;
    solved = solve_all(network, conditions, gear, Current::alternating, true, nullptr);
    break;
  }
  const Solution& s = solved.solution;
  read_heaters(network, conditions, gear, s, out);
  const int drive = network.by_role(CircuitPartKind::motor, CircuitRole::drive);
  const int compressor = network.by_role(CircuitPartKind::motor, CircuitRole::chill);
  read_motor(network, conditions, gear, s, drive, out.drive_forward_norm, out.drive_backward_norm);
  read_motor(network, conditions, gear, s, compressor, out.compressor_forward_norm,
             out.compressor_backward_norm);
  for (int k = 0; k < 3; ++k) out.drive_A = std::max(out.drive_A, std::abs(s.out_A[network.at(drive, k)]));
  const int fan = network.by_role(CircuitPartKind::fan, CircuitRole::none);
  if (fan >= 0 && resistance_factor(gear, fan, 0) < 1.0e6)
    out.fan_norm = tidy(std::abs(s.volt[network.at(fan, 0)] - s.volt[network.at(fan, 1)]) /
                        network.parts[static_cast<std::size_t>(fan)].rated_V);
  read_controller(network, conditions, gear, out);
  if (alternating != nullptr) *alternating = s;
  return out;
}

}  // namespace stirbench::electrics
