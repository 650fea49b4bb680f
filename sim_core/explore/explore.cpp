#include "sim_core/explore/explore.h"

#include <algorithm>

#include "sim_core/bench/wired_keys.h"
#include "sim_core/plant/electrical_link.h"

namespace stirbench::explore {

namespace {

constexpr std::uint32_t nowhere = ~std::uint32_t{0};

struct Known {
  Word word = 0;
  std::uint32_t parent = nowhere;
  std::uint32_t back = nowhere;  // where the way back leads from here; itself when it runs
  std::uint16_t move = 0;
};

// The states seen so far, found by their word: open addressing over indices, deterministic.
class Seen {
 public:
  Seen() : slots_(std::size_t{1} << 16, nowhere) {}

  // Index of the word's state; `fresh` when it was not known.
  std::uint32_t put(Word word, std::uint32_t parent, std::uint16_t move, bool& fresh) {
    if (2 * (states_.size() + 1) > slots_.size()) grow();
    std::size_t at = slot(word);
    for (; slots_[at] != nowhere; at = (at + 1) & (slots_.size() - 1)) {
      if (states_[slots_[at]].word != word) continue;
      fresh = false;
      return slots_[at];
    }
    fresh = true;
    const auto index = static_cast<std::uint32_t>(states_.size());
    slots_[at] = index;
    states_.push_back({word, parent, nowhere, move});
    return index;
  }
  std::vector<Known>& states() { return states_; }

