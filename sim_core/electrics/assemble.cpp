#include "sim_core/electrics/assemble.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include "sim_core/electrics/sensors.h"

namespace stirbench::electrics {
namespace {

constexpr double broken_factor = 1.0e6;

struct Builder {
  const Network& net;
  const CircuitInputs& now;
  const Switchgear& gear;
  bool ac;
  bool sources;
  NetworkBranches out;

  bool is(Switch one) const { return now.switches.is(one); }
  const CircuitPart& part(int i) const { return net.parts[static_cast<std::size_t>(i)]; }
  std::uint16_t at(int i, int terminal) const { return net.at(i, terminal); }

  void join(std::uint16_t a, std::uint16_t b, int wire = -1) {
    out.branches.push_back({a, b, {}, true, wire});
  }
  void between(std::uint16_t a, std::uint16_t b, Phasor S, int wire = -1) {
    if (S != Phasor{}) out.branches.push_back({a, b, S, false, wire});
  }
  void Ohm(std::uint16_t a, std::uint16_t b, double value) {
    if (value < broken_Ohm * 100.0) between(a, b, 1.0 / std::max(value, 1.0e-6));
  }
  const Defect* defect(DefectKind kind, int target, int pole) const {
    for (std::uint32_t i = 0; i < gear.defect_count; ++i) {
      const Defect& d = gear.defects[i];
      if (d.kind == kind && d.target == target && d.pole == pole) return &d;
    }
    return nullptr;
  }
  double factor(int i, int pole) const { return resistance_factor(gear, i, pole); }
  bool broken(int i, int pole) const { return factor(i, pole) >= broken_factor; }

  void contact(int i, int pole, int terminal, bool closed) {
    const std::uint16_t a = at(i, terminal);
    const std::uint16_t b = at(i, terminal + 1);
    if (defect(DefectKind::stuck_closed, i, pole) != nullptr) return join(a, b);
    if (!closed || defect(DefectKind::stuck_open, i, pole) != nullptr) return;
    if (const Defect* worn = defect(DefectKind::contact_Ohm, i, pole)) return Ohm(a, b, worn->value);
    join(a, b);
  }
  void contacts(int i, int from_terminal, bool closed, int first_pole = 0) {
    for (int p = 0; p < part(i).poles; ++p) contact(i, first_pole + p, from_terminal + 2 * p, closed);
  }
  void insulation(int i, int terminal, int earth) {
    if (part(i).insulation_MOhm > 0.0) Ohm(at(i, terminal), at(i, earth), part(i).insulation_MOhm * 1.0e6);
  }

