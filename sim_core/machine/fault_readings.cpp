#include "sim_core/machine/fault_readings.h"

#include <algorithm>
#include <charconv>
#include <cmath>

#include "sim_core/electrics/solve.h"
#include "sim_core/machine/number_words.h"
#include "sim_core/plant/electrical_link.h"

// What the instruments show, in numbers and words; what is still wrong; what it took.
namespace stirbench::machine {

namespace {

namespace w = electrics;

// The circuit with what the person has taken off, and with the isolator's pole that does not open.
w::Switchgear gear_at_hand(const Machine& machine, const State& state) {
  w::Switchgear gear = state.plant.circuit.gear;
  const int isolator = machine.plant.circuit.by_role(w::CircuitPartKind::isolator, w::CircuitRole::none);
  if (state.lockout.situation.isolator_pole_stuck && isolator >= 0)
    gear.add({w::DefectKind::stuck_closed, static_cast<std::uint16_t>(isolator), 0, 0.0});
  for (const std::int32_t off : state.work.wires_off) {
    if (off > 0) gear.add({w::DefectKind::wire_Ohm, static_cast<std::uint16_t>(off - 1), 0, 1.0e12});
  }
  return gear;
}

w::CircuitInputs conditions_of(const Machine& machine, const State& state) {
  return plant::circuit_inputs(machine.plant, state.plant, plant::last_wanted(state.plant));
}

InstrumentReading shown(const w::MeterReading& reading, std::uint64_t tick) {
  return {.taken = true,
          .value = reading.over_range ? 0.0 : reading.value,
          .second = 0.0,
          .resolution = reading.resolution,
          .over_range = reading.over_range,
          .sounds = reading.sounds,
          .mishap = reading.mishap,
          .tick = tick};
}

InstrumentReading electric(const Machine& machine, const State& state) {
  const FaultWork& work = state.work;
  const w::Network& network = machine.plant.circuit;
  const auto [now, gear] = circuit_now(machine, state);
  w::Meter meter{.range = 0.0,
                 .error = work.instrument_error,
                 .fuse_blown = work.fuse_blown && work.tool == Instrument::multimeter};
  const w::MeterUser hands{.licensed = state.lockout.situation.trade == faults::Who::electrician,
                           .shrouded_probes = true};
  // A broken meter shows nothing, whatever is there: why it is proved before and after.
  if (work.tool == Instrument::multimeter && state.lockout.situation.meter_broken &&
      work.function == w::MeterFunction::alternating_V)
    return {.taken = true, .resolution = 1.0, .tick = state.tick};
  const auto a = static_cast<std::uint16_t>(std::max(0, work.red));
  const auto b = static_cast<std::uint16_t>(std::max(0, work.black));
  switch (work.tool) {
    case Instrument::multimeter:
      return shown(w::multimeter(network, now, gear, work.function, meter, a, b, hands), state.tick);
    case Instrument::insulation_tester:
      return shown(w::insulation_tester(network, now, gear, meter, 500.0, a, b, hands), state.tick);
    default: break;
  }
  const int wire = work.round;
  return shown(w::clamp_meter(network, now, gear, meter, {&wire, 1}), state.tick);
}

int decimals(double resolution) {
  return resolution >= 1.0 || !(resolution > 0.0)
             ? 0
             : std::min(3, static_cast<int>(std::ceil(-std::log10(resolution) - 1.0e-9)));
}

std::string ohms(double value, double resolution) {
  if (value >= 1.0e6) return with_unit(value / 1.0e6, decimals(resolution / 1.0e6), "MOhm");
  if (value >= 1.0e3) return with_unit(value / 1.0e3, decimals(resolution / 1.0e3), "kOhm");
  return with_unit(value, decimals(resolution), "Ohm");
}

bool holds_mark(const std::array<std::uint64_t, most_causes>& list, std::uint64_t mark) {
  return std::find(list.begin(), list.end(), mark) != list.end();
}

bool was_in(const State& state, std::uint64_t mark) {
  const auto& faults = state.plant.faults;
  const bool is_in = std::any_of(faults.begin(), faults.end(),
                                 [mark](const plant::ActiveFault& one) { return one.mark == mark; });
  return is_in || holds_mark(state.work.mended, mark);
}

// A misuse that hands have put right: nothing of it is left but the hands' positions, and those are good.
bool put_right(const State& state, const faults::Fault& fault) {
  const plant::Fittings& f = state.plant.fittings;
  for (const faults::Change& change : fault.changes) {
    switch (change.target) {
      case faults::FaultTarget::isolator_off:
        if (!f.isolator_on) return false;
        break;
      case faults::FaultTarget::lid_open:
        if (f.lid_open) return false;
        break;
      case faults::FaultTarget::cover_open:
        if (f.shaft_cover_open) return false;
        break;
      case faults::FaultTarget::draw_open_norm:
        if (f.draw_opening_norm > 0.0) return false;
        break;
      default: return false;
    }
  }
  return true;
}

}  // namespace

double work_min(const State& state) { return time_s(state) / 60.0 + state.work.hand_min; }

bool probes_placed(const FaultWork& work) {
  switch (work.tool) {
    case Instrument::multimeter:
    case Instrument::insulation_tester: return work.red >= 0 && work.black >= 0;
    case Instrument::clamp_meter: return work.round >= 0;
    case Instrument::contact_thermometer: return work.point >= 0;
    case Instrument::gauge_set: return work.gauges_on;
    case Instrument::none:
    case Instrument::count: break;
  }
  return false;
}

CircuitNow circuit_now(const Machine& machine, const State& state) {
  CircuitNow out{conditions_of(machine, state), gear_at_hand(machine, state)};
  w::settle_relays(machine.plant.circuit, out.now, out.gear);
  return out;
}

InstrumentReading reading_now(const Machine& machine, const State& state) {
  const FaultWork& work = state.work;
  if (!probes_placed(work)) return {};
  if (work.tool == Instrument::contact_thermometer) {
    const auto r = plant::contact_thermometer(state.plant, static_cast<plant::ContactPoint>(work.point),
                                              work.instrument_error);
    return {.taken = true,
            .value = r.over_range ? 0.0 : r.value_degC,
            .second = 0.0,
            .resolution = 0.1,
            .over_range = r.over_range,
            .tick = state.tick};
  }
  if (work.tool == Instrument::gauge_set) {
    const plant::GaugeReading g =
        plant::gauge_set(state.plant, work.instrument_error, -work.instrument_error);
    return {.taken = true, .value = g.low_bar, .second = g.high_bar, .resolution = 0.02, .tick = state.tick};
  }
  return electric(machine, state);
}

double wire_V(const Machine& machine, const State& state, int wire) {
  const w::Network& network = machine.plant.circuit;
  if (wire < 0 || static_cast<std::size_t>(wire) >= network.joins.size()) return 0.0;
  const auto [now, gear] = circuit_now(machine, state);
  const w::Solution s = w::solve(network, now, gear, w::Current::alternating);
  const auto& join = network.joins[static_cast<std::size_t>(wire)];
  return std::max(std::abs(s.volt[join.from]), std::abs(s.volt[join.to]));
}

std::string reading_words(const FaultWork& work) {
  const InstrumentReading& r = work.reading;
  if (!r.taken) return "-";
  if (r.over_range) return "OL";
  switch (work.tool) {
    case Instrument::multimeter:
      if (work.function == w::MeterFunction::continuity)
        return ohms(r.value, r.resolution) + (r.sounds ? ", it sounds" : ", silent");
      if (work.function == w::MeterFunction::Ohm) return ohms(r.value, r.resolution);
      return with_unit(r.value, decimals(r.resolution),
                       work.function == w::MeterFunction::direct_V ? "V=" : "V~");
    case Instrument::insulation_tester: return ohms(r.value, r.resolution);
    case Instrument::clamp_meter: return with_unit(r.value, decimals(r.resolution), "A");
    case Instrument::contact_thermometer: return with_unit(r.value, 1, "°C");
    case Instrument::gauge_set:
      return with_unit(r.value, 2, "bar low") + ", " + with_unit(r.second, 2, "bar high");
    case Instrument::none:
    case Instrument::count: break;
  }
  return "-";
}

int faults_left(const Machine& machine, const State& state) {
  int left = 0;
  for (const plant::ActiveFault& active : state.plant.faults) {
    if (active.mark == 0) continue;
    const auto known =
        std::find_if(machine.faults.begin(), machine.faults.end(),
                     [&](const faults::Fault& one) { return faults::fault_id_hash(one.id) == active.mark; });
    const bool gone =
        known != machine.faults.end() && known->kind == faults::FaultKind::misuse && put_right(state, *known);
    left += gone ? 0 : 1;
  }
  return left;
}

bool is_left(const State& state, const faults::Fault& fault) {
  const std::uint64_t mark = faults::fault_id_hash(fault.id);
  const bool in_it = std::any_of(state.plant.faults.begin(), state.plant.faults.end(),
                                 [mark](const plant::ActiveFault& one) { return one.mark == mark; });
  return in_it && !(fault.kind == faults::FaultKind::misuse && put_right(state, fault));
}

int causes_found(const State& state) {
  int found = 0;
  for (const std::uint64_t mark : state.work.named) found += mark != 0 && was_in(state, mark) ? 1 : 0;
  return found;
}

int causes_wrong(const State& state) {
  int wrong = 0;
  for (const std::uint64_t mark : state.work.named) wrong += mark != 0 && !was_in(state, mark) ? 1 : 0;
  return wrong;
}

int causes_missed(const State& state) {
  int missed = 0;
  for (const plant::ActiveFault& one : state.plant.faults)
    missed += one.mark != 0 && !holds_mark(state.work.named, one.mark) ? 1 : 0;
  for (const std::uint64_t mark : state.work.mended)
    missed += mark != 0 && !holds_mark(state.work.named, mark) ? 1 : 0;
  return missed;
}

void advance_fault_work(const Machine& machine, State& state) {
  FaultWork& work = state.work;
  const std::array<bool, 3> runs{state.contactors.heat_norm > 0.0, state.contactors.drive_on,
                                 state.contactors.chiller_on};
  for (std::size_t i = 0; i < runs.size(); ++i) {
    if (runs[i] && work.ran_ticks[i] < 1000000U) ++work.ran_ticks[i];
  }
  if (work.tool == Instrument::none || state.tick % ticks_per_second != 0 || !probes_placed(work)) return;
  const InstrumentReading before = work.reading;
  work.reading = reading_now(machine, state);
  // Ohms, and the circuit came alive under the probes.
  if (work.reading.mishap == w::Mishap::fuse_blown) work.fuse_blown = true;
  if (work.reading.mishap == w::Mishap::fuse_blown && before.mishap != w::Mishap::fuse_blown)
    ++state.work.lapses[static_cast<std::size_t>(Lapse::ohms_live)];
}

}  // namespace stirbench::machine
