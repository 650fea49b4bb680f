#include "sim_core/diagnosis/faulty_machine.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "sim_core/bench/script.h"
#include "sim_core/machine/random.h"
#include "sim_core/plant/plant.h"

namespace stirbench::diagnosis {

namespace {

const ReadingSpec& reading_of(const Model& model, std::size_t question) {
  return model.is_symptom(question) ? model.symptoms[question].reading : model.check(question).reading;
}

// Sum of twelve uniform numbers less six: mean 0, variance 1, no library function whose last bit differs
// elsewhere.
double normal(machine::Random& random) {
  double sum = -6.0;
  for (int i = 0; i < 12; ++i) sum += random.uniform();
  return sum;
}

void set_in(const machine::Machine& machine, machine::State& state, const Model& model, std::size_t cause,
            double severity) {
  if (cause == Model::npos) return;
  const std::string wrong = faults::inject(machine.plant, state.plant, model.causes[cause], severity);
  if (!wrong.empty()) throw std::invalid_argument("faults: " + wrong);
}

// The machine before anybody presses a key.
machine::State prepared(const machine::Machine& machine, const Model& model, const Protocol& protocol,
                        const RandomMachine& draw) {
  machine::StartSetup start = protocol.start;
  start.seed = draw.seed;
  start.environment.ambient_degC = draw.ambient_degC;
  start.environment.supply_norm = draw.supply_norm;
  const std::vector<machine::StartSetup::Load> loads = std::move(start.loaded);
  start.loaded.clear();
  machine::State state = bench::initial_state(machine, start);
  set_in(machine, state, model, draw.cause, draw.severity);
  set_in(machine, state, model, draw.also, draw.also_severity);
  for (const auto& load : loads) {
    const int index = machine.ingredient_index(load.ingredient);
    if (index < 0)
      throw std::invalid_argument("protocol \"" + protocol.id + "\": there is no ingredient \"" +
                                  load.ingredient + "\"");
    plant::pour(machine.plant, state.plant, machine.ingredients[static_cast<std::size_t>(index)],
                load.kg * draw.load_norm, load.degC);
  }
  return state;
}

}  // namespace

RandomMachine random_machine(std::size_t cause, double low, double high, std::uint64_t seed) {
  machine::Random random{seed};
  RandomMachine draw;
  draw.cause = cause;
  draw.severity = low + (high - low) * random.uniform();
  draw.ambient_degC = 16.0 + 16.0 * random.uniform();
  draw.supply_norm = 0.95 + 0.10 * random.uniform();
  draw.load_norm = 0.95 + 0.10 * random.uniform();
  draw.seed = random.next();
  return draw;
}

void check_reading(const machine::Machine& machine, const ReadingSpec& reading,
                   const std::vector<Protocol>& protocols) {
  const ParsedReading plan(machine, reading.signal);
  const bool known = std::any_of(protocols.begin(), protocols.end(),
                                 [&](const Protocol& one) { return one.id == reading.protocol; });
  if (!known) throw std::invalid_argument("there is no protocol \"" + reading.protocol + "\"");
}

std::size_t outcome_of(const Model& model, std::size_t question, double reading) {
  if (model.is_symptom(question)) {
    const Symptom& symptom = model.symptoms[question];
    return reading >= symptom.low && reading < symptom.high ? 1 : 0;
  }
  const std::vector<Outcome>& outcomes = model.check(question).outcomes;
  for (std::size_t o = 0; o < outcomes.size(); ++o) {
    if (reading >= outcomes[o].low && reading < outcomes[o].high) return o;
  }
  return outcomes.size() - 1;
}

FaultyMachines::FaultyMachines(machine::Machine machine, const Model& model, std::vector<Protocol> protocols)
    : machine_(std::move(machine)), model_(model) {
  for (const Cause& cause : model.causes) {
    if (machine_.fault_index(cause.id) < 0)
      throw std::invalid_argument("there is no fault \"" + cause.id + "\"");
  }
  for (std::size_t q = 0; q < model.question_count(); ++q)
    check_reading(machine_, reading_of(model, q), protocols);
  for (Protocol& protocol : protocols) {
    Run run{std::move(protocol), {}};
    for (std::size_t q = 0; q < model.question_count(); ++q) {
      const ReadingSpec& reading = reading_of(model, q);
      if (reading.protocol != run.protocol.id) continue;
      const double until_s = run.protocol.until_s;
      run.questions.push_back({q, ParsedReading(machine_, reading.signal),
                               reading.at_s > 0.0 ? std::min(reading.at_s, until_s) : until_s});
    }
    if (!run.questions.empty()) runs_.push_back(std::move(run));
  }
}

void FaultyMachines::run(const Run& run, const RandomMachine& draw, std::vector<double>& readings) const {
  bench::Run machine(machine_, prepared(machine_, model_, run.protocol, draw));
  std::vector<RunningValue> gauges(run.questions.size());
  std::vector<char> closed(run.questions.size(), 0);
  std::size_t open = gauges.size();
  const auto ticks = static_cast<std::uint64_t>(std::llround(run.protocol.until_s / machine::tick_s));
  const auto read = [&](const machine::State& state, const std::vector<machine::Event>&) {
    if (state.tick % machine::ticks_per_second != 0) return;
    const double now_s = static_cast<double>(state.tick) * machine::tick_s;
    for (std::size_t g = 0; g < gauges.size(); ++g) {
      const Question& question = run.questions[g];
      const bool last = now_s >= question.at_s || state.injured;
      if (closed[g] != 0 || (question.plan.fold() == Fold::now && !last)) continue;
      gauges[g].see(question.plan, question.plan.value(machine_, state), now_s);
      closed[g] = last ? 1 : 0;
      open -= last ? 1 : 0;
    }
  };
  bench::drive(
      machine, bench::ActionScript(run.protocol.actions),
      [&] { return machine.state().tick >= ticks || open == 0; }, read);
  for (std::size_t g = 0; g < gauges.size(); ++g) readings[run.questions[g].number] = gauges[g].value();
}

std::vector<double> FaultyMachines::read_all(const RandomMachine& draw) const {
  std::vector<double> readings(model_.question_count(), 0.0);
  for (const Run& one : runs_) run(one, draw, readings);
  return readings;
}

std::vector<std::size_t> FaultyMachines::answer_all(const RandomMachine& draw) const {
  const std::vector<double> readings = read_all(draw);
  std::vector<std::size_t> out;
  for (std::size_t q = 0; q < readings.size(); ++q) {
    const ReadingSpec& how = reading_of(model_, q);
    // A stream of its own for each question, so that another check in the guide does not change what this one
    // answers.
    machine::Random random{
        draw.seed ^ faults::fault_id_hash(model_.is_symptom(q) ? model_.symptoms[q].id : model_.check(q).id)};
    const double share = 1.0 + how.error_norm * normal(random);
    const double offset = how.error_abs * normal(random);
    out.push_back(outcome_of(model_, q, readings[q] * share + offset));
  }
  return out;
}

}  // namespace stirbench::diagnosis
