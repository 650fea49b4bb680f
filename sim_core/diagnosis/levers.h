#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "sim_core/diagnosis/broken_machine.h"

// What of a machine a fault can change, by name: the same table for the content reader, the evidence maker and the documentation.
namespace stirbench::diagnosis {

struct Lever {
  std::string_view name;       // "chiller.charge_norm"
  double low = 0.0;            // legal range of the value
  double high = 1.0;
  std::string_view unit;
  std::string_view meaning;
  void (*before)(bench::Machine&, bench::StartSetup&, double) = nullptr;   // changes the model or the start
  void (*after)(bench::State&, double) = nullptr;                          // changes the built state
};
const std::vector<Lever>& levers();
const Lever* find_lever(std::string_view name);

// One effect of a fault: the lever's value goes from `mild` to `severe` with the severity.
struct Effect {
  std::string lever;
  double mild = 0.0;
  double severe = 0.0;
  std::string protocol{};   // only in this run; empty: in all
};

struct FaultEffects {
  std::string fault;
  std::vector<Effect> effects;
};

// Faults given by their effects. Throws std::invalid_argument on an effect that no lever has, when it is made.
class LeverFaults : public FaultApplier {
 public:
  explicit LeverFaults(std::vector<FaultEffects> faults);
  bool knows(std::string_view fault) const override;
  void apply(std::string_view fault, double severity, Workpiece& piece) const override;

 private:
  std::vector<FaultEffects> faults_;
};

}  // namespace stirbench::diagnosis
