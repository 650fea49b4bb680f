#include <algorithm>

#include "sim_core/hands/procedure.h"

// What voltage readings say about the procedure: the meter proved on a source known to be live, the machine
// proved dead on all poles, the meter proved again (EN 50110-1, 6.2.4, from memory: dead has to be verified
// on all poles).
namespace stirbench::hands {

namespace {

namespace w = electrics;
using machine::FaultWork;
using machine::Instrument;
using machine::Lockout;
using machine::touch_V;
using L = machine::LockoutStep;

constexpr int earth = 4;  // after three lines and the neutral
constexpr int conductors = 5;

bool joined(const w::Network& network, int a, int b) {
  if (a == b) return true;
  return std::any_of(network.joins.begin(), network.joins.end(), [&](const w::Network::Join& join) {
    return (join.from == a && join.to == b) || (join.from == b && join.to == a);
  });
}

// 0 .. 2 a line, 3 the neutral behind the isolator, where its outlets and the terminals joined to them are; 4
// earth; -1 anything else.
int conductor_at(const w::Network& network, int terminal) {
  const int isolator = network.by_role(w::CircuitPartKind::isolator, w::CircuitRole::none);
  const int supply = network.by_role(w::CircuitPartKind::supply, w::CircuitRole::none);
  if (isolator < 0 || supply < 0) return -1;
  const int poles = network.parts[static_cast<std::size_t>(isolator)].poles;
  for (int pole = 0; pole < poles; ++pole) {
    if (joined(network, terminal, network.at(isolator, 2 * pole + 1))) return pole;
  }
  return joined(network, terminal, network.at(supply, earth)) ? earth : -1;
}

std::uint32_t pair_bit(int a, int b) {
  return 1U << static_cast<unsigned>(std::min(a, b) * conductors + std::max(a, b));
}

// Lines against each other, lines and neutral against earth.
std::uint32_t all_pairs(const w::Network& network) {
  const int isolator = network.by_role(w::CircuitPartKind::isolator, w::CircuitRole::none);
  const int poles = isolator < 0 ? 0 : network.parts[static_cast<std::size_t>(isolator)].poles;
  std::uint32_t bits = 0;
  for (int a = 0; a < poles; ++a) {
    for (int b = a + 1; b < std::min(poles, 3); ++b) bits |= pair_bit(a, b);
    bits |= pair_bit(a, earth);
  }
  return bits;
}

int count(std::uint32_t bits) {
  int n = 0;
  for (; bits != 0; bits &= bits - 1) ++n;
  return n;
}

// A line or the neutral before the isolator: live as long as the site is.
bool is_known_source(const w::Network& network, int terminal) {
  const int part = network.terminals[static_cast<std::size_t>(terminal)].part;
  const int isolator = network.by_role(w::CircuitPartKind::isolator, w::CircuitRole::none);
  if (part == isolator) return conductor_at(network, terminal) < 0;
  return is_site_side(network, part);
}

}  // namespace

bool is_site_side(const w::Network& network, int part) {
  const w::CircuitPartKind kind = network.parts[static_cast<std::size_t>(part)].kind;
  if (kind == w::CircuitPartKind::supply) return true;
  if (kind != w::CircuitPartKind::breaker) return false;
  const int supply = network.by_role(w::CircuitPartKind::supply, w::CircuitRole::none);
  for (const auto& join : network.joins) {
    const int from = network.terminals[join.from].part;
    const int to = network.terminals[join.to].part;
    if ((from == supply && to == part) || (to == supply && from == part)) return true;
  }
  return false;
}

std::string note_source_reading(State& state, bool live) {
  Lockout& lockout = state.lockout;
  state.work.dead_pairs = 0;
  if (!live) {
    for (const L step : {L::meter_proved, L::dead_measured, L::meter_proved_again}) unmark(state, step);
    return "It is broken: take another one.";
  }
  if (step_of(lockout, L::meter_proved).done && step_of(lockout, L::dead_measured).done) {
    mark(state, L::meter_proved_again);
  } else {
    unmark(state, L::dead_measured);
    mark(state, L::meter_proved);
  }
  return "It works.";
}

void note_terminals_reading(State& state, bool live) {
  if (!live) return mark(state, L::dead_measured);
  unmark(state, L::dead_measured);
  unmark(state, L::meter_proved_again);
  state.work.dead_pairs = 0;
}

std::string note_proving(const Machine& machine, State& state) {
  FaultWork& work = state.work;
  const w::Network& network = machine.plant.circuit;
  const bool volts = work.tool == Instrument::multimeter && work.function == w::MeterFunction::alternating_V;
  if (!volts || work.red < 0 || work.black < 0 || work.red == work.black) return {};
  const bool live = work.reading.over_range || work.reading.value > touch_V;
  if (is_known_source(network, work.red) && is_known_source(network, work.black))
    return "On a source known to be live: " + note_source_reading(state, live);
  const int a = conductor_at(network, work.red);
  const int b = conductor_at(network, work.black);
  if (state.plant.fittings.isolator_on || a < 0 || b < 0 || a == b) return {};
  if (live) {
    note_terminals_reading(state, true);
    return "These terminals are live: stop here.";
  }
  const std::uint32_t wanted = all_pairs(network);
  work.dead_pairs |= pair_bit(a, b) & wanted;
  if (work.dead_pairs == wanted) note_terminals_reading(state, false);
  return "No voltage: " + std::to_string(count(work.dead_pairs)) + " of " + std::to_string(count(wanted)) +
         " pairs behind the isolator (lines to each other, each pole to earth).";
}

}  // namespace stirbench::hands
