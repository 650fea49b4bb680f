#pragma once

#include <string>
#include <utility>
#include <vector>

#include "sim_core/training/scorer.h"

// A hand-made trace for monitors: readings and events tick by tick, without a machine that runs.
namespace stirbench::training::test {

double probe(const bench::Machine&, const bench::State& state);
double lid_open(const bench::Machine&, const bench::State& state);
std::string_view mode(const bench::Machine&, const bench::State& state);

inline const bench::Signal probe_degC{"probe_degC", bench::SignalKind::number, "", probe, nullptr, false};
inline const bench::Signal lid_flag{"lid_open", bench::SignalKind::flag, "", lid_open, nullptr, false};
inline const bench::Signal mode_text{"mode", bench::SignalKind::text, "", nullptr, mode, false};

// Conditions in short form.
Condition number(Op op, double bound);
Condition lid(bool open);
Condition in_mode(std::string name);
Condition event(bench::EventKind kind, std::string name = "", std::string of = "", double at_least = 0.0);
Condition poured(std::string ingredient, double at_least = 0.0);
Condition all(std::vector<Condition> parts);
Condition any(std::vector<Condition> parts);
Condition negate(Condition part);

// Events in short form.
bench::Event pour_event(const std::string& ingredient, double kg);
bench::Event alarm_event(bench::EventKind kind, control::AlarmId alarm);
bench::Event harm_event(bench::HarmId harm, double severity);

// A lesson with this one criterion, worth 10 points.
Lesson lesson_of(Monitor monitor, std::string met_text = "Met.", std::string missed_text = "Missed.");

// Feeds a scorer.
class Trace {
 public:
  explicit Trace(const Lesson& lesson) : scorer(lesson) {}
  explicit Trace(Lesson&&) = delete;

  // One tick with this probe reading.
  Trace& at(double t_degC, std::vector<bench::Event> events = {});
  // n ticks with what the state holds now.
  Trace& wait(int ticks);
  Trace& events(std::vector<bench::Event> list) { return at(state.plant.probe_degC, std::move(list)); }
  Trace& set_lid(bool open) {
    state.plant.fittings.lid_open = open;
    return *this;
  }
  ScoreCard card();
  CriterionResult result() { return card().criteria.at(0); }

  Scorer scorer;
  bench::State state;
  bench::Machine machine;
};

}  // namespace stirbench::training::test