  void supply(int i);
  void contactor(int i);
  void overload(int i);
  void guard(int i);
  void motor(int i);
  void transformer(int i);
  void controller(int i);
  void sensor(int i);
  void build_part(int i);
  void build_wires();
  void build_defects();
};

void Builder::supply(int i) {
  const double phase_V = ac && sources ? net.supply_V / std::numbers::sqrt3 * now.supply_norm : 0.0;
  for (int k = 0; k < 3; ++k)
    out.sources.push_back({at(i, k), std::polar(phase_V, -2.0 * std::numbers::pi * k / 3.0)});
  out.sources.push_back({at(i, 3), 0.0});
  out.sources.push_back({at(i, 4), 0.0});
}

void Builder::contactor(int i) {
  const CircuitPart& p = part(i);
  if (!broken(i, 0)) {
    const double z = p.rated_V * p.rated_V / p.rated_VA;
    const Phasor coil = std::polar(z, std::acos(p.power_factor)) * factor(i, 0);
    between(at(i, 0), at(i, 1), ac ? 1.0 / coil : Phasor(1.0 / (p.dc_Ohm * factor(i, 0))));
  }
  bool welded = false;
  switch (p.role) {
    case CircuitRole::heat: welded = is(Switch::heat_welded); break;
    case CircuitRole::drive: welded = is(Switch::drive_welded); break;
    case CircuitRole::chill: welded = is(Switch::chill_welded); break;
    case CircuitRole::emergency_stop: welded = is(Switch::emergency_welded); break;
    default: break;
  }
  contacts(i, 2, gear.is_in(i) || welded);
}

void Builder::overload(int i) {
  contact(i, 0, 0, !is(Switch::overload_tripped));
  contact(i, 1, 2, is(Switch::overload_tripped));
  contacts(i, 4, true, 2);
}

void Builder::guard(int i) {
  bool closed = true;
  switch (part(i).role) {
    case CircuitRole::lid: closed = is(Switch::lid_closed); break;
    case CircuitRole::shaft_cover: closed = is(Switch::shaft_cover_closed); break;
    case CircuitRole::emergency_stop: closed = !is(Switch::emergency_stop_open); break;
    case CircuitRole::cutout: closed = !is(Switch::cutout_tripped); break;
    case CircuitRole::pressure: closed = !is(Switch::pressure_tripped); break;
    default: break;
  }
  contacts(i, 0, closed);
}

// Alternating: Y_abc of the symmetrical components 0, forward, backward, a circulant matrix. A broken winding
// of a star cuts its line. Direct: a star of three windings, its point taken out by Kron's reduction.
void Builder::motor(int i) {
  std::array<Phasor, 3> branch{};
  const MotorLoad& load = part(i).role == CircuitRole::drive ? now.drive_motor : now.compressor;
  const bool whole = !broken(i, 0) && !broken(i, 1) && !broken(i, 2);
  Stamp stamp;
  stamp.size = 3;
  for (int k = 0; k < 3; ++k) stamp.at[static_cast<std::size_t>(k)] = at(i, k);
  if (ac && whole) {
    const Phasor a = std::polar(1.0, 2.0 * std::numbers::pi / 3.0);
    std::array<Phasor, 3> c{};
    for (int k = 0; k < 3; ++k)
      c[static_cast<std::size_t>(k)] =
          (load.forward_S * std::pow(a, k) + load.backward_S * std::pow(a, -k)) / 3.0;
    for (std::size_t r = 0; r < 3; ++r) {
      for (std::size_t k = 0; k < 3; ++k) stamp.S[r][k] = c[(k + 3 - r) % 3];
    }
    out.stamps.push_back(stamp);
  } else {
    // Two live lines see both sequences in series: each phase counts with half of Z1 + Z2.
    Phasor each = 1.0 / part(i).dc_Ohm;
    if (ac) {
      const bool still = load.forward_S == Phasor{} || load.backward_S == Phasor{};
      each = still ? Phasor{} : 2.0 / (1.0 / load.forward_S + 1.0 / load.backward_S);
    }
    Phasor sum{};
    for (int k = 0; k < 3; ++k) {
      branch[static_cast<std::size_t>(k)] = broken(i, k) ? Phasor{} : each / (ac ? 1.0 : factor(i, k));
      sum += branch[static_cast<std::size_t>(k)];
    }
    for (std::size_t r = 0; r < 3 && sum != Phasor{}; ++r) {
      for (std::size_t k = 0; k < 3; ++k)
        stamp.S[r][k] = (r == k ? branch[r] : Phasor{}) - branch[r] * branch[k] / sum;
    }
    if (sum != Phasor{}) out.stamps.push_back(stamp);
  }
  insulation(i, 0, 3);
}

// Alternating: ideal ratio with the whole short-circuit resistance on the secondary side, and a magnetising
// branch of a tenth of the rated power on the primary. Direct: two separate windings.
void Builder::transformer(int i) {
  const CircuitPart& p = part(i);
  const bool primary = !broken(i, 0);
  const bool secondary = !broken(i, 1);
  if (!ac) {
    if (primary) Ohm(at(i, 0), at(i, 1), p.dc_Ohm * factor(i, 0));
    if (secondary) Ohm(at(i, 2), at(i, 3), p.secondary_Ohm * factor(i, 1));
    return;
  }
  if (!primary) return;
  between(at(i, 0), at(i, 1), Phasor(0.0, -0.1 * p.rated_VA / (p.rated_V * p.rated_V)));
  if (!secondary) return;
  const double n = p.rated_V / p.secondary_V;
  const double S = p.rated_VA / (p.secondary_V * p.secondary_V * p.short_norm);
  const std::array<double, 4> turns = {1.0 / n, -1.0 / n, -1.0, 1.0};
  Stamp stamp;
  stamp.size = 4;
  for (int r = 0; r < 4; ++r) {
    stamp.at[static_cast<std::size_t>(r)] = at(i, r);
    for (int k = 0; k < 4; ++k)
      stamp.S[static_cast<std::size_t>(r)][static_cast<std::size_t>(k)] =
          S * turns[static_cast<std::size_t>(r)] * turns[static_cast<std::size_t>(k)];
  }
  out.stamps.push_back(stamp);
}

void Builder::controller(int i) {
  const CircuitPart& p = part(i);
  if (ac) between(at(i, 0), at(i, 1), p.rated_W / (p.rated_V * p.rated_V));
  const bool works = gear.is_in(i) && !is_dead(gear, i);
  contact(i, 0, 2, works && is(Switch::heat_wanted));
  contact(i, 1, 4, works && is(Switch::drive_wanted));
  contact(i, 2, 6, works && is(Switch::chill_wanted));
  if (ac) return;
  const std::uint16_t plus = at(i, 8);
  const std::uint16_t minus = at(i, 9);
  const double on = gear.is_in(i) && sources ? 1.0 : 0.0;
  // Stiff while it works; without supply a resistance as an unfed output has.
  if (on > 0.0)
    out.sources.push_back({plus, on * controller_V});
  else
    Ohm(plus, minus, 2.2e3);
  for (int k = 0; k < controller_inputs; ++k) Ohm(at(i, 10 + k), minus, input_Ohm * factor(i, k));
  // A source behind a resistor counts as the same current beside it (Norton); T2 and E2 lie on minus.
  join(at(i, 17), minus);
  join(at(i, 20), minus);
  Ohm(at(i, 16), minus, probe_series_Ohm);
  Ohm(at(i, 18), minus, sense_Ohm);
  Ohm(at(i, 19), minus, thermistor_series_Ohm);
  if (on > 0.0) {
    out.injections.push_back({at(i, 16), probe_source_V / probe_series_Ohm});
    out.injections.push_back({at(i, 19), probe_source_V / thermistor_series_Ohm});
  }
}

void Builder::sensor(int i) {
  const CircuitPart& p = part(i);
  const bool platinum = p.kind == CircuitPartKind::pt100;
  const double value =
      platinum ? pt_Ohm(p.dc_Ohm, now.probe_degC) : ntc_Ohm(p.dc_Ohm, p.beta_K, now.evaporator_degC);
  if (!broken(i, 0)) Ohm(at(i, 0), at(i, 1), value * factor(i, 0));
  if (platinum) join(at(i, 1), at(i, 2));
}

void Builder::build_part(int i) {
  const CircuitPart& p = part(i);
  switch (p.kind) {
    case CircuitPartKind::supply: return supply(i);
    case CircuitPartKind::isolator: return contacts(i, 0, is(Switch::isolator_on));
    case CircuitPartKind::breaker: return contacts(i, 0, !gear.is_tripped(i));
    case CircuitPartKind::contactor: return contactor(i);
    case CircuitPartKind::overload: return overload(i);
    case CircuitPartKind::guard: return guard(i);
    case CircuitPartKind::element:
      if (!broken(i, 0)) Ohm(at(i, 0), at(i, 1), p.rated_V * p.rated_V / p.rated_W * factor(i, 0));
      return insulation(i, 0, 2);
    case CircuitPartKind::motor: return motor(i);
    case CircuitPartKind::fan:
      if (!broken(i, 0)) {
        const double z = p.rated_V * p.rated_V * p.power_factor / p.rated_W * factor(i, 0);
        between(
            at(i, 0), at(i, 1),
            ac ? 1.0 / std::polar(z, std::acos(p.power_factor)) : Phasor(1.0 / (p.dc_Ohm * factor(i, 0))));
      }
      return insulation(i, 0, 2);
    case CircuitPartKind::transformer: return transformer(i);
    case CircuitPartKind::controller: return controller(i);
    case CircuitPartKind::pt100:
    case CircuitPartKind::ntc: return sensor(i);
    case CircuitPartKind::strip:
    case CircuitPartKind::count: return;
  }
}

void Builder::build_wires() {
  for (std::size_t w = 0; w < net.joins.size(); ++w) {
    const auto [from, to] = net.joins[w];
    const Defect* loose = defect(DefectKind::wire_Ohm, static_cast<int>(w), 0);
    if (loose == nullptr)
      join(from, to, static_cast<int>(w));
    else if (loose->value < broken_Ohm)
      between(from, to, 1.0 / std::max(loose->value, 1.0e-6), static_cast<int>(w));
  }
}

void Builder::build_defects() {
  const int source = net.by_role(CircuitPartKind::supply, CircuitRole::none);
  for (std::uint32_t k = 0; k < gear.defect_count; ++k) {
    const Defect& d = gear.defects[k];
    if (d.kind == DefectKind::leak_Ohm) Ohm(d.target, at(source, 4), d.value);
    if (d.kind == DefectKind::bridge_Ohm) Ohm(d.target, d.pole, d.value);
  }
}

}  // namespace

double resistance_factor(const Switchgear& gear, int part, int pole) {
  double out = 1.0;
  for (std::uint32_t i = 0; i < gear.defect_count; ++i) {
    const Defect& d = gear.defects[i];
    if (d.kind == DefectKind::resistance_factor && d.target == part && d.pole == pole) out *= d.value;
  }
  return out;
}

bool is_dead(const Switchgear& gear, int part) {
  for (std::uint32_t i = 0; i < gear.defect_count; ++i) {
    if (gear.defects[i].kind == DefectKind::dead && gear.defects[i].target == part) return true;
  }
  return false;
}

NetworkBranches assemble(const Network& network, const CircuitInputs& conditions, const Switchgear& gear,
                         Current current, bool sources) {
  Builder builder{network, conditions, gear, current == Current::alternating, sources, {}};
  builder.out.branches.reserve(network.joins.size() + 4 * network.parts.size());
  builder.build_wires();
  for (std::size_t i = 0; i < network.parts.size(); ++i) builder.build_part(static_cast<int>(i));
  builder.build_defects();
  return std::move(builder.out);
}

}  // namespace stirbench::electrics
