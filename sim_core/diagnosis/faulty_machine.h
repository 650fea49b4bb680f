#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include "sim_core/bench/step.h"
#include "sim_core/diagnosis/model.h"
#include "sim_core/diagnosis/reading.h"
#include "sim_core/hands/action.h"

// Simulated broken machines: a fault of content is put into a machine, the machine is run through a few
// protocols, and every question of the model is answered from the readings. That is where all likelihoods
// come from.
namespace stirbench::diagnosis {

// A run in which readings are taken. What is loaded is poured in after the fault was set in, so that faults
// of use act on it; hands do the actions.
struct Protocol {
  std::string id;
  std::string title;
  machine::StartSetup start;
  std::vector<hands::TimedAction> actions;
  double until_s = 60.0;
};

// One machine of the sample: which fault, how bad, and an ordinary day's spread.
struct RandomMachine {
  std::size_t cause = Model::npos;  // npos: a good machine
  double severity = 1.0;            // of the fault, above 0, at most 1
  std::size_t also = Model::npos;   // a second fault at once
  double also_severity = 1.0;
  double ambient_degC = 22.0;
  double supply_norm = 1.0;
  double load_norm = 1.0;  // times each protocol's loads
  std::uint64_t seed = 1;  // of the readings' errors
};
// Severity uniform in low..high; room 16..32 degC, supply 0.95..1.05, load 0.95..1.05, all uniform: common
// practice of a kitchen.
RandomMachine random_machine(std::size_t cause, double low, double high, std::uint64_t seed);

// A machine with the questions and runs that broken ones answer: readings parsed and found once. Throws
// std::invalid_argument naming a reading that cannot be taken, a protocol that is not there, or a cause that
// is no fault of this machine.
class FaultyMachines {
 public:
  FaultyMachines(machine::Machine machine, const Model& model, std::vector<Protocol> protocols);

  // Outcome of every question (symptoms first). A machine that hurts somebody or stops early answers with
  // what it showed last.
  std::vector<std::size_t> answer_all(const RandomMachine& draw) const;
  // Raw readings of every question, without instrument errors, for those who set thresholds.
  std::vector<double> read_all(const RandomMachine& draw) const;

 private:
  struct Question {
    std::size_t number = 0;
    ParsedReading plan;
    double at_s = 0.0;
  };
  struct Run {
    Protocol protocol;
    std::vector<Question> questions;
  };
  void run(const Run& run, const RandomMachine& draw, std::vector<double>& readings) const;

  machine::Machine machine_;
  const Model& model_;
  std::vector<Run> runs_;
};

// Whether a reading can be taken on this machine. Throws std::invalid_argument naming what is unknown.
void check_reading(const machine::Machine& machine, const ReadingSpec& reading,
                   const std::vector<Protocol>& protocols);

// The outcome that a reading gives.
std::size_t outcome_of(const Model& model, std::size_t question, double reading);

}  // namespace stirbench::diagnosis
