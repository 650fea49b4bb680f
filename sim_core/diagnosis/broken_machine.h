#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "sim_core/bench/action.h"
#include "sim_core/bench/step.h"
#include "sim_core/diagnosis/model.h"

// Simulated broken machines: a fault is put into a machine, the machine is run through a few protocols, and every question of the
// model is answered from the readings. That is where all likelihoods come from.
namespace stirbench::diagnosis {

// What a fault is put into, before a run begins. `state` is set when the start has been built; before that it is nullptr and machine and
// setup may still be changed.
struct Workpiece {
  bench::Machine& machine;
  bench::StartSetup& setup;
  bench::State* state = nullptr;
  std::string_view protocol{};   // the run that it is for
};

// Whoever knows how to break a machine: called twice for a run, before the start is built and after.
class FaultApplier {
 public:
  virtual ~FaultApplier() = default;
  virtual bool knows(std::string_view fault) const = 0;
  // `severity` 0 mild .. 1 severe.
  virtual void apply(std::string_view fault, double severity, Workpiece& piece) const = 0;
};

// Instruments beyond the table of signals: "meter:...", "clamp:...", "gauge:...". Empty: none.
class InstrumentReader {
 public:
  virtual ~InstrumentReader() = default;
  virtual bool knows(std::string_view signal) const = 0;
  virtual double read(const bench::Machine& machine, const bench::State& state, std::string_view signal) const = 0;
};

// A run in which readings are taken. Loads are those of the draw's ordinary day; hands do the actions.
struct Protocol {
  std::string id;
  std::string title;
  bench::StartSetup start;
  std::vector<bench::TimedAction> actions;
  double until_s = 60.0;
};

// One machine of the sample: which fault, how bad, and an ordinary day's spread.
struct MachineDraw {
  std::size_t cause = Model::npos;   // npos: a good machine
  double severity = 0.5;
  double ambient_degC = 22.0;
  double supply_norm = 1.0;
  double load_norm = 1.0;            // times each protocol's loads
  std::uint64_t seed = 1;            // of the readings' errors
};
// Severity uniform in low..high; room 16..32 degC, supply 0.95..1.05, load 0.95..1.05, all uniform: common practice of a kitchen.
MachineDraw draw_machine(std::size_t cause, double low, double high, std::uint64_t seed);

// A signal's name may carry what is done with it over the run up to the reading's moment:
//   "NAME"             its value at that moment
//   "max:NAME" "min:NAME" "mean:NAME"   over the run so far
//   "when:NAME>VALUE"  "when:NAME<VALUE"  first second at which it holds; 1e9 when it never does
//   "rise:NAME"        value now less value at the start
// Text signals cannot be read. Throws std::invalid_argument naming what is unknown.
void check_reading(const Reading& reading, const std::vector<Protocol>& protocols, const InstrumentReader* instruments);

// Outcome of every question (symptoms first). A machine that hurts somebody or stops early answers with what it showed last.
std::vector<std::size_t> answer_all(const bench::Machine& machine, const Model& model, const std::vector<Protocol>& protocols,
                                    const FaultApplier& faults, const MachineDraw& draw, const InstrumentReader* instruments = nullptr);

// Raw readings of every question, without instrument errors, for those who set thresholds.
std::vector<double> read_all(const bench::Machine& machine, const Model& model, const std::vector<Protocol>& protocols,
                             const FaultApplier& faults, const MachineDraw& draw, const InstrumentReader* instruments = nullptr);

// The outcome that a reading gives.
std::size_t outcome_of(const Model& model, std::size_t question, double reading);

}  // namespace stirbench::diagnosis
