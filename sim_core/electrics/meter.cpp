#include "sim_core/electrics/meter.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "sim_core/electrics/solve.h"

namespace stirbench::electrics {
namespace {

constexpr double counts = 6000.0;

struct Volts {
  double alternating = 0.0;
  double direct = 0.0;
  bool live() const { return alternating > live_touch_V || std::abs(direct) > live_touch_direct_V; }
};

double apart(const Solution& s, std::uint16_t a, std::uint16_t b) { return std::abs(s.volt[a] - s.volt[b]); }

Volts loaded_volts(const Network& network, const CircuitInputs& now, const Switchgear& gear, std::uint16_t a,
                   std::uint16_t b) {
  const InstrumentBranch load{a, b, 1.0 / meter_Ohm, 0.0};
  const Solution direct = solve(network, now, gear, Current::direct, true, &load);
  return {apart(solve(network, now, gear, Current::alternating, true, &load), a, b),
          (direct.volt[a] - direct.volt[b]).real()};
}

// Whether a probe is on something that can hurt: against the other probe or against earth.
Mishap touching(const Network& network, const CircuitInputs& now, const Switchgear& gear, std::uint16_t a,
                std::uint16_t b, const MeterUser& hands) {
  const Solution s = solve(network, now, gear, Current::alternating);
  const bool live = std::abs(s.volt[a]) > live_touch_V || std::abs(s.volt[b]) > live_touch_V;
  if (!live) return Mishap::none;
  if (!hands.licensed) return Mishap::unlicensed_live;
  return hands.shrouded_probes ? Mishap::none : Mishap::slip;
}

// Accuracy and last digit of a display of `counts`.
void show(MeterReading& out, double full_scale, double display_counts, double share, double digits,
          double error) {
  out.resolution = full_scale / display_counts;
  const double sign = out.exact < 0.0 ? -1.0 : 1.0;
  const double value = out.exact * (1.0 + error * share) + sign * error * digits * out.resolution;
  out.value = std::round(value / out.resolution) * out.resolution;
  if (std::abs(out.value) < 0.5 * out.resolution) out.value = 0.0;
  if (std::abs(value) <= full_scale * (1.0 + 1.0e-9)) return;
  out.over_range = true;
  if (out.mishap == Mishap::none) out.mishap = Mishap::over_range;
}

template <std::size_t n>
double choose_range(const std::array<double, n>& ranges, double wanted, double value) {
  if (wanted > 0.0) {
    const auto at = std::find_if(ranges.begin(), ranges.end(), [&](double r) { return r >= wanted * 0.999; });
    return at != ranges.end() ? *at : ranges.back();
  }
  const auto at = std::find_if(ranges.begin(), ranges.end(), [&](double r) { return r >= std::abs(value); });
  return at != ranges.end() ? *at : ranges.back();
}

constexpr std::array<double, 3> volt_ranges = {6.0, 60.0, 600.0};
constexpr std::array<double, 6> ohm_ranges = {600.0, 6.0e3, 60.0e3, 600.0e3, 6.0e6, 60.0e6};

// Whether test voltage reaches a terminal of the electronics: high there, or the probe is on it.
bool reaches_electronics(const Network& network, const Solution& s, std::uint16_t a, std::uint16_t b) {
  const auto on_it = [&](std::size_t t, std::uint16_t probe) {
    return s.volt[t] == s.volt[probe] && std::abs(s.volt[probe]) > 1.0e-3;
  };
  for (std::size_t p = 0; p < network.parts.size(); ++p) {
    const CircuitPart& part = network.parts[p];
    if (part.kind != CircuitPartKind::controller && part.kind != CircuitPartKind::pt100 &&
        part.kind != CircuitPartKind::ntc)
      continue;
    const std::size_t end = p + 1 < network.first.size() ? network.first[p + 1] : network.terminals.size();
    for (std::size_t t = network.first[p]; t < end; ++t) {
      if (std::abs(s.volt[t]) > 60.0 || on_it(t, a) || on_it(t, b)) return true;
    }
  }
  return false;
}

}  // namespace

std::string_view meter_function_word(MeterFunction function) {
  switch (function) {
    case MeterFunction::alternating_V: return "V~";
    case MeterFunction::direct_V: return "V=";
    case MeterFunction::Ohm: return "Ohm";
    case MeterFunction::continuity: return "continuity";
    case MeterFunction::count: break;
  }
  return "";
}

std::string_view mishap_key(Mishap mishap) {
  switch (mishap) {
    case Mishap::none: return "none";
    case Mishap::over_range: return "over_range";
    case Mishap::live_reading: return "live_reading";
    case Mishap::fuse_blown: return "fuse_blown";
    case Mishap::unlicensed_live: return "unlicensed_live";
    case Mishap::slip: return "slip";
    case Mishap::electronics_dead: return "electronics_dead";
    case Mishap::count: break;
  }
  return "";
}

std::string_view mishap_words(Mishap mishap) {
  switch (mishap) {
    case Mishap::over_range:
      return "More than this range can show. Choose a higher one, or let the meter choose.";
    case Mishap::live_reading:
      return "There is voltage on this circuit: the number means nothing. Isolate, lock and prove dead "
             "before measuring resistance.";
    case Mishap::fuse_blown:
      return "Resistance was measured on a live circuit: the meter's fuse is blown and it now shows nothing "
             "even where there is voltage. "
             "Prove a meter on a known source before and after. Isolate and lock before measuring "
             "resistance.";
    case Mishap::unlicensed_live:
      return "This part is live. Measuring on live parts is for licensed people. Isolate and lock, or call "
             "one.";
    case Mishap::slip:
      return "Bare tips between live parts: one slip is a short circuit with an arc. Use shrouded probes "
             "rated for the place, or isolate.";
    case Mishap::electronics_dead:
      return "The test voltage reached the controller or a sensor and destroyed it. Take its plugs off "
             "before an insulation test.";
    case Mishap::none:
    case Mishap::count: break;
  }
  return "";
}

MeterReading multimeter(const Network& network, const CircuitInputs& conditions, const Switchgear& gear,
                        MeterFunction function, Meter& meter, std::uint16_t a, std::uint16_t b,
                        const MeterUser& hands) {
  MeterReading out;
  out.mishap = touching(network, conditions, gear, a, b, hands);
  const bool volts_wanted = function == MeterFunction::alternating_V || function == MeterFunction::direct_V;
  if (meter.fuse_blown) {
    out.over_range = !volts_wanted;
    out.resolution = volts_wanted ? 0.001 : 0.1;
    return out;
  }
  const Volts volts = loaded_volts(network, conditions, gear, a, b);
  if (volts_wanted) {
    out.exact = function == MeterFunction::alternating_V ? volts.alternating : volts.direct;
    const bool direct = function == MeterFunction::direct_V;
    show(out, choose_range(volt_ranges, meter.range, out.exact), counts, direct ? 0.005 : 0.01,
         direct ? 2.0 : 3.0, meter.error);
    return out;
  }
  if (volts.live()) {
    meter.fuse_blown = true;
    out.over_range = true;
    out.mishap = Mishap::fuse_blown;
    return out;
  }
  constexpr double test_A = 1.0e-3;
  const InstrumentBranch probe{a, b, 0.0, test_A};
  const Solution s = solve(network, conditions, gear, Current::direct, false, &probe);
  out.exact = std::max(0.0, (s.volt[a] - s.volt[b]).real() / test_A);
  if (volts.alternating > 1.0 || std::abs(volts.direct) > 1.0) {
    out.mishap = Mishap::live_reading;
    out.exact += volts.alternating * 800.0 +
                 volts.direct * 1000.0;  // what the meter's own circuit makes of it (choice)
  }
  const double full =
      function == MeterFunction::continuity ? 600.0 : choose_range(ohm_ranges, meter.range, out.exact);
  show(out, full, counts, 0.009, 2.0, meter.error);
  // An open circuit is what a resistance range shows as OL; that is an answer, not a mistake.
  if (out.mishap == Mishap::over_range && (meter.range == 0.0 || function == MeterFunction::continuity))
    out.mishap = Mishap::none;
  out.sounds = function == MeterFunction::continuity && !out.over_range && out.value < 30.0;
  return out;
}

MeterReading clamp_meter(const Network& network, const CircuitInputs& conditions, const Switchgear& gear,
                         const Meter& meter, std::span<const int> wires) {
  const Solution s = solve(network, conditions, gear, Current::alternating);
  Phasor sum{};
  for (const int w : wires) sum += s.wire_A[static_cast<std::size_t>(w)];
  MeterReading out;
  out.exact = std::abs(sum);
  show(out, choose_range(std::array{40.0, 400.0}, meter.range, out.exact), 4000.0, 0.02,
       out.exact > 0.0 ? 5.0 : 0.0, meter.error);
  return out;
}

MeterReading insulation_tester(const Network& network, const CircuitInputs& conditions,
                               const Switchgear& gear, Meter& meter, double test_V, std::uint16_t a,
                               std::uint16_t b, const MeterUser& hands) {
  MeterReading out;
  out.mishap = touching(network, conditions, gear, a, b, hands);
  const Volts volts = loaded_volts(network, conditions, gear, a, b);
  if (meter.fuse_blown || volts.alternating > 25.0 || std::abs(volts.direct) > 25.0) {
    // Such a tester refuses and warns above 25 V; it is not broken by it.
    out.over_range = true;
    if (out.mishap == Mishap::none) out.mishap = Mishap::live_reading;
    return out;
  }
  const double inner_Ohm = test_V / 1.0e-3;
  const InstrumentBranch probe{a, b, 1.0 / inner_Ohm, test_V / inner_Ohm};
  const Solution s = solve(network, conditions, gear, Current::direct, false, &probe);
  const double left_V = (s.volt[a] - s.volt[b]).real();
  const double A = (test_V - left_V) / inner_Ohm;
  out.exact = A > 1.0e-12 ? left_V / A : 1.0e12;
  if (reaches_electronics(network, s, a, b)) out.mishap = Mishap::electronics_dead;
  show(out, choose_range(std::array{4.0e6, 40.0e6, 400.0e6, 4.0e9}, meter.range, out.exact), 4000.0, 0.03,
       5.0, meter.error);
  if (out.mishap == Mishap::over_range) out.mishap = Mishap::none;
  return out;
}

}  // namespace stirbench::electrics
