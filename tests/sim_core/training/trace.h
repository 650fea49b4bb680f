#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sim_core/training/scorer.h"

// A hand-made trace for monitors: readings and events tick by tick, without a machine that runs.
namespace stirbench::training::test {

double probe(const machine::Machine&, const machine::State& state);
double lid_open(const machine::Machine&, const machine::State& state);
std::string_view mode(const machine::Machine&, const machine::State& state);

inline const signals::Signal probe_degC{"probe_degC", signals::SignalKind::number, "", probe, nullptr, false};
inline const signals::Signal lid_flag{"lid_open", signals::SignalKind::flag, "", lid_open, nullptr, false};
inline const signals::Signal mode_text{"mode", signals::SignalKind::text, "", nullptr, mode, false};

// Conditions in short form.
Condition number(Op op, double bound);
Condition lid(bool open);
Condition in_mode(std::string name);
Condition event(machine::EventKind kind, std::string name = "", std::string of = "", double at_least = 0.0);
Condition poured(std::string ingredient, double at_least = 0.0);
Condition all(std::vector<Condition> parts);
Condition any(std::vector<Condition> parts);
Condition negate(Condition part);

// Events in short form.
machine::Event pour_event(const std::string& ingredient, double kg);
machine::Event alarm_event(machine::EventKind kind, control::AlarmId alarm);
machine::Event harm_event(machine::HarmId harm, double severity);

// A lesson with this one criterion, worth 10 points.
Lesson lesson_of(Monitor monitor, std::string met_text = "Met.", std::string missed_text = "Missed.");

// Feeds a scorer.
class Trace {
 public:
  explicit Trace(const Lesson& lesson) : scorer(lesson) {}
  explicit Trace(Lesson&&) = delete;

  // One tick with this probe reading.
  Trace& at(double t_degC, std::vector<machine::Event> events = {});
  // n ticks with what the state holds now.
  Trace& wait(int ticks);
  Trace& events(std::vector<machine::Event> list) { return at(state.plant.probe_degC, std::move(list)); }
  Trace& set_lid(bool open) {
    state.plant.fittings.lid_open = open;
    return *this;
  }
  ScoreCard card();
  CriterionResult result() { return card().criteria.at(0); }

  Scorer scorer;
  machine::State state;
  machine::Machine machine;
};

}  // namespace stirbench::training::test
