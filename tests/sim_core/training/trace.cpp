#include "tests/sim_core/training/trace.h"

#include "sim_core/hands/action.h"
#include "sim_core/hands/handles.h"

namespace stirbench::training::test {

double probe(const machine::Machine&, const machine::State& state) { return state.plant.probe_degC; }
double lid_open(const machine::Machine&, const machine::State& state) {
  return state.plant.fittings.lid_open ? 1.0 : 0.0;
}
std::string_view mode(const machine::Machine&, const machine::State& state) {
  return control::mode_name(state.control.mode);
}

Condition number(Op op, double bound) {
  Condition c;
  c.op = op;
  c.signal = &probe_degC;
  c.number = bound;
  return c;
}

Condition lid(bool open) {
  Condition c;
  c.op = Op::is_flag;
  c.signal = &lid_flag;
  c.flag = open;
  return c;
}

Condition in_mode(std::string name) {
  Condition c;
  c.op = Op::is_text;
  c.signal = &mode_text;
  c.text = std::move(name);
  return c;
}

Condition event(machine::EventKind kind, std::string name, std::string of, double at_least) {
  Condition c;
  c.op = Op::event;
  c.event = kind;
  c.text = std::move(name);
  c.of = std::move(of);
  c.event_at_least = at_least;
  return c;
}

Condition poured(std::string ingredient, double at_least) {
  return event(machine::EventKind::acted, "pour", std::move(ingredient), at_least);
}

Condition all(std::vector<Condition> parts) {
  Condition c;
  c.op = Op::all;
  c.parts = std::move(parts);
  return c;
}

Condition any(std::vector<Condition> parts) {
  Condition c;
  c.op = Op::any;
  c.parts = std::move(parts);
  return c;
}

Condition negate(Condition part) {
  Condition c;
  c.op = Op::negate;
  c.parts.push_back(std::move(part));
  return c;
}

machine::Event pour_event(const std::string& ingredient, double kg) {
  return {0, machine::EventKind::acted, hands::number_of(hands::pour), "", kg, ingredient};
}

machine::Event alarm_event(machine::EventKind kind, control::AlarmId alarm) {
  return {0, kind, static_cast<std::int32_t>(alarm), "", 0.0, std::string(control::alarm_key(alarm))};
}

machine::Event harm_event(machine::HarmId harm, double severity) {
  return {0,
          machine::EventKind::harm,
          static_cast<std::int32_t>(harm),
          "",
          severity,
          std::string(machine::harm_key(harm))};
}

Lesson lesson_of(Monitor monitor, std::string met_text, std::string missed_text) {
  Lesson lesson;
  lesson.id = "hand-made";
  Criterion criterion;
  criterion.id = "one";
  criterion.title = "One";
  criterion.points = 10.0;
  criterion.monitor = std::move(monitor);
  criterion.met_text = std::move(met_text);
  criterion.missed_text = std::move(missed_text);
  const bool waits_for_when =
      criterion.monitor.kind == MonitorKind::after ||
      (criterion.monitor.kind == MonitorKind::always &&
       (criterion.monitor.when.op != Op::all || !criterion.monitor.when.parts.empty()));
  if (!waits_for_when) criterion.chance = Condition{};  // at stake from the start: the monitors are looked at
  lesson.criteria.push_back(std::move(criterion));
  return lesson;
}

Trace& Trace::at(double t_degC, std::vector<machine::Event> events) {
  ++state.tick;
  state.plant.probe_degC = t_degC;
  scorer.see(Moment{machine, state, events});
  return *this;
}

Trace& Trace::wait(int ticks) {
  for (int i = 0; i < ticks; ++i) at(state.plant.probe_degC);
  return *this;
}

ScoreCard Trace::card() {
  static const std::vector<machine::Event> quiet;
  return scorer.card(Moment{machine, state, quiet});
}

}  // namespace stirbench::training::test
