#pragma once

#include <cstdint>

#include "sim_core/explore/invariants.h"
#include "sim_core/machine/machine.h"

// One state of the exploration: controller and wiring are the real ones, the plant is a few bits. 64 bits
// hold all that decides what can come next; the rest of ControlState is dead for it (times, counts for
// people, texts) or normalised:
//  * one bit stands for "some standing alarm waits to be acknowledged": Stop acknowledges all of them at
//    once;
//  * without supply the causes' flags are not kept: the next scan with supply reads them anew before anything
//    uses them;
//  * the recipe's phases last one tick, its stirring cycle two.
namespace stirbench::explore {

// What is true around the controller. A cause is present whether or not its switch reports it.
struct Surroundings {
  bool lid_open = false, cover_open = false, stop_in = false, fed = true;
  bool overload = false, cutout = false, pressure = false;
  bool wire_open = false;  // the loose wire of the guard loop, where there is one
};

struct ExplorationNode {
  control::ControlState control;
  Surroundings around;
  std::array<bool, control::key_count> finger{};
  bool honest_stop = false;
  bool drive = false, heat = false, chill = false;
};

using Word = std::uint64_t;
Word pack(const ExplorationNode& node);

// The controller's constants and a recipe with one phase of each kind, each as short as can be; all else as
// the machine has it.
struct ControllerModel {
  control::ControlSpec spec;
  std::vector<control::Recipe> recipes;
  plant::SafetyParts parts;           // what is wrong
  control::OmittedRules without = 0;  // rules left out
};
ControllerModel controller_model(const machine::Machine& machine);
ExplorationNode unpack(const ControllerModel& rig, Word word);
ExplorationNode first_node(const ControllerModel& rig);
GroundTruth ground_truth(const ExplorationNode& node);  // as far as the judge looks at the scene before

}  // namespace stirbench::explore