 private:
  std::size_t slot(Word word) const {
    word ^= word >> 31;
    word *= 0x9e3779b97f4a7c15ULL;
    word ^= word >> 29;
    word *= 0xbf58476d1ce4e5b9ULL;
    return static_cast<std::size_t>(word ^ word >> 32) & (slots_.size() - 1);
  }
  void grow() {
    slots_.assign(slots_.size() * 2, nowhere);
    for (std::uint32_t i = 0; i < states_.size(); ++i) {
      std::size_t at = slot(states_[i].word);
      while (slots_[at] != nowhere) at = (at + 1) & (slots_.size() - 1);
      slots_[at] = i;
    }
  }
  std::vector<std::uint32_t> slots_;
  std::vector<Known> states_;
};

std::vector<Move> path_to(const std::vector<Known>& states, std::uint32_t index) {
  std::vector<Move> moves;
  for (; states[index].parent != nowhere; index = states[index].parent)
    moves.push_back(all_moves()[states[index].move]);
  std::reverse(moves.begin(), moves.end());
  return moves;
}

// First state from which the way back does not end in running; nowhere when there is none.
std::uint32_t first_dead_end(const std::vector<Known>& states) {
  enum : std::uint8_t { unknown, walking, good, bad };
  std::vector<std::uint8_t> mark(states.size(), unknown);
  std::vector<std::uint32_t> way;
  for (std::uint32_t start = 0; start < states.size(); ++start) {
    std::uint32_t at = start;
    way.clear();
    while (at != nowhere && mark[at] == unknown && states[at].back != at) {
      mark[at] = walking;
      way.push_back(at);
      at = states[at].back;
    }
    const bool runs = at != nowhere && (mark[at] == good || (mark[at] == unknown && states[at].back == at));
    for (const std::uint32_t one : way) mark[one] = runs ? good : bad;
    if (at != nowhere && mark[at] == unknown) mark[at] = runs ? good : bad;
    if (mark[start] == bad) return start;
  }
  return nowhere;
}

bool same_move(const Move& move, Stimulus step) {
  return move.first == step && move.second == Stimulus::none;
}

}  // namespace

Mover::Mover(const ControllerModel& rig, const ExplorationScope& scope, electrics::SwitchingTable& wiring)
    : rig_(rig), scope_(scope), wiring_(wiring) {
  plant_.safety = rig.parts;
}

const Mover::World& Mover::world_of(const Surroundings& around) {
  std::size_t index = 0;
  for (const bool one : {around.lid_open, around.cover_open, around.stop_in, around.fed, around.overload,
                         around.cutout, around.pressure, around.wire_open}) {
    index = index << 1U | (one ? 1U : 0U);
  }
  World& world = worlds_[index];
  if (world.known) return world;
  // The same link to the wiring as on the bench.
  plant::SafetyParts& parts = plant_.safety;
  parts.emergency_stop_in = around.stop_in;
  parts.guard_wire_shaken_s = around.wire_open ? parts.guard_wire_loose_s : 0.0;
  plant_.fittings.lid_open = around.lid_open;
  plant_.fittings.shaft_cover_open = around.cover_open;
  plant_.fittings.isolator_on = around.fed;
  plant_.overload_tripped = around.overload && !parts.overload_stuck;
  plant_.cutout_tripped = around.cutout && !parts.cutout_bridged;
  plant_.pressure_tripped = around.pressure && !parts.pressure_stuck;
  world.known = true;
  world.switches = plant::switches_of(plant_, {});
  plant::put_inputs(wiring_.of(world.switches), world.readings);
  evaluate_wiring(world.wired, wiring_, world.switches);
  return world;
}

InvariantSet Mover::advance(const GroundTruth& before, const Move& move, ExplorationNode& node,
                            bool& possible) {
  control::PanelInputs panel;
  double probe_degC = 0.0;
  possible = apply(rig_, scope_, move, node, panel, probe_degC);
  if (!possible) return 0;
  const World& world = world_of(node.around);
  plant::SensorReadings readings = world.readings;
  readings.probe_degC = probe_degC;
  panel.key = node.finger;
  bench::press_keys_as_wired(rig_.parts, panel);
  node.control.probe_seen = false;  // it does not look ahead: what the probe reads comes as it will
  notices_.clear();
  const control::Outputs outputs = control::scan({rig_.spec, rig_.recipes, machine::tick_s, 1, rig_.without},
                                                 node.control, readings, panel, notices_);
  using S = electrics::Switch;
  const electrics::Switched on = wiring_.of(world.switches.with(S::heat_wanted, outputs.heat_norm > 0.0)
                                                .with(S::drive_wanted, outputs.drive)
                                                .with(S::chill_wanted, outputs.chill));
  node.drive = on.drive;
  node.heat = on.heat;
  node.chill = on.chill;
  GroundTruth now = ground_truth(node);
  now.drive_asked = outputs.drive;
  now.heat_asked = outputs.heat_norm > 0.0;
  now.chill_asked = outputs.chill;
  now.wired_drive = world.wired.wired_drive;
  now.wired_heat = world.wired.wired_heat;
  now.wired_chill = world.wired.wired_chill;
  now.wired_heat_alone = world.wired.wired_heat_alone;
  const InvariantSet broken = judge(before, now);
  node.honest_stop = now.honest_stop;
  return broken;
}

ExplorationResult explore(const machine::Machine& machine, const ExplorationRequest& question) {
  ControllerModel rig = controller_model(machine);
  rig.parts = question.parts;
  rig.without = question.without;
  const std::vector<Move>& moves = all_moves();
  const WiredOtherwise wired = wired_otherwise(machine.plant.circuit, question.change);
  plant::MachineSpec spec = machine.plant;
  spec.circuit = wired.network;
  electrics::SwitchingTable own = plant::switching_table(spec, wired.gear);
  const bool shared = question.wiring != nullptr && question.change == WiringChange::none;
  Mover mover(rig, question.scope, shared ? *question.wiring : own);
  Seen seen;
  std::vector<Known>& states = seen.states();
  ExplorationResult answer;
  bool fresh = false;
  seen.put(pack(first_node(rig)), nowhere, 0, fresh);
  answer.complete = true;
  for (std::uint32_t at = 0; at < states.size(); ++at) {
    const ExplorationNode node = unpack(rig, states[at].word);
    const GroundTruth before = ground_truth(node);
    const Stimulus back = recovery_step(rig, node);
    if (back == Stimulus::none) states[at].back = at;
    for (std::size_t m = 0; m < moves.size(); ++m) {
      // Hands and world first, on a little copy: most moves cannot be made.
      if (!can_happen(rig, question.scope, moves[m], node)) continue;
      ExplorationNode next = node;
      bool possible = false;
      const InvariantSet broken = mover.advance(before, moves[m], next, possible);
      ++answer.transitions;
      const std::uint32_t index = seen.put(pack(next), at, static_cast<std::uint16_t>(m), fresh);
      if (back != Stimulus::none && same_move(moves[m], back)) states[at].back = index;
      for (std::size_t i = 0; (broken & ~answer.broken) >> i != 0; ++i) {
        if (((broken & ~answer.broken) >> i & 1U) == 0) continue;
        answer.sequences[i] = path_to(states, at);
        answer.sequences[i].push_back(moves[m]);
      }
      answer.broken |= broken;
    }
    const bool enough =
        states.size() >= question.most_states || (question.stop_at_first && answer.broken != 0);
    if (enough) {
      answer.complete = at + 1 == states.size();
      if (!answer.complete) break;
    }
  }
  answer.states = states.size();
  if (!answer.complete) return answer;
  const std::uint32_t dead_end = first_dead_end(states);
  if (dead_end == nowhere) return answer;
  answer.broken |= invariant_bit(Invariant::way_back_to_running);
  answer.sequences[static_cast<std::size_t>(Invariant::way_back_to_running)] = path_to(states, dead_end);
  return answer;
}

}  // namespace stirbench::explore
