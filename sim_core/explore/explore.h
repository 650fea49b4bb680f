#pragma once

#include <array>
#include <vector>

#include "sim_core/electrics/switching.h"
#include "sim_core/explore/explore_moves.h"
#include "sim_core/explore/explore_wiring.h"

// Exploration: every state that controller, wiring, guards, keys, emergency stop and supply can reach
// together, by breadth first search over the real scan and the machine's solved circuit, each transition
// judged by the invariants. Breadth first, so that a sequence that breaks one is as short as any.
namespace stirbench::explore {

struct ExplorationRequest {
  ExplorationScope scope;
  plant::SafetyParts parts;           // what is wrong with the safety parts
  control::OmittedRules without = 0;  // rules of the controller left out
  WiringChange change =
      WiringChange::none;  // what is wired otherwise than the drawing says; the machine must have a circuit
  // Answers about the machine's wiring, kept from one question to the next that has no change; nullptr: made
  // for this question alone.
  electrics::SwitchingTable* wiring = nullptr;
  std::uint64_t most_states = 20'000'000;
  bool stop_at_first = false;  // end with the first broken invariant
};

struct ExplorationResult {
  std::uint64_t states = 0;
  std::uint64_t transitions = 0;
  bool complete = false;  // all was seen; false: most_states were, or the first breach ended it
  InvariantSet broken = 0;
  std::array<std::vector<Move>, invariant_count> sequences;  // for each broken invariant
  bool holds(Invariant invariant) const { return (broken & invariant_bit(invariant)) == 0; }
};

// Deterministic; about 100 bytes a state.
ExplorationResult explore(const machine::Machine& machine, const ExplorationRequest& question);

// Makes moves on nodes: hands, wiring, scan, relays, judge.
class Mover {
 public:
  // `wiring` is asked for what has power and what the controller reads.
  Mover(const ControllerModel& rig, const ExplorationScope& scope, electrics::SwitchingTable& wiring);
  // Returns what the move broke; false in `possible` when it cannot be made, and the node is then not meant.
  InvariantSet advance(const GroundTruth& before, const Move& move, ExplorationNode& node, bool& possible);

 private:
  // What the world alone decides: where the switches stand, readings, and what the wiring would let through.
  struct World {
    bool known = false;
    electrics::Switches switches;
    plant::SensorReadings readings;
    GroundTruth wired;
  };
  const World& world_of(const Surroundings& around);

  const ControllerModel& rig_;
  ExplorationScope scope_;
  electrics::SwitchingTable& wiring_;
  plant::PlantState plant_;
  std::array<World, 256> worlds_{};
  control::ScanNotices notices_;
};

}  // namespace stirbench::explore
